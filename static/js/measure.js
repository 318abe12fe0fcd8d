// The measuring card's own keys: an inch of tape, digits, back and on. Without this file the card is a
// plain form with the system's keyboard; with it, a reading is kept when its field is left (htmx).
(() => {
  "use strict";
  const pad = document.querySelector("[data-pad]");
  const fields = [...document.querySelectorAll("[data-measure]")];
  if (!pad || !fields.length) return;

  const part = /(\s*[⅛¼⅜½⅝¾⅞]|\s+\d{1,2}\/\d{1,2}|[.,]\d*)$/;
  const asKey = { "1/8": "⅛", "1/4": "¼", "3/8": "⅜", "1/2": "½", "5/8": "⅝", "3/4": "¾", "7/8": "⅞" };
  const narrow = matchMedia("(max-width: 59.99rem)");
  const find = (name) => pad.querySelector(`[data-${name}]`);
  const told = new Map(fields.map((each) => [each, each.value]));
  let field = null;
  let fresh = false; // just come to: the first digit begins anew, as over a selected text
  let letters = false;

  const whole = (text) => text.replace(part, "").trim();
  const partOf = (text) => {
    const found = (text.match(part) || [""])[0].trim().replace(",", ".");
    return asKey[found] || found;
  };

  function wanted() {
    return narrow.matches && !letters;
  }

  function draw() {
    find("pad-name").textContent = field.dataset.measure;
    find("pad-value").textContent = field.value || "·";
    find("pad-whole").textContent = whole(field.value) || "0";
    const next = fields[fields.indexOf(field) + 1];
    find("next").textContent = next ? `Keep, then ${next.dataset.measure.toLowerCase()}` : "Keep";
    const now = partOf(field.value);
    const last = partOf(field.dataset.last);
    for (const key of pad.querySelectorAll("[data-part]")) {
      key.setAttribute("aria-pressed", String(Boolean(field.value) && key.dataset.part === now));
      key.toggleAttribute("data-was", Boolean(field.dataset.last) && key.dataset.part === last);
    }
  }

  // A field filled by our own keys tells nobody that it changed, so we do; and nobody is told twice.
  function keep() {
    if (field && field.value !== told.get(field)) field.dispatchEvent(new Event("change", { bubbles: true }));
  }

  document.addEventListener("change", (event) => {
    if (!told.has(event.target)) return;
    if (told.get(event.target) === event.target.value) event.stopImmediatePropagation();
    else told.set(event.target, event.target.value);
  }, true);

  function write(text) {
    field.value = text.slice(0, 60);
    fresh = false;
    draw();
  }

  function go(step) {
    const to = fields[fields.indexOf(field) + step];
    keep();
    if (to) to.focus();
    else hide();
  }

  function show(to) {
    field = to;
    fresh = true;
    to.select();
    if (!wanted()) return;
    pad.hidden = false;
    draw();
    to.closest("[data-line]").scrollIntoView({ block: "start" });
  }

  function hide() {
    pad.hidden = true;
    if (field) field.blur();
  }

  function settle() {
    for (const each of fields) each.inputMode = wanted() ? "none" : "decimal";
    pad.hidden = !(wanted() && fields.includes(document.activeElement));
  }

  for (const each of fields) {
    each.addEventListener("focus", () => show(each));
    each.addEventListener("input", () => { fresh = false; if (!pad.hidden) draw(); });
    each.addEventListener("blur", (event) => {
      if (pad.contains(event.relatedTarget)) return;
      if (each === field) keep();
      if (!fields.includes(event.relatedTarget)) pad.hidden = true;
    });
    each.addEventListener("keydown", (event) => {
      if (event.key === "Enter") { event.preventDefault(); go(1); }
      if (event.key === "Escape") { event.preventDefault(); go(-1); }
    });
  }

  // A finger on a key leaves the field its focus.
  pad.addEventListener("pointerdown", (event) => event.preventDefault());
  pad.addEventListener("click", (event) => {
    const key = event.target.closest("button");
    if (!key || !field) return;
    const { digit, part: fraction } = key.dataset;
    const text = field.value;
    if (digit !== undefined) write(fresh || /[⅛¼⅜½⅝¾⅞]$/.test(text) ? digit : text + digit);
    else if (fraction !== undefined) write(whole(text) + fraction);
    else if ("rub" in key.dataset) write(text.slice(0, -1).trimEnd());
    else if ("clear" in key.dataset) write("");
    else if ("back" in key.dataset) go(-1);
    else if ("next" in key.dataset) go(1);
    else if ("letters" in key.dataset) { letters = true; settle(); field.blur(); field.focus(); }
  });

  // The likely value in a remark: one touch puts it in the field and keeps it.
  document.addEventListener("click", (event) => {
    const offer = event.target.closest("[data-use]");
    if (!offer) return;
    event.preventDefault();
    field = document.getElementById(offer.dataset.for);
    field.value = offer.dataset.use;
    keep();
  });

  document.addEventListener("htmx:afterSwap", (event) => {
    const line = event.target.closest("[data-line]");
    if (!line) return;
    const refused = Boolean(line.querySelector(".error"));
    line.classList.toggle("line-refused", refused);
    const value = line.querySelector("[data-measure]");
    if (refused) value.setAttribute("aria-invalid", "true");
    else value.removeAttribute("aria-invalid");
  });

  // Nothing came back: say so beside the figure, and let it be sent again.
  for (const trouble of ["htmx:sendError", "htmx:timeout", "htmx:responseError"]) {
    document.addEventListener(trouble, (event) => {
      if (!told.has(event.target)) return;
      told.set(event.target, null);
      const words = document.querySelector("[data-not-sent]").content.cloneNode(true);
      event.target.closest("[data-line]").querySelector(".line-said").replaceChildren(words);
    });
  }

  narrow.addEventListener("change", settle);
  settle();
  if (fields.includes(document.activeElement)) show(document.activeElement);
})();
