// Keeps pages of the desk in the browser, so that the day's work can be read and ticked while the desk does not answer. It
// answers with a kept page only then, and says on it when it was kept. Forms go by it. When this machine is not paired any
// more, what was kept goes.
"use strict";
const store = "desk-pages";
const most = 80; // pages that are kept, the newest
const patience = 5_000; // milliseconds that the desk has to answer with a page

self.addEventListener("install", () => self.skipWaiting());
self.addEventListener("activate", (event) => event.waitUntil(self.clients.claim()));

const isAsset = (url) => url.pathname.startsWith("/assets/");
const isPage = (url, request) => !/^\/(pair|progress|close|copies|calendar\.ics)/.test(url.pathname) &&
  !url.searchParams.has("save") && (request.mode === "navigate" || request.headers.get("Accept") === "text/html" || request.headers.get("Desk-Keep") === "yes");

self.addEventListener("fetch", (event) => {
  const url = new URL(event.request.url);
  if (event.request.method !== "GET" || url.origin !== self.location.origin) return;
  if (isAsset(url)) event.respondWith(asset(event.request));
  else if (isPage(url, event.request)) event.respondWith(page(event.request, url));
});

self.addEventListener("message", (event) => {
  if (!Array.isArray(event.data?.keep)) return;
  event.waitUntil((async () => {
    for (const path of event.data.keep.slice(0, most / 2)) {
      const url = new URL(path, self.location.origin);
      if (url.origin !== self.location.origin) continue;
      try {
        await fresh(new Request(url, { headers: { "Desk-Keep": "yes", Accept: "text/html" }, credentials: "same-origin" }), url);
      } catch {
        return; // the desk does not answer: what is kept stays
      }
    }
  })());
});

async function asset(request) {
  const kept = await caches.match(request);
  if (kept) return kept;
  const answer = await fetch(request);
  if (answer.ok) await (await caches.open(store)).put(request, answer.clone());
  return answer;
}

// key is where a page is kept: without what it says of the last form.
function key(url) {
  const at = new URL(url);
  for (const name of ["said", "work"]) if (at.pathname !== "/work") at.searchParams.delete(name);
  at.hash = "";
  return at.href;
}

// fresh asks the desk for a page and keeps it.
async function fresh(request, url) {
  const stop = new AbortController();
  const late = setTimeout(() => stop.abort(), patience);
  let answer;
  try {
    answer = await fetch(request, { signal: stop.signal });
  } finally {
    clearTimeout(late);
  }
  const led = answer.redirected && new URL(answer.url).pathname === "/pair";
  if (led || answer.status === 401 || answer.status === 403) {
    await caches.delete(store);
    return answer;
  }
  if (answer.ok && !answer.redirected && /^text\/html/.test(answer.headers.get("Content-Type") ?? "")) {
    const headers = new Headers(answer.headers);
    headers.delete("Content-Length");
    headers.set("Desk-Kept", new Date().toISOString());
    const copy = answer.clone();
    const pages = await caches.open(store);
    await pages.put(key(url), new Response(await copy.blob(), { status: 200, headers }));
    const all = await pages.keys();
    for (const old of all.slice(0, Math.max(0, all.length - most))) if (!isAsset(new URL(old.url))) await pages.delete(old);
  }
  return answer;
}

async function page(request, url) {
  try {
    return await fresh(request, url);
  } catch (wrong) {
    const pages = await caches.open(store);
    const kept = await pages.match(key(url)) ?? (url.pathname === "/" ? await pages.match(new URL("/today", url).href) : undefined);
    if (!kept) throw wrong;
    const at = new Date(kept.headers.get("Desk-Kept"));
    const when = new Intl.DateTimeFormat(undefined, { weekday: "short", hour: "2-digit", minute: "2-digit" }).format(at);
    const html = (await kept.text()).replace("<body", `<body data-kept="${when.replace(/[^\p{L}\p{N}:., ]/gu, "")}"`);
    return new Response(html, { status: 200, headers: kept.headers });
  }
}
