// One measure on a screen: who, how far, where the tape goes, what it says, and the keys. She chooses between this and
// the list; the choice is remembered on this phone.
chalk.one = (() => {
  "use strict";
  const { measuring, pad, list, lengths } = chalk;
  const page = document.querySelector("[data-one]");
  if (!page || !pad) return null;
  const { facts, lines } = measuring;
  const find = (name) => page.querySelector(`[data-one-${name}]`);
  const input = find("value");
  const TAPE = ["tape-edge", "tape-band", "tape-ticks"];
  let order = [];
  let at = 0;
  let bad = null; // a text that can't be read, once she has tried to keep it
  let pending = Promise.resolve();

  const key = () => order[at];
  const line = () => lines.get(key());
  const typedName = () => `chalk-typed:${measuring.card().id}`;

  function begin() {
    const wanted = facts.wanted.filter((each) => lines.has(each));
    order = wanted.length ? wanted : [...lines.keys()].filter((each) => !lines.get(each).right);
    at = Math.max(0, order.findIndex((each) => !measuring.stands(each) && !measuring.card().skipped.includes(each)));
    const typed = JSON.parse(localStorage.getItem(typedName()) || "null");
    if (typed && order.includes(typed.key)) at = order.indexOf(typed.key);
    turn(localStorage.getItem("chalk-view") !== "list", false);
    come(typed ? typed.text : null);
    // The first key is as quick as the next: what it needs is read and compiled now.
    measuring.notices(key(), "28", 28 * lengths.PER.in);
    measuring.change(key(), 28 * lengths.PER.in);
  }

  function turn(one, remember = true) {
    if (remember) localStorage.setItem("chalk-view", one ? "one" : "list");
    document.body.classList.toggle("one-at-a-time", one);
    page.hidden = !one;
    measuring.page.hidden = one;
    list.turn(!one);
    if (!one) return;
    find("keys").append(pad.box);
    pad.box.hidden = false;
    draw();
  }

  // To the measure at hand, with what stands for it, or what was being typed when the phone went off.
  function come(typed = null) {
    const now = measuring.stands(key());
    input.value = typed === null ? (now ? now.text : "") : typed;
    find("end").hidden = true;
    find("card").hidden = false;
    if (page.hidden) return;
    pad.box.hidden = false;
    draw();
    input.focus({ preventScroll: true });
    input.select();
  }

  function target() {
    const next = order[at + 1];
    return {
      input, name: line().name, last: line().last ? lengths.print(line().last, facts.unit) : "",
      next: next ? `Keep, then ${lines.get(next).name.toLowerCase()}` : "Keep, the last", go, skip, letters() {},
    };
  }

  // What the figure looks like, what it says against last time, and what is odd about it, at each key press.
  function draw() {
    if (page.hidden || !order.length) return;
    const each = line();
    find("name").textContent = each.name;
    find("label").textContent = each.name;
    find("place").textContent = `${facts.wanted.length ? `${facts.wantedTitle}, ` : ""}${at + 1} of ${order.length}`;
    find("last").textContent = each.last ? `${each.when}: ${lengths.print(each.last, facts.unit)}` : "first time";
    find("how").textContent = [...each.item.querySelectorAll(".line-how > span:not(.line-term)")].map((part) => part.textContent).join(" ");
    drawTicks();
    drawTable();
    drawFigures(each);
    drawValue(each);
    pad.aim(target());
  }

  function drawValue(each) {
    const text = input.value;
    const { at: length, refused } = lengths.read(text, facts.unit);
    const unreadable = Boolean(text) && Boolean(refused) && bad === text;
    find("change").textContent = length ? measuring.change(each.key, length) : "";
    const odd = length ? measuring.notices(each.key, text, length) : [];
    const server = measuring.refusal(each.key);
    const note = find("note");
    const said = unreadable ? refused : server && server.text === text ? server.refused : odd.map((one) => one.text).join(" ");
    note.hidden = !said;
    find("how").hidden = Boolean(said);
    note.classList.toggle("one-refused", unreadable || Boolean(server && server.text === text));
    if (find("said").textContent !== said) find("said").textContent = said;
    const offer = odd.length && odd[0].offer;
    find("offer").hidden = !offer;
    find("offer").textContent = offer ? `Put ${offer}` : "";
    find("offer").value = offer || "";
    input.classList.toggle("one-long", [...text].length > 6);
    if (unreadable) input.setAttribute("aria-invalid", "true");
    else input.removeAttribute("aria-invalid");
    pad.box.querySelector("[data-next]").setAttribute("aria-describedby", odd.length ? "one-said" : "");
  }

  function drawTicks() {
    const ticks = order.map((each, n) => {
      const tick = measuring.make("li", n === at ? "now" : measuring.stands(each) ? "taken" : measuring.card().skipped.includes(each) ? "skipped" : "");
      return tick;
    });
    find("ticks").replaceChildren(...ticks);
  }

  // On a desk, beside the card: last time, today, the change. Touch a row to go to it.
  function drawTable() {
    const box = find("table");
    if (!box.checkVisibility || !box.checkVisibility()) return;
    const say = (length) => (length ? lengths.print(length, facts.unit) : "·");
    for (const each of lines.values()) {
      const row = box.querySelector(`[data-row="${each.key}"]`);
      const stands = measuring.stands(each.key);
      const by = stands && each.last ? stands.length - each.last : 0;
      const skipped = measuring.card().skipped.includes(each.key) && !stands;
      const cells = [say(each.last), each.key === key() ? "now" : skipped ? "skipped" : say(stands && stands.length), by ? `${by > 0 ? "+" : ""}${lengths.print(by, facts.unit)}` : ""];
      cells.forEach((text, n) => { row.children[n + 1].textContent = text; });
      row.className = each.key === key() ? "now" : by ? "by" : "";
    }
  }

  function drawFigures(each) {
    const [from, to] = each.item.dataset.span.split(" ").map(Number);
    for (const figure of page.querySelectorAll("svg[data-figure]")) {
      for (const level of figure.querySelectorAll("[data-m]")) {
        level.classList.toggle("taken", Boolean(measuring.stands(level.dataset.m)));
        level.classList.toggle("now", level.dataset.m === each.key);
      }
      const tape = figure.querySelector("[data-tape]");
      const paths = [...figure.querySelectorAll(`[data-m="${each.key}"] path`)];
      const ends = [...figure.querySelectorAll(`[data-m="${each.key}"] circle`)];
      tape.replaceChildren(...TAPE.flatMap((name) => paths.map((path) => {
        const copy = path.cloneNode();
        copy.setAttribute("class", name);
        return copy;
      })), ...ends.map((end) => { const copy = end.cloneNode(); copy.setAttribute("class", "tape-ring"); return copy; }));
      const box = figure.getBoundingClientRect();
      if (!box.width || !box.height) continue;
      const tall = Math.max((200 * box.height) / box.width, to - from + 40);
      const top = Math.max(4, Math.min((from + to) / 2 - tall / 2, 476 - tall));
      figure.setAttribute("viewBox", `0 ${Math.round(tall >= 472 ? 240 - tall / 2 : top)} 200 ${Math.round(tall)}`);
    }
  }

  // Keys never wait for the phone's store: the next measure is there at once, the reading is kept behind it.
  function go(step) {
    if (step < 0) { if (at > 0) { at -= 1; forgetTyped(); come(); } return; }
    const text = input.value.trim();
    const now = measuring.stands(key());
    const { at: length, refused } = lengths.read(text, facts.unit);
    if (!length) {
      bad = input.value;
      if (!text) { find("note").hidden = false; find("how").hidden = true; find("said").textContent = "Nothing is written. Write what the tape says, or skip."; }
      else drawValue(line());
      return;
    }
    const sure = measuring.notices(key(), text, length).length > 0;
    const kept = key();
    find("status").textContent = `${line().name} ${text} is kept.`;
    if (!now || now.length !== length || (sure && !now.sure) || measuring.refusal(kept)) {
      const keeping = measuring.keep(kept, text, sure); // at once: going back to it finds it, however slow the store is
      pending = pending.then(() => keeping);
    }
    forgetTyped();
    onward();
  }

  function skip() {
    const skipped = key();
    forgetTyped();
    pending = pending.then(() => measuring.skip(skipped, !measuring.stands(skipped)));
    onward();
  }

  function onward() {
    if (at + 1 < order.length) { at += 1; come(); }
    else pending.then(end);
  }

  const forgetTyped = () => localStorage.removeItem(typedName());

  function end() {
    const rest = [...lines.keys()].filter((each) => !order.includes(each));
    const skipped = order.filter((each) => !measuring.stands(each));
    find("card").hidden = true;
    pad.box.hidden = true;
    find("end").hidden = false;
    find("end-said").textContent = `${order.length - skipped.length} of ${order.length} taken.`;
    find("end-skipped").replaceChildren(...skipped.map((each) => {
      const back = measuring.make("button", "btn-quiet", lines.get(each).name);
      back.type = "button";
      back.addEventListener("click", () => { at = order.indexOf(each); come(); });
      return back;
    }));
    find("end-left").hidden = !skipped.length;
    find("rest").hidden = !rest.length;
    find("rest").textContent = `Take the other ${rest.length} too`;
    find("end-done").focus();
  }

  page.addEventListener("click", (event) => {
    const row = event.target.closest("[data-go]");
    if (row) { if (!order.includes(row.dataset.go)) order = [...order, ...[...lines.keys()].filter((each) => !order.includes(each))]; at = order.indexOf(row.dataset.go); come(); }
    if (event.target.closest("[data-one-list]")) turn(false);
    if (event.target.closest("[data-one-rest]")) { at = order.length; order = [...order, ...[...lines.keys()].filter((each) => !order.includes(each))]; come(); }
    if (event.target.closest("[data-one-offer]")) { input.value = find("offer").value; input.dispatchEvent(new Event("input", { bubbles: true })); input.focus(); }
  });
  // To the client, once all is sent: her page then shows it.
  find("end-done").addEventListener("click", async (event) => {
    if (event.ctrlKey || event.metaKey || event.shiftKey) return;
    event.preventDefault();
    await chalk.allSent(measuring.card().token);
    location.assign(facts.client_page);
  });
  for (const each of document.querySelectorAll("[data-to-one]")) {
    each.hidden = false;
    each.addEventListener("click", () => { turn(true); come(); });
  }
  input.addEventListener("input", () => {
    bad = null;
    localStorage.setItem(typedName(), JSON.stringify({ key: key(), text: input.value }));
    drawValue(line());
    pad.typed();
  });
  page.addEventListener("keydown", (event) => {
    if (find("card").hidden) return;
    if (event.target === input && event.key === "Enter") { event.preventDefault(); go(1); }
    if (event.key === "Escape") { event.preventDefault(); go(-1); }
    if (event.key === "s" && event.target !== input) { event.preventDefault(); skip(); }
  });
  addEventListener("resize", draw);
  document.addEventListener("chalk:begun", begin);
  document.addEventListener("chalk:card", () => { if (order.length && find("end").hidden) { drawTicks(); drawTable(); drawValue(line()); drawFigures(line()); } });

  return { turn, go: (to) => { at = Math.max(0, order.indexOf(to)); come(); }, place: () => key(), order: () => order };
})();
if (chalk.one) chalk.measuring.begin();
