// The measuring card: what is read off the tape is kept on this phone at once and sent when it can be. Without scripts
// the same page is a plain form. The list's own keys are here too; one measure on a screen is in one.js.
chalk.measuring = (() => {
  "use strict";
  const page = document.querySelector("[data-card]");
  if (!page || !chalk.at) return null;
  const { lengths, odd } = chalk;
  const facts = JSON.parse(document.getElementById("facts").textContent);
  const named = new URLSearchParams(location.search);
  const id = `${chalk.at.person}:${facts.client}${named.get("card") ? `:${facts.token}` : ""}`;
  const lines = new Map();
  let card = null;

  const dayOf = (moment) => [moment.getFullYear(), moment.getMonth() + 1, moment.getDate()].map((n) => String(n).padStart(2, "0")).join("-");
  const today = () => dayOf(new Date());
  const fresh = () => ({ id, token: facts.day === today() || named.get("card") ? facts.token : chalk.newKey(), day: facts.takenOn === facts.day ? today() : facts.takenOn, begun: today(), kept: {}, skipped: [], about: {} });

  function readLines(from) {
    for (const item of from.querySelectorAll("[data-line]")) {
      const { key, kind, low, high, last, when, now, reading, sure, written, right } = item.dataset;
      const input = item.querySelector("[data-measure]");
      // The same line when the page is read again, so that what is being typed in it is not forgotten.
      lines.set(key, Object.assign(lines.get(key) || {}, {
        key, kind, item, input, when, right, name: input.dataset.measure, low: Number(low), high: Number(high), last: Number(last || 0),
        book: now ? { length: Number(now), reading, text: input.defaultValue, sure: Number(sure || 0), written: Number(written || 0) } : null,
      }));
    }
  }

  // What stands for a measure now: on its way to the phone's store, on this phone, or in the book as the page came with it.
  const onTheWay = new Map();
  const stands = (key) => onTheWay.get(key) || stood(key);
  function stood(key) {
    const kept = card.kept[key];
    const { book } = lines.get(key);
    const same = book && facts.token === card.token;
    if (kept && !(same && kept.sent && facts.made > kept.sent)) return { ...kept, here: true };
    return same ? book : null;
  }

  const waits = (key) => onTheWay.has(key) || chalk.waiting().some((each) => each.token === card.token && each.measure === key);
  const refusal = (key) => chalk.refused().find((each) => each.token === card.token && each.measure === key);
  const all = () => Object.fromEntries([...lines.keys()].map((key) => [key, (stands(key) || {}).length]));

  // What is odd and has not been said to be right: [{ text, offer }].
  function notices(key, text, length) {
    const line = lines.get(key);
    const now = stands(key);
    const settled = now && now.sure && now.length === length;
    const found = settled ? [] : [odd.remark(line, text, facts.unit)].filter(Boolean);
    const lengthsNow = { ...all(), [key]: length };
    for (const each of odd.against(facts.rules, lengthsNow, facts.unit)) {
      if (!each.keys.includes(key)) continue;
      const held = each.keys.map((other) => (other === key && !(now && now.length === length) ? { written: Infinity } : stands(other)));
      const newest = Math.max(...held.map((one) => one.written));
      if (!held.some((one) => one.sure && one.sure >= newest)) found.push({ text: each.text, offer: "" });
    }
    return found;
  }

  function change(key, length) {
    const { last } = lines.get(key);
    const text = last && lengths.print(Math.abs(length - last), facts.unit);
    return !last ? "" : text === "0" ? "the same" : `${text} ${length > last ? "more" : "less"}`;
  }

  // Keep a reading, after those before it. Answers "" or the sentence that says why it can't be read.
  let last = Promise.resolve();
  function keep(key, typed, sure = false) {
    const text = typed.trim();
    const { at: length } = lengths.read(text, facts.unit);
    const moment = Date.now();
    const going = { text, length, written: moment, sure: sure ? moment : 0, here: true };
    if (length) onTheWay.set(key, going);
    last = last.catch(() => {}).then(() => keepNow(key, text, sure, () => { if (onTheWay.get(key) === going) onTheWay.delete(key); }));
    return last;
  }

  const keepNow = (key, text, sure, arrived) => write(key, text, sure, arrived).finally(arrived);

  async function write(key, text, sure, arrived) {
    const now = stood(key);
    const { at: length, refused } = lengths.read(text, facts.unit);
    if (refused) return !text && now ? `${lengths.print(now.length, facts.unit)} is kept. Write the right figure, or take it out with “Put right”.` : refused;
    const refusedOnce = refusal(key);
    if (now && now.length === length && !refusedOnce && (!sure || now.sure)) return "";
    const body = { token: card.token, taken_on: card.day, unit: facts.unit, written: { [key]: text }, sure: sure ? [key] : [], about: card.about };
    const thing = { url: facts.take, body: JSON.stringify(body), client: facts.name, what: lines.get(key).name, text, token: card.token, measure: key, card: id, back: location.pathname };
    const note = (each, entry) => {
      each.kept[key] = { text, length, key: entry.key, written: entry.at, sure: sure ? entry.at : 0, sent: 0 };
      each.skipped = each.skipped.filter((other) => other !== key);
    };
    await chalk.add(thing, card, note);
    await reload(arrived);
    return "";
  }

  async function skip(key, skipped = true) {
    const note = (each) => { each.skipped = [...each.skipped.filter((other) => other !== key), ...(skipped ? [key] : [])]; };
    note(card);
    await chalk.changeCard(card, note);
    draw();
  }

  const changedAbout = () => [...page.querySelectorAll(".about [name]")].filter((field) => field.value !== (card.about[field.name] ?? field.defaultValue));

  // What was worn, the posture, the note: with the next reading, or by itself once there is one.
  async function keepAbout() {
    for (const { name, value } of changedAbout()) card.about[name] = value;
    if (card.about.taken_on) card.day = card.about.taken_on;
    if (![...lines.keys()].some(stands)) return chalk.changeCard(card, (each) => Object.assign(each, { about: card.about, day: card.day }));
    const body = { token: card.token, taken_on: card.day, unit: facts.unit, written: {}, about: card.about };
    const thing = { url: facts.take, body: JSON.stringify(body), client: facts.name, what: "What was worn, and notes", text: "", token: card.token, measure: "about", card: id, back: location.pathname };
    return chalk.add(thing, card, (each) => Object.assign(each, { about: card.about, day: card.day }));
  }

  // What is on its way has arrived once the card at hand has it, not before: between the two it must stand as well.
  async function reload(arrived = () => {}) {
    const stored = await chalk.card(id);
    if (stored && stored.token === card.token) card = stored;
    arrived();
    draw();
  }

  // The list ------------------------------------------------------------------------------------------------------

  function make(tag, className, ...inside) {
    const each = document.createElement(tag);
    each.className = className;
    each.append(...inside);
    return each;
  }

  function icon(name) {
    const svg = document.createElementNS("http://www.w3.org/2000/svg", "svg");
    const use = document.createElementNS("http://www.w3.org/2000/svg", "use");
    svg.setAttribute("class", "icon");
    svg.setAttribute("aria-hidden", "true");
    use.setAttribute("href", `${facts.icons}#${name}`);
    svg.append(use);
    return svg;
  }

  function said(line, error) {
    const now = stands(line.key);
    const refused = error || (refusal(line.key) || {}).refused;
    if (refused) {
      const text = make("p", "error", icon("alert"), make("span", "", refused));
      text.setAttribute("role", "alert");
      return [text];
    }
    if (!now) return [];
    const by = change(line.key, now.length);
    const where = waits(line.key) ? "on this phone" : "in the book";
    const kept = make("p", waits(line.key) ? "line-kept line-here" : "line-kept", icon(waits(line.key) ? "phone" : "tick"), make("span", "", `${lengths.print(now.length, facts.unit)} ${where}`, by ? ", " : "", make("b", "", by)));
    if (now.reading && !waits(line.key)) {
      const right = make("a", "line-right", "Put right");
      right.href = `${facts.readings}${now.reading}/correct/`;
      kept.append(" ", right);
    }
    return [kept, ...notices(line.key, now.text, now.length).map((each, n) => noticed(line, each, n === 0))];
  }

  function noticed(line, { text, offer }, first) {
    const note = make("p", "line-odd", `${text} `);
    if (offer) note.append(button(`Put ${offer}`, () => { line.input.value = offer; settle(line); }), " ");
    if (first) note.append(button("Keep it", async () => { await keep(line.key, line.input.value, true); }));
    return note;
  }

  function button(words, act) {
    const each = make("button", "btn-quiet", words);
    each.type = "button";
    each.addEventListener("click", act);
    return each;
  }

  function drawLine(line, error = "") {
    const box = line.item.querySelector(".line-said");
    box.replaceChildren(...said(line, error));
    const bad = Boolean(box.querySelector(".error"));
    line.item.classList.toggle("line-refused", bad);
    if (bad) line.input.setAttribute("aria-invalid", "true");
    else line.input.removeAttribute("aria-invalid");
  }

  function draw() {
    for (const line of lines.values()) {
      const now = stands(line.key);
      if (now && line.input !== document.activeElement && !line.typing) line.input.value = now.text;
      if (!line.typing) drawLine(line);
    }
    for (const each of document.querySelectorAll("[data-taken]")) each.textContent = `${[...lines.keys()].filter(stands).length} of ${[...lines.values()].filter((each) => !each.right || stands(each.key)).length} taken`;
    document.dispatchEvent(new CustomEvent("chalk:card"));
  }

  // A field of the list was left: keep what stands in it, or say why not.
  async function settle(line) {
    line.typing = true;
    const empty = !line.input.value.trim() && !stands(line.key);
    const error = empty ? "" : await keep(line.key, line.input.value);
    line.typing = Boolean(error);
    drawLine(line, error);
    if (!error && !empty) document.getElementById("said").textContent = [`${line.name} ${line.input.value} is kept.`, ...notices(line.key, line.input.value, stands(line.key).length).map((each) => each.text)].join(" ");
  }

  // Something is written under the card's token already, or on its way: a second one would part the measuring in two.
  const begun = () => onTheWay.size > 0 || Object.keys(card.kept).length > 0 || chalk.waiting().some((each) => each.token === card.token);

  // A newer page than the one that the phone had at hand: take its figures, and leave what is being written.
  async function refresh() {
    const text = await chalk.keepPage(location.pathname).catch(() => null);
    const newer = text && new DOMParser().parseFromString(text, "text/html");
    const told = newer && newer.getElementById("facts");
    if (!told) return;
    const now = JSON.parse(told.textContent);
    for (const item of newer.querySelectorAll("[data-line]")) {
      const line = lines.get(item.dataset.key);
      for (const name of Object.keys(line.item.dataset)) delete line.item.dataset[name];
      Object.assign(line.item.dataset, item.dataset);
      line.item.querySelector(".line-last").replaceChildren(...item.querySelector(".line-last").childNodes);
      line.input.defaultValue = item.querySelector("[data-measure]").defaultValue;
    }
    Object.assign(facts, { token: now.token, made: now.made, day: now.day });
    readLines(page);
    if (!begun() && facts.day === today()) card.token = facts.token;
    draw();
  }

  async function begin() {
    if (!(await chalk.works())) return; // nothing can be kept on this phone: the plain form does all
    readLines(page);
    card = await chalk.card(id);
    const worn = card && (card.begun !== today() || named.has("anew") || (!Object.keys(card.kept).length && facts.day === today()));
    if (!card || worn) card = { ...fresh(), about: card && card.begun === today() && !named.has("anew") ? card.about : {} };
    if (named.has("anew")) {
      await chalk.keepCard(card);
      history.replaceState(null, "", location.pathname);
    }
    // Typed before all this was ready, on a slow phone: nothing has heard of it yet. The line that is being written settles itself.
    for (const [name, value] of Object.entries(card.about)) if (page.elements[name] && page.elements[name].value === page.elements[name].defaultValue) page.elements[name].value = value;
    page.elements.token.value = card.token;
    if (changedAbout().length) aboutKept = keepAbout();
    const early = [...lines.values()].filter(({ input }) => input.value.trim() !== input.defaultValue.trim());
    early.forEach((line) => { line.typing = true; });
    draw();
    early.filter(({ input }) => input !== document.activeElement).forEach(settle);
    document.addEventListener("chalk:queue", () => reload());
    document.dispatchEvent(new CustomEvent("chalk:begun"));
    // The page may have come from the phone, or before the phone could keep it.
    if (navigator.serviceWorker && !named.get("card")) document.addEventListener("chalk:ready", refresh, { once: true });
  }

  page.addEventListener("change", (event) => {
    if (!card) return;
    const line = [...lines.values()].find((each) => each.input === event.target);
    if (line) settle(line);
    else if (event.target.closest(".about")) aboutKept = keepAbout();
  });
  page.addEventListener("input", (event) => {
    const line = [...lines.values()].find((each) => each.input === event.target);
    if (line) line.typing = true;
  });

  // “Keep these measures” with scripts: everything is kept already, so it leads on, once all of it is sent.
  let [aboutKept, leaving] = [Promise.resolve(), false];
  page.addEventListener("submit", async (event) => {
    if (!card) return;
    event.preventDefault();
    if (leaving) return;
    leaving = true;
    try {
      for (const line of lines.values()) if (line.typing) await settle(line);
      await aboutKept;
      if (changedAbout().length) await keepAbout();
      await lead();
    } finally {
      leaving = false;
    }
  });

  async function lead() {
    const bad = page.querySelector(".line-refused [data-measure]");
    if (bad) return bad.focus();
    if (![...lines.keys()].some(stands)) return notKept("No measure is written yet. Write at least one, or go back to the client.");
    document.getElementById("said").textContent = "Being sent.";
    await chalk.allSent(card.token);
    return refusal("about") ? notKept(refusal("about").refused) : location.assign(facts.client_page);
  }

  function notKept(why) {
    const box = document.getElementById("not-kept");
    box.replaceChildren(icon("alert"), make("span", "", why));
    box.hidden = false;
    box.scrollIntoView({ block: "center" });
  }

  return { facts, lines, page, begin, keep, skip, stands, notices, change, waits, refusal, make, icon, settle, today, card: () => card };
})();
