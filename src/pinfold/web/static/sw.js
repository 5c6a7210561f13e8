// Keeps the phone's page and its files, so that it opens out of reach. It knows no entry and no plan by itself.
const VERSION = "{version}";
const KEPT = `pinfold-phone-${VERSION}`;
const PAGE = "/phone";
const FILES = ["{files}"];
const PATIENCE = 2500;

self.addEventListener("install", (event) => {
  event.waitUntil((async () => {
    const cache = await caches.open(KEPT);
    await cache.addAll(FILES);
    const page = await fetch(PAGE, { cache: "no-store", credentials: "same-origin" });
    if (!ours(page)) throw new Error("the page is not to be had");
    await cache.put(PAGE, page);
    await self.skipWaiting();
  })());
});

self.addEventListener("activate", (event) => {
  event.waitUntil((async () => {
    const names = await caches.keys();
    await Promise.all(names.filter((name) => name.startsWith("pinfold-phone-") && name !== KEPT).map((name) => caches.delete(name)));
    await self.clients.claim();
  })());
});

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const { pathname, origin } = new URL(request.url);
  if (request.method !== "GET" || origin !== self.location.origin) return;
  if (pathname === PAGE) event.respondWith(page(event));
  else if (pathname.startsWith("/static/")) event.respondWith(file(request));
});

// Only this version's own page is kept: another one would ask for files that are not here.
const ours = (answer) => answer.ok && !answer.redirected && answer.headers.get("x-pinfold-page") === VERSION;

async function page(event) {
  const cache = await caches.open(KEPT);
  const asked = fetch(event.request, { cache: "no-store" });
  event.waitUntil(asked.then((answer) => (ours(answer) ? cache.put(PAGE, answer.clone()) : undefined)).catch(() => undefined));
  const late = new Promise((resolve) => setTimeout(resolve, PATIENCE, null));
  const near = await Promise.race([asked.catch(() => null), late]);
  if (near && near.status < 500) return near.clone();
  const kept = await cache.match(PAGE);
  return kept || near || asked;
}

async function file(request) {
  const kept = await caches.match(request);
  return kept || fetch(request);
}
