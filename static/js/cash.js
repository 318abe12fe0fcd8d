// Cash taken on the page of work at hand: kept on this phone with a receipt of its own number, and sent like a reading.
(() => {
  "use strict";
  const told = document.querySelector("[data-receipt]");
  if (!told || !chalk.at) return;
  const main = document.getElementById("main");
  const { workshop, by, sign, places } = told.dataset;
  const READABLE = Number(places) ? new RegExp(`^[0-9]{1,10}([.,][0-9]{1,${places}})?$`) : /^[0-9]{1,10}$/;
  const PREFIX = `cash:${chalk.at.person}:`;

  function make(tag, className, ...inside) {
    const each = document.createElement(tag);
    each.className = className;
    each.append(...inside);
    return each;
  }

  function button(words, act) {
    const each = make("button", "btn-plain", words);
    each.type = "button";
    each.addEventListener("click", act);
    return each;
  }

  const provisional = (key) => `P-${key.replaceAll("-", "").slice(0, 6).toUpperCase()}`;
  const inBook = (card) => (card.kept.cash.sent ? card.kept.cash.reading : "");

  function today() {
    const now = new Date();
    return [now.getFullYear(), now.getMonth() + 1, now.getDate()].map((n) => String(n).padStart(2, "0")).join("-");
  }

  // The receipt, to be shown to the client or printed: the phone's own number stands until the book has given its one.
  function show(card) {
    const { cash, token } = card;
    const list = make("dl", "");
    const say = (name, value) => list.append(make("dt", "", name), make("dd", "", value));
    const head = make("h2", "", `Receipt ${inBook(card) || provisional(token)}`);
    head.id = "receipt-title";
    say("Received from", cash.client);
    say("For", `${cash.number}, ${cash.title}`);
    say("Amount", `${cash.amount}, cash`);
    say("When", cash.said);
    say("Taken by", by);
    const state = inBook(card) ? `In the book. Also known as ${provisional(token)}.` : "A number of this phone’s own, until it is in the book. The payment goes by itself when the network is back.";
    const box = make("dialog", "tray-box receipt", make("p", "", workshop), head, list, make("p", "small soft", state));
    box.setAttribute("aria-labelledby", head.id);
    box.append(make("div", "acts", button("Print", () => print()), button("Close", () => box.close())));
    box.addEventListener("close", () => box.remove());
    document.body.append(box);
    box.showModal();
  }

  async function list() {
    const section = document.querySelector("[data-receipts]");
    const cards = (await chalk.cards()).filter((each) => String(each.id).startsWith(PREFIX) && (each.cash.day === today() || !inBook(each)));
    section.hidden = !cards.length;
    section.querySelector("ul").replaceChildren(...cards.map((card) => {
      const refused = chalk.refused().find((each) => each.token === card.token);
      const where = refused ? refused.refused : inBook(card) ? `In the book as ${inBook(card)}.` : "On this phone, waiting to send.";
      const text = make("div", "row-text", make("b", "", `${cash(card)} ${card.cash.number}, ${card.cash.client}`), make("p", refused ? "error" : "", `${provisional(card.token)}. ${where}`));
      return make("li", "", text, button("Receipt", () => show(card)));
    }));
  }
  const cash = (card) => card.cash.amount;

  async function take(form) {
    const field = form.querySelector("input");
    const error = form.querySelector(".error");
    const typed = field.value.trim();
    error.hidden = READABLE.test(typed) && Number(typed.replace(",", ".")) > 0;
    if (!error.hidden) {
      error.textContent = typed ? `I can’t read “${typed.slice(0, 40)}” as an amount. Write it as 85${Number(places) ? " or 42.50" : ""}.` : "Nothing is written here. Write what was taken.";
      field.focus();
      return;
    }
    const { number, client, title, url, balance } = form.dataset;
    const key = chalk.newKey();
    const amount = `${sign}${typed.replace(",", ".")}`;
    const body = JSON.stringify({ amount: typed, taken_on: today() });
    const card = { id: PREFIX + key, token: key, cash: { number, client, title, amount, day: today(), said: new Date().toLocaleString([], { dateStyle: "long", timeStyle: "short" }) }, kept: {} };
    const thing = { key, url, body, client, what: `Cash for ${number}`, text: amount, token: key, measure: "cash", card: card.id, back: `${location.pathname}#${number}` };
    field.value = "";
    await chalk.add(thing, card, (each) => { each.kept.cash = { key, sent: 0 }; });
    form.querySelector("p").textContent = `${balance} was to pay; ${amount} of it is taken with this phone.`;
    await list();
    show((await chalk.card(card.id)) || card);
  }

  let taking = false;
  document.addEventListener("submit", async (event) => {
    if (!event.target.matches("[data-cash]") || !main.classList.contains("takes-cash")) return;
    event.preventDefault();
    if (taking) return;
    taking = true;
    try {
      await take(event.target);
    } finally {
      taking = false;
    }
  });

  document.addEventListener("chalk:queue", () => list());
  chalk.works().then((works) => { main.classList.toggle("takes-cash", works); if (works) list(); });
})();
