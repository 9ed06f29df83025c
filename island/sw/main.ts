// The service worker: the shell and the last seen pages stay readable when the
// server cannot be reached. It never answers for a change; those wait in the
// outbox of the page.
export {};
declare const self: ServiceWorkerGlobalScope;

const shell = "shell-1";
const pages = "pages-1";
const patienceMs = 4000;
const mostPages = 60;

self.addEventListener("install", (event) => event.waitUntil(fetchShell().then(() => self.skipWaiting())));
self.addEventListener("activate", (event) => event.waitUntil(self.clients.claim()));
self.addEventListener("fetch", (event) => {
  const url = new URL(event.request.url);
  if (url.origin !== location.origin) return;
  if (event.request.method === "POST" && url.pathname === "/sign-out") event.waitUntil(caches.delete(pages));
  if (event.request.method !== "GET") return;
  if (url.pathname.startsWith("/static/")) event.respondWith(asset(event.request));
  else if (event.request.mode === "navigate") event.respondWith(page(event.request));
});

async function fetchShell(): Promise<void> {
  const cache = await caches.open(shell);
  const away = await fetch("/away");
  const text = await away.clone().text();
  await cache.put("/away", away);
  const names = [...text.matchAll(/(?:href|src)="(\/static\/[^"]+)"/g)].map((m) => m[1]!);
  await cache.addAll([...new Set(names)]);
}

async function asset(request: Request): Promise<Response> {
  const cache = await caches.open(shell);
  const known = await cache.match(request);
  if (known) return known;
  const fresh = await fetch(request);
  if (fresh.ok) await cache.put(request, fresh.clone());
  return fresh;
}

async function page(request: Request): Promise<Response> {
  const cache = await caches.open(pages);
  try {
    const fresh = await fetch(request, { signal: AbortSignal.timeout(patienceMs) });
    if (fresh.ok && !fresh.redirected) await remember(cache, request, fresh.clone());
    return fresh;
  } catch {
    return (await cache.match(request)) ?? (await caches.match("/away")) ?? Response.error();
  }
}

async function remember(cache: Cache, request: Request, fresh: Response): Promise<void> {
  if (!fresh.headers.get("Content-Type")?.startsWith("text/html")) return;
  await cache.put(request, fresh);
  const keys = await cache.keys();
  for (const old of keys.slice(0, Math.max(0, keys.length - mostPages))) await cache.delete(old);
}
