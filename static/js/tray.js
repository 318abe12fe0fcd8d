// What is on this phone and not in the book yet: a count that is always in sight, a list of it, and a warning at sign-out.
(() => {
  "use strict";
  const { at } = chalk;
  const words = (n) => `${n} waiting to send`;
  const WHY = {
    "off-line": "No network. It goes by itself when the network is back.",
    "signed-out": "Sign in again, then it goes by itself.",
    busy: "The workshop’s computer does not answer. It is tried again every few seconds.",
    "": "Being sent.",
  };
  const slots = [...document.querySelectorAll("[data-tray]")];

  function make(tag, className, ...inside) {
    const each = document.createElement(tag);
    if (className) each.className = className;
    each.append(...inside);
    return each;
  }

  function button(text, act, className = "btn-quiet") {
    const each = make("button", className, text);
    each.type = "button";
    each.addEventListener("click", act);
    return each;
  }

  function dialog(title, ...inside) {
    const box = make("dialog", "tray-box");
    const head = make("h2", "", title);
    head.id = "tray-title";
    box.setAttribute("aria-labelledby", head.id);
    box.append(head, ...inside);
    box.addEventListener("close", () => box.remove());
    document.body.append(box);
    box.showModal();
    return box;
  }

  function entry(each, box) {
    const text = make("div", "row-text", make("b", "", `${each.client}: ${each.what.toLowerCase()} ${each.text}`.trim()));
    const row = make("li", "", text);
    if (!each.refused) return row;
    text.append(make("p", "error", each.refused));
    const right = make("a", "btn-plain", "Put it right");
    right.href = each.back;
    row.append(make("div", "acts", right, button("Leave it out", async () => {
      row.replaceChildren(make("p", "", `Leave out ${each.what.toLowerCase()} ${each.text} for good?`), button("Leave it out for good", async () => { await chalk.leaveOut(each.n); row.remove(); if (!box.querySelector("li")) box.close(); }));
    })));
    return row;
  }

  function open() {
    const list = make("ul", "rows");
    const state = make("p", "soft", chalk.waiting().length ? WHY[last.state] : "");
    const plain = "serviceWorker" in navigator ? "" : make("p", "", "This address is plain HTTP. What you keep is safe on this phone, but a page opens without a network only over HTTPS. DEVELOPERS.md says how a workshop gets it on its own network.");
    const acts = make("div", "acts");
    const box = dialog("On this phone", state, list, plain, acts);
    list.append(...[...chalk.refused(), ...chalk.waiting()].map((each) => entry(each, box)));
    if (!list.childElementCount) list.replaceWith(make("p", "", "Nothing is waiting. All that you kept is in the book."));
    if (last.state === "signed-out") {
      const sign = make("a", "btn-main", "Sign in");
      sign.href = `/sign-in/?next=${encodeURIComponent(location.pathname)}`;
      acts.append(sign);
    }
    acts.append(button("Try now", () => { box.close(); chalk.drain(); }, "btn-plain"), button("Close", () => box.close()));
  }

  let last = { waiting: [], refused: [], state: "" };
  let some = false; // anything was on this phone since this page was opened
  function draw({ detail }) {
    last = detail;
    some ||= detail.waiting.length > 0;
    const [waiting, refused] = [detail.waiting.length, detail.refused.length];
    const signIn = detail.state === "signed-out" && waiting;
    const idle = "serviceWorker" in navigator ? "All sent" : "Off-line needs HTTPS";
    const fact = refused ? `${refused} needs you` : waiting ? "Saved on this phone" : idle;
    const more = signIn ? `Sign in to send ${waiting}` : waiting ? words(waiting) : "";
    for (const slot of slots) {
      slot.hidden = !waiting && !refused && !(slot.hasAttribute("data-tray-always") && (some || idle !== "All sent"));
      slot.className = `tray ${refused ? "tray-refused" : waiting ? "tray-waiting" : "tray-sent"}`;
      if (slot.dataset.said === fact + more) continue;
      slot.dataset.said = fact + more;
      slot.replaceChildren(button("", open, "tray-button"));
      slot.firstChild.append(make("b", "", fact), ...(more ? [" ", make("span", "", more)] : []));
    }
  }
  document.addEventListener("chalk:queue", draw);

  // What was sent from a page that shows it: the page shows it as it is in the book now.
  let stale = false;
  document.addEventListener("chalk:sent", ({ detail }) => {
    stale ||= Boolean(document.querySelector("[data-shows-book]")) && detail.entry.back.startsWith(location.pathname);
  });
  document.addEventListener("chalk:queue", async ({ detail }) => {
    if (!stale || detail.waiting.length) return;
    stale = false;
    const path = location.pathname;
    const text = await ("caches" in window ? chalk.keepPage(path) : fetch(path).then((answer) => (answer.ok ? answer.text() : null))).catch(() => null);
    const newer = text && new DOMParser().parseFromString(text, "text/html").querySelector("[data-shows-book]");
    if (newer) document.querySelector("[data-shows-book]").replaceWith(document.adoptNode(newer));
  });

  // Signing out: nothing that is not sent is thrown away, and nothing else stays.
  document.addEventListener("submit", async (event) => {
    const form = event.target;
    if (!at || !form.matches("form[action$='/sign-out/']")) return;
    event.preventDefault();
    await chalk.count();
    const left = chalk.waiting().length + chalk.refused().length;
    const leave = async () => { await chalk.forget().catch(() => {}); form.submit(); };
    if (!left) { await leave(); return; }
    const said = left === 1 ? "One thing is not in the book yet." : `${left} things are not in the book yet.`;
    const box = dialog("Not all is sent", make("p", "", `${said} It stays on this phone, and goes when you sign in here again. Nobody else can send it.`));
    box.append(make("div", "acts", button("Stay, and send", () => { box.close(); chalk.drain(); }, "btn-main"), button("Sign out all the same", leave)));
  });

  // Without a network: the cards that this phone has at hand.
  async function listAtHand(section) {
    const names = (await caches.keys()).filter((name) => name.startsWith("pages-"));
    const links = [];
    for (const name of names) {
      const kept = await caches.open(name);
      const list = (await kept.keys()).find((request) => request.url.endsWith("/at-hand/"));
      const { pages, clients } = list ? await (await kept.match(list)).json() : { pages: [], clients: [] };
      for (const each of [...pages, ...clients]) {
        if (!(await kept.match(each.url || each.card))) continue;
        const link = make("a", each.url ? "row-link" : "row-link name", each.title || each.name);
        link.href = each.url || each.card;
        links.push(make("li", "", link));
      }
    }
    section.hidden = !links.length;
    section.querySelector("ul").replaceChildren(...links);
  }
  const section = document.querySelector("[data-at-hand]");
  if (section && "caches" in window) listAtHand(section).catch(() => {});
})();
