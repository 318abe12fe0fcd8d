// Our own keys: an inch of tape, digits, rub out. They write in one field at a time, the target:
// { input, name, last, next, go(step), skip() }, where `last` is the last figure as text and `next` the word on the main key.
chalk.pad = (() => {
  "use strict";
  const pad = document.querySelector("[data-pad]");
  if (!pad || !chalk.measuring) return null;
  const { facts } = chalk.measuring;
  const { read, print, PER } = chalk.lengths;
  const part = /(\s*[⅛¼⅜½⅝¾⅞]|\s*[⁰¹²³⁴⁵⁶⁷⁸⁹]+⁄[₀₁₂₃₄₅₆₇₈₉]+|\s+\d{1,2}\/\d{1,2}|[.,]\d*)$/;
  const asKey = { "1/8": "⅛", "1/4": "¼", "3/8": "⅜", "1/2": "½", "5/8": "⅝", "3/4": "¾", "7/8": "⅞" };
  const find = (name) => pad.querySelector(`[data-${name}]`);
  let target = null;
  let fresh = false; // just come to: the first digit begins anew, as over a selected text

  const whole = (text) => text.replace(part, "").trim();
  const partOf = (text) => {
    const found = (text.match(part) || [""])[0].trim().replace(",", ".");
    return asKey[found] || found;
  };

  // Sixteenths: as this phone was told, else as the house has it.
  const fine = () => (localStorage.getItem("chalk-sixteenths") || ("fine" in pad.dataset ? "on" : "off")) === "on";

  // The inch she is looking at: what is typed, or last time's while nothing is.
  const inch = () => (target.input.value ? whole(target.input.value) : whole(target.last));

  function draw() {
    if (!target) return;
    const text = target.input.value;
    find("pad-name").textContent = target.name;
    find("pad-value").textContent = text || "·";
    find("pad-whole").textContent = inch() || "0";
    find("next").textContent = target.next;
    for (const key of pad.querySelectorAll("[data-part]")) {
      key.setAttribute("aria-pressed", String(Boolean(text) && key.dataset.part === partOf(text)));
      key.toggleAttribute("data-was", Boolean(target.last) && key.dataset.part === partOf(target.last));
    }
    const sixteenth = find("sixteenth");
    if (sixteenth) sixteenth.hidden = !fine();
  }

  function write(text) {
    target.input.value = text.slice(0, 60);
    fresh = false;
    target.input.dispatchEvent(new Event("input", { bubbles: true }));
    draw();
  }

  function halfATick() {
    const { at } = read(target.input.value || inch(), facts.unit);
    if (at) write(print(at + PER.in / 16, facts.unit));
  }

  // A finger on a key leaves the field its focus.
  pad.addEventListener("pointerdown", (event) => event.preventDefault());
  pad.addEventListener("click", (event) => {
    const key = event.target.closest("button");
    if (!key || !target) return;
    const { digit, part: fraction } = key.dataset;
    const text = target.input.value;
    if (digit !== undefined) write(fresh || /[⅛¼⅜½⅝¾⅞₀-₉]$/.test(text) ? digit : text + digit);
    else if (fraction !== undefined) write(inch() + fraction);
    else if ("sixteenth" in key.dataset) halfATick();
    else if ("rub" in key.dataset) write([...text].slice(0, -1).join("").trimEnd());
    else if ("clear" in key.dataset) write("");
    else if ("back" in key.dataset) target.go(-1);
    else if ("skip" in key.dataset) target.skip();
    else if ("next" in key.dataset) target.go(1);
    else if ("letters" in key.dataset) target.letters();
  });

  const sixteenths = document.querySelector("[data-sixteenths]");
  if (find("sixteenth")) {
    const tick = sixteenths.querySelector("input");
    tick.checked = fine();
    tick.addEventListener("change", () => { localStorage.setItem("chalk-sixteenths", tick.checked ? "on" : "off"); draw(); });
    sixteenths.hidden = false;
  }

  function aim(at) {
    target = at;
    fresh = Boolean(at);
    draw();
  }

  return { aim, draw, typed: () => { fresh = false; draw(); }, box: pad };
})();

// All in a list: the keys come up on a phone when a field is come to. Enter keeps and goes on, Esc goes back.
chalk.list = (() => {
  "use strict";
  const { measuring, pad } = chalk;
  if (!pad) return null;
  const narrow = matchMedia("(max-width: 59.99rem)");
  const home = pad.box.parentNode;
  let letters = false;
  let on = false;
  let field = null;

  const wanted = () => on && narrow.matches && !letters;
  const fields = () => [...measuring.lines.values()].map((line) => line.input);
  const lineOf = (input) => [...measuring.lines.values()].find((line) => line.input === input);

  function go(step) {
    const all = fields();
    const to = all[all.indexOf(field) + step];
    if (to) to.focus();
    else hide();
  }

  function show(input) {
    field = input;
    input.select();
    if (!wanted()) return;
    const line = lineOf(input);
    const next = lineOf(fields()[fields().indexOf(input) + 1]);
    home.append(pad.box);
    pad.box.hidden = false;
    pad.aim({
      input, name: line.name, last: line.last ? chalk.lengths.print(line.last, measuring.facts.unit) : "",
      next: next ? `Keep, then ${next.name.toLowerCase()}` : "Keep", go, skip: () => go(1),
      letters: () => { letters = true; settle(); input.blur(); input.focus(); },
    });
    line.item.scrollIntoView({ block: "start" });
  }

  function hide() {
    pad.box.hidden = true;
    if (field) field.blur();
  }

  function settle() {
    for (const each of fields()) each.inputMode = wanted() ? "none" : "decimal";
    if (on) pad.box.hidden = !(wanted() && fields().includes(document.activeElement));
  }

  // A field filled by our own keys tells nobody that it changed, so we do.
  function leave(input, to) {
    if (pad.box.contains(to)) return;
    const line = lineOf(input);
    const now = measuring.stands(line.key);
    if (line.typing && input.value !== (now ? now.text : "")) measuring.settle(line);
    if (!fields().includes(to)) pad.box.hidden = true;
  }

  document.addEventListener("chalk:begun", () => {
    for (const each of fields()) {
      each.addEventListener("focus", () => { if (on) show(each); });
      each.addEventListener("input", () => { if (on && !pad.box.hidden) pad.typed(); });
      each.addEventListener("blur", (event) => { if (on) leave(each, event.relatedTarget); });
      each.addEventListener("keydown", (event) => {
        if (event.key === "Enter") { event.preventDefault(); go(1); }
        if (event.key === "Escape") { event.preventDefault(); go(-1); }
      });
    }
    narrow.addEventListener("change", settle);
  });

  return {
    turn(now) {
      on = now;
      settle();
      if (on && fields().includes(document.activeElement)) show(document.activeElement);
    },
  };
})();
