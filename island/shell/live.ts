// Another tablet kept something: fetch this page anew and morph the parts that
// carry data-live. A part may name the places it depends on, as in
// data-live="metal wall"; without names it follows every change.
import htmx from "./htmx";

interface Moved {
  seq: number;
  places: string[] | null;
}

const settleMs = 60;
const listenMs = 5000;
let places = new Set<string>();
let all = false;
let timer = 0;

export function live(): void {
  document.addEventListener("moved", (event) => {
    const moved = JSON.parse((event as CustomEvent<{ data: string }>).detail.data) as Moved;
    if (!moved.places?.length) all = true;
    for (const p of moved.places ?? []) places.add(p);
    clearTimeout(timer);
    timer = setTimeout(refresh, settleMs);
  });
  setInterval(listen, listenMs);
  addEventListener("online", listen);
}

/** listen tries the stream again when its first connection failed; later breaks the extension mends itself. */
function listen(): void {
  const stream = document.querySelector<HTMLElement & { _htmx?: { sse?: object } }>("[data-live-stream]");
  if (stream && !stream._htmx?.sse && !document.hidden) htmx.trigger(stream, "fettle:listen");
}

async function refresh(): Promise<void> {
  const wanted = places;
  const every = all;
  places = new Set();
  all = false;
  const answer = await fetch(location.href, { headers: { Accept: "text/html", "Fettle-Refresh": "yes" } }).catch(() => null);
  if (!answer?.ok || answer.redirected) return;
  const fresh = new DOMParser().parseFromString(await answer.text(), "text/html");
  for (const part of document.querySelectorAll<HTMLElement>("[data-live][id]")) {
    const names = part.dataset.live?.split(" ").filter(Boolean) ?? [];
    if (!every && names.length && !names.some((n) => wanted.has(n))) continue;
    const next = fresh.getElementById(part.id);
    if (next && !inUse(part)) htmx.swap({ text: next.outerHTML, sourceElement: part, target: part, swap: "outerMorph" });
  }
  document.dispatchEvent(new CustomEvent("fettle:fresh", { detail: { places: [...wanted] } }));
}

/** inUse tells whether a person types in the part or reads a card in it. */
function inUse(part: HTMLElement): boolean {
  const at = document.activeElement;
  const typing = at instanceof HTMLInputElement || at instanceof HTMLTextAreaElement || at instanceof HTMLSelectElement;
  return (typing && part.contains(at)) || !!part.querySelector(":popover-open");
}
