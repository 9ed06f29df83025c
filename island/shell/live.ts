// Another tablet kept something, or work in the background went on: fetch this
// page anew and morph the parts that carry data-live. A part may name the
// places it depends on, as in data-live="metal jobs"; without names it follows
// every change that is kept. Only what names a place follows what stirs there
// without being kept.
import htmx from "./htmx";

interface Moved {
  seq: number;
  places: string[] | null;
}

const settleMs = 60;
const listenMs = 5000;
let moved = new Set<string>();
let stirred = new Set<string>();
let all = false;
let timer = 0;
let busy = false;

export function live(): void {
  document.addEventListener("moved", (event) => {
    const places = placesOf(event);
    if (!places.length) all = true;
    for (const p of places) moved.add(p);
    soon();
  });
  document.addEventListener("stirred", (event) => {
    for (const p of placesOf(event)) stirred.add(p);
    soon();
  });
  setInterval(listen, listenMs);
  addEventListener("online", listen);
}

const placesOf = (event: Event): string[] => (JSON.parse((event as CustomEvent<{ data: string }>).detail.data) as Moved).places ?? [];

function soon(): void {
  clearTimeout(timer);
  timer = setTimeout(refresh, settleMs);
}

/** listen tries the stream again when its first connection failed; later breaks the extension mends itself. */
function listen(): void {
  const stream = document.querySelector<HTMLElement & { _htmx?: { sse?: object } }>("[data-live-stream]");
  if (stream && !stream._htmx?.sse && !document.hidden) htmx.trigger(stream, "fettle:listen");
}

/** refresh is asked again later while a page is under way, so that a slow server is asked once at a time. */
async function refresh(): Promise<void> {
  if (busy) return soon();
  const names = new Set([...moved, ...stirred]);
  const kept = all || moved.size > 0;
  const every = all;
  moved = new Set();
  stirred = new Set();
  all = false;
  const follows = (part: HTMLElement): boolean => {
    const own = part.dataset.live?.split(" ").filter(Boolean) ?? [];
    return every || (own.length ? own.some((n) => names.has(n)) : kept);
  };
  const parts = [...document.querySelectorAll<HTMLElement>("[data-live][id]")].filter(follows);
  busy = true;
  if (parts.length) await fetchAnew(parts);
  busy = false;
  document.dispatchEvent(new CustomEvent("fettle:fresh", { detail: { places: [...names] } }));
}

async function fetchAnew(parts: HTMLElement[]): Promise<void> {
  const answer = await fetch(location.href, { headers: { Accept: "text/html", "Fettle-Refresh": "yes" } }).catch(() => null);
  if (!answer?.ok || answer.redirected) return;
  const text = await answer.text().catch(() => "");
  const fresh = new DOMParser().parseFromString(text, "text/html");
  for (const part of parts) {
    const next = fresh.getElementById(part.id);
    if (next && part.isConnected && !inUse(part)) htmx.swap({ text: next.outerHTML, sourceElement: part, target: part, swap: "outerMorph" });
  }
}

/** inUse tells whether a person types in the part or reads a card in it. */
function inUse(part: HTMLElement): boolean {
  const at = document.activeElement;
  const typing = at instanceof HTMLInputElement || at instanceof HTMLTextAreaElement || at instanceof HTMLSelectElement;
  return (typing && part.contains(at)) || !!part.querySelector(":popover-open");
}
