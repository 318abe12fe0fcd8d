// What this phone keeps until it is sent: a queue in its own database, sent once and in order, whatever breaks between.
// Each thing has its key, so that the server can tell a repeat from a new one. Others use it through `window.chalk`.
window.chalk = (() => {
  "use strict";
  const told = document.querySelector("meta[name=chalk-phone]");
  const at = told ? JSON.parse(told.content) : null; // null: nobody is signed in, or nobody who measures
  const PAGES = at && `pages-${at.person}`;
  const EVERY = 3000;
  const AGAIN = 5 * 60e3;
  const REFUSED = new Set([400, 404, 409, 413, 422]);
  let state = ""; // "", "off-line", "signed-out", "busy"
  let mine = [];

  const opened = new Promise((resolve, reject) => {
    const asked = indexedDB.open("chalk", 1);
    asked.onupgradeneeded = () => {
      asked.result.createObjectStore("queue", { keyPath: "n", autoIncrement: true });
      asked.result.createObjectStore("cards");
    };
    asked.onsuccess = () => resolve(asked.result);
    asked.onerror = () => reject(asked.error);
  });
  const works = () => opened.then(() => true, () => false);

  // One transaction, answered only once it is on the phone's own store, not merely on its way there.
  async function inside(mode, act) {
    const db = await opened;
    return new Promise((resolve, reject) => {
      const transaction = db.transaction(["queue", "cards"], mode, { durability: "strict" });
      let asked;
      transaction.oncomplete = () => resolve(asked instanceof IDBRequest ? asked.result : asked);
      transaction.onabort = () => reject(transaction.error);
      asked = act(transaction.objectStore("queue"), transaction.objectStore("cards"));
    });
  }

  function newKey() {
    if (crypto.randomUUID) return crypto.randomUUID();
    const b = crypto.getRandomValues(new Uint8Array(16));
    b[6] = (b[6] & 15) | 64;
    b[8] = (b[8] & 63) | 128;
    return [...b].map((each, n) => ([4, 6, 8, 10].includes(n) ? "-" : "") + each.toString(16).padStart(2, "0")).join("");
  }

  const talk = "BroadcastChannel" in window ? new BroadcastChannel("chalk") : null;
  if (talk) talk.onmessage = () => count();

  async function count() {
    const all = await inside("readonly", (queue) => queue.getAll()).catch(() => []);
    mine = all.filter((each) => at && each.person === at.person);
    document.dispatchEvent(new CustomEvent("chalk:queue", { detail: { waiting: waiting(), refused: refused(), state } }));
  }
  const waiting = () => mine.filter((each) => !each.refused);
  const refused = () => mine.filter((each) => each.refused);

  function changed() {
    if (talk) talk.postMessage("changed");
    return count();
  }

  // A card is changed as it stands in the store, where something may have been sent since this page read it.
  function onCard(cards, fresh, change) {
    const asked = cards.get(fresh.id);
    asked.onsuccess = () => {
      const card = asked.result && asked.result.token === fresh.token ? asked.result : fresh;
      change(card);
      cards.put(card, card.id);
    };
  }

  // `thing`: { url, body, client, what, text, token, measure, card }, and its own `key` where it has one already. What the card shows is kept in the same transaction:
  // `fresh` is the card if the phone has none yet, `change` writes the reading on it, under the key that it is sent with.
  async function add(thing, fresh, change) {
    const entry = { key: newKey(), ...thing, person: at.person, at: Date.now() };
    await inside("readwrite", (queue, cards) => {
      // A refused one gives way to its correction, and what was worn to its newer wording: that holds all of the older.
      for (const old of mine) {
        if (old.token === entry.token && old.measure === entry.measure && (old.refused || entry.measure === "about")) queue.delete(old.n);
      }
      queue.add(entry);
      onCard(cards, fresh, (card) => change(card, entry));
    });
    if (navigator.storage && navigator.storage.persist) navigator.storage.persist().catch(() => {});
    await changed();
    drain();
  }

  const cards = () => inside("readonly", (_, all) => all.getAll()).catch(() => []);
  const card = (id) => inside("readonly", (_, cards) => cards.get(id)).catch(() => undefined);
  const changeCard = (fresh, change) => inside("readwrite", (_, cards) => onCard(cards, fresh, change));
  const keepCard = (each) => inside("readwrite", (_, cards) => cards.put(each, each.id));

  // Sent: off the queue, and known on its card to be in the book.
  function done(entry, answer) {
    return inside("readwrite", (queue, cards) => {
      queue.delete(entry.n);
      const asked = cards.get(entry.card);
      asked.onsuccess = () => {
        const kept = asked.result && asked.result.kept[entry.measure];
        if (!kept || kept.key !== entry.key) return;
        Object.assign(kept, { sent: Date.parse(answer.at), reading: answer.kept[entry.measure] });
        cards.put(asked.result, entry.card);
      };
    });
  }

  async function drain() {
    if (!at || !waiting().length) return;
    try {
      if (!navigator.locks) await sendAll();
      else await navigator.locks.request("chalk-send", { ifAvailable: true }, (lock) => lock && sendAll());
    } finally {
      await count();
    }
  }

  async function ask(url, options = {}) {
    const stop = new AbortController();
    const clock = setTimeout(() => stop.abort(), 15000);
    try {
      const answer = await fetch(url, { redirect: "manual", cache: "no-store", credentials: "same-origin", signal: stop.signal, ...options });
      if (answer.type === "opaqueredirect" || answer.status === 401) { state = "signed-out"; return null; }
      const said = await answer.json().catch(() => null);
      return { status: answer.status, said };
    } catch {
      state = "off-line";
      return null;
    } finally {
      clearTimeout(clock);
    }
  }

  async function sendAll() {
    const pass = await ask(at.who);
    if (!pass || pass.status !== 200 || !pass.said) { state ||= "busy"; return; }
    if (pass.said.person !== at.person) { state = "signed-out"; return; }
    state = "";
    for (;;) {
      const all = await inside("readonly", (queue) => queue.getAll());
      const next = all.find((each) => each.person === at.person && !each.refused);
      if (!next || !(await send(next, pass.said.csrf))) return;
      await changed();
    }
  }

  // True when there is an answer for good: in the book, or refused with a reason. Anything else is tried again.
  async function send(entry, csrf) {
    const headers = { "Content-Type": "application/json", "X-CSRFToken": csrf, "Idempotency-Key": entry.key };
    const answer = await ask(entry.url, { method: "POST", headers, body: entry.body });
    if (!answer) return false;
    if (answer.status === 200 && answer.said) {
      await done(entry, answer.said);
      document.dispatchEvent(new CustomEvent("chalk:sent", { detail: { entry, answer: answer.said } }));
      return true;
    }
    if (!REFUSED.has(answer.status)) { state = "busy"; return false; }
    const why = (answer.said && answer.said.refused) || "The workshop’s computer could not take this.";
    await inside("readwrite", (queue) => {
      queue.get(entry.n).onsuccess = ({ target }) => { if (target.result) queue.put({ ...entry, refused: why }); };
    });
    document.dispatchEvent(new CustomEvent("chalk:refused", { detail: { entry, why } }));
    return true;
  }

  // Wait until all of a card is in the book, or it can't be sent for now. Then it waits here, and goes by itself.
  async function allSent(token) {
    const end = Date.now() + 6000;
    await count();
    while (waiting().some((each) => each.token === token) && Date.now() < end) {
      await drain();
      if (state) return;
      await new Promise((resolve) => { setTimeout(resolve, 50); });
    }
  }

  const leaveOut = (n) => inside("readwrite", (queue) => queue.delete(n)).then(changed);

  // At sign-out the phone forgets all but what is not sent yet.
  async function forget() {
    const unsent = new Set(mine.map((each) => each.token));
    await inside("readwrite", (_, cards) => {
      cards.openCursor().onsuccess = ({ target: { result: cursor } }) => {
        if (!cursor) return;
        if (!unsent.has(cursor.value.token)) cursor.delete();
        cursor.continue();
      };
    });
    for (const name of Object.keys(localStorage)) if (name.startsWith("chalk-typed")) localStorage.removeItem(name);
    if (!("caches" in window)) return;
    for (const name of await caches.keys()) if (name.startsWith("pages-")) await caches.delete(name);
  }

  // The pages of those who come today are fetched ahead, so that they open without a network.
  async function keepPage(url) {
    const kept = await caches.open(PAGES);
    const answer = await fetch(url, { redirect: "manual", credentials: "same-origin", cache: "no-store" });
    if (!answer.ok) return null;
    const text = await answer.text();
    const headers = { "Content-Type": answer.headers.get("Content-Type"), "x-kept": String(Date.now()) };
    const policy = answer.headers.get("Content-Security-Policy");
    if (policy) headers["Content-Security-Policy"] = policy;
    await kept.put(url, new Response(text, { headers }));
    return text;
  }

  async function fetchAhead() {
    if (Date.now() - Number(sessionStorage.getItem("chalk-ahead") || 0) < AGAIN) return;
    sessionStorage.setItem("chalk-ahead", String(Date.now()));
    const list = await keepPage(at.atHand);
    const { pages, clients } = list ? JSON.parse(list) : { pages: [], clients: [] };
    for (const url of [...pages.map((each) => each.url), ...clients.map((each) => each.card)]) await keepPage(url);
  }

  async function settle() {
    await count();
    if (!at) return;
    if ("serviceWorker" in navigator) {
      const worker = await navigator.serviceWorker.register(at.worker, { scope: "/", updateViaCache: "none" });
      await navigator.serviceWorker.ready;
      worker.active.postMessage({ person: at.person });
      await (await caches.open(PAGES)).keys();
      document.dispatchEvent(new CustomEvent("chalk:ready"));
      await fetchAhead();
    }
  }

  if (at) {
    addEventListener("online", drain);
    document.addEventListener("visibilitychange", () => { if (!document.hidden) drain(); });
    setInterval(() => { if (!document.hidden) drain(); }, EVERY);
    count().then(drain);
  }
  settle().catch(() => {});

  return { at, works, add, card, cards, changeCard, keepCard, newKey, drain, count, waiting, refused, allSent, leaveOut, forget, keepPage };
})();
