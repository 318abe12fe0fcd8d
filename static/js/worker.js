// Answers for the workshop when there is no network, with what this phone has seen in the last twelve hours.
// The server puts `known` in front of this file: what belongs to the shell, and where things are.
"use strict";

const SHELL = `shell-${known.version}`;
const HOURS = 12; // as long as a sign-in lasts
const TO_READ = [/^\/$/, /^\/clients\/$/, /^\/clients\/\d+\/$/, /^\/orders\/$/, /^\/orders\/[^/]+\/$/, /^\/drafts\/\d+\/$/];
const CARD = /^\/clients\/\d+\/measure\/$/;
const SIGN_IN_OR_OUT = /^\/sign-(in|out)\/$/;
const PATIENCE = 4000; // then a page that is at hand is better than one on its way

self.addEventListener("install", (event) => {
  event.waitUntil((async () => {
    const shell = await caches.open(SHELL);
    await shell.addAll(known.shell);
    await self.skipWaiting();
  })());
});

self.addEventListener("activate", (event) => {
  event.waitUntil((async () => {
    for (const name of await caches.keys()) {
      if (name.startsWith("shell-") && name !== SHELL) await caches.delete(name);
    }
    await self.clients.claim();
  })());
});

// Whose pages may be kept: told by each page that somebody signed in has opened.
self.addEventListener("message", (event) => {
  if (event.data && event.data.person) event.waitUntil(belongTo(String(event.data.person)));
});

async function belongTo(person) {
  for (const name of await caches.keys()) {
    if (name.startsWith("pages-") && name !== `pages-${person}`) await caches.delete(name);
  }
  await caches.open(`pages-${person}`);
}

async function pages() {
  const name = (await caches.keys()).find((each) => each.startsWith("pages-"));
  return name ? caches.open(name) : null;
}

async function forget() {
  for (const name of await caches.keys()) {
    if (name.startsWith("pages-")) await caches.delete(name);
  }
}

async function keep(path, response) {
  const kept = await pages();
  if (!kept || !response.ok || response.type !== "basic") return;
  const headers = new Headers(response.headers);
  headers.set("x-kept", String(Date.now()));
  await kept.put(path, new Response(await response.blob(), { headers }));
}

async function atHand(path) {
  const kept = await pages();
  const found = kept && (await kept.match(path));
  if (!found) return null;
  if (Date.now() - Number(found.headers.get("x-kept")) < HOURS * 3600e3) return found;
  await kept.delete(path);
  return null;
}

const later = (ms) => new Promise((resolve) => { setTimeout(resolve, ms, null); });

async function toRead(event, path) {
  const coming = fetch(event.request);
  event.waitUntil(coming.then((response) => keep(path, response.clone()), () => {}));
  const found = await atHand(path);
  try {
    return (await (found ? Promise.race([coming, later(PATIENCE)]) : coming)) || found;
  } catch {
    return found || caches.match(known.off_line);
  }
}

// The card comes from the phone first and looks by itself for anything newer.
async function card(event, url) {
  const found = url.search ? null : await atHand(url.pathname);
  if (found) return found;
  try {
    const response = await fetch(event.request);
    if (!url.search) event.waitUntil(keep(url.pathname, response.clone()));
    return response;
  } catch {
    return (await atHand(url.pathname)) || caches.match(known.off_line);
  }
}

async function otherPage(request) {
  try {
    return await fetch(request);
  } catch {
    return caches.match(known.off_line);
  }
}

async function ours(event) {
  const shell = await caches.open(SHELL);
  const found = await shell.match(event.request);
  if (found) return found;
  const response = await fetch(event.request);
  if (response.ok) event.waitUntil(shell.put(event.request, response.clone()));
  return response;
}

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (url.origin !== self.location.origin) return;
  if (request.mode === "navigate" && SIGN_IN_OR_OUT.test(url.pathname)) {
    event.waitUntil(forget());
    if (request.method === "GET") event.respondWith(otherPage(request));
    return;
  }
  if (request.method !== "GET") return;
  if (known.ours.some((each) => url.pathname.startsWith(each))) event.respondWith(ours(event));
  else if (request.mode !== "navigate") return;
  else if (CARD.test(url.pathname)) event.respondWith(card(event, url));
  else if (TO_READ.some((each) => each.test(url.pathname)) && !url.search) event.respondWith(toRead(event, url.pathname));
  else event.respondWith(otherPage(request));
});
