// What is drawn: pieces where they lie, the part of the sheet that is seen, and
// the words beside the drawing.
import { copies, heading, middle, sheets } from "./facts";
import { faults, listed, stray } from "./judge";
import { all, one, outs, places, root } from "./state";

/** nothing is picked at -1; an out is a keep-out of the sheet that is shown. */
export const shown = { sheet: 0, copy: -1, out: -1 };

const drawings = sheets.map((s) => one<SVGSVGElement>(`svg[data-sheet="${s.id}"]`));
const shapes = copies.map((c) => one<SVGGElement>(`g[data-copy="${c.key}"]`));
const spare = one("[data-spare]");
const status = one("[data-say]");
for (const g of shapes) g.setAttribute("role", "button");

/** seen is the part of each sheet in view: its upper left corner and how many mm a pixel is. */
const seen = sheets.map(() => ({ x: 0, y: 0, k: 0 }));

export const drawing = (): SVGSVGElement => drawings[shown.sheet]!;

/** say tells a person what happened, and a screen reader too. */
export function say(words: string): void {
  status.textContent = words;
}

const path = (ring: number[][]): string => "M" + ring.map(([x, y]) => `${x} ${-y!}`).join("L") + "Z";

function make(kind: string, into: Element, of: Record<string, string | number>): void {
  const e = document.createElementNS("http://www.w3.org/2000/svg", kind);
  for (const name in of) e.setAttribute(name, String(of[name]));
  into.append(e);
}

/** look shows the part of the sheet that is in view. */
export function look(): void {
  const svg = drawing();
  const v = seen[shown.sheet]!;
  svg.setAttribute("viewBox", `${v.x} ${v.y} ${svg.clientWidth * v.k} ${svg.clientHeight * v.k}`);
  root.querySelectorAll("[data-hatch]").forEach((p) => p.setAttribute("patternTransform", `scale(${v.k}) ${p.getAttribute("data-hatch")}`));
  all("[data-words]").forEach((e) => e.setAttribute("font-size", String(15 * v.k)));
  hold();
}

/** fit brings the whole sheet into view. */
export function fit(): void {
  const svg = drawing();
  const [left, low, right, high] = sheets[shown.sheet]!.laid.box;
  const k = Math.max((right - left) / (svg.clientWidth - 24), (high - low) / (svg.clientHeight - 24), 0.01);
  seen[shown.sheet] = { x: (left + right - svg.clientWidth * k) / 2, y: -(low + high + svg.clientHeight * k) / 2, k };
  look();
}

/** spot is where a place on the screen lies on the sheet, in mm with y up. */
export function spot(x: number, y: number): [number, number] {
  const r = drawing().getBoundingClientRect();
  const v = seen[shown.sheet]!;
  return [v.x + (x - r.left) * v.k, -v.y - (y - r.top) * v.k];
}

/** centre is the middle of what is in view, on the screen. */
export function centre(): [number, number] {
  const r = drawing().getBoundingClientRect();
  return [r.left + r.width / 2, r.top + r.height / 2];
}

/** zoom brings what lies at a place of the screen closer by a factor, moved by dx, dy pixels. */
export function zoom(by: number, [x, y] = centre(), dx = 0, dy = 0): void {
  const v = seen[shown.sheet]!;
  const r = drawing().getBoundingClientRect();
  const k = Math.min(20, Math.max(0.05, v.k / by));
  v.x += (x - r.left) * (v.k - k) - dx * k;
  v.y += (y - r.top) * (v.k - k) - dy * k;
  v.k = k;
  look();
}

/** move draws one copy where it lies, and marks what is wrong with it in words. */
export function move(n: number): void {
  const p = places[n]!;
  const g = shapes[n]!;
  const into = p.sheet < 0 ? spare : one("[data-pieces]", drawings[p.sheet]);
  if (g.parentElement !== into) into.append(g);
  g.setAttribute("transform", `translate(${p.x} ${-p.y}) rotate(${-p.turn})`);
  one("[data-words]", g).setAttribute("transform", `rotate(${p.turn} ${one("[data-words]", g).dataset.words})`);
}

/** hold draws the handle of what is picked, and the wedge of the angles at which it may lie. */
function hold(): void {
  const layer = one("[data-hold]", drawing());
  layer.replaceChildren();
  const c = copies[shown.copy];
  const p = places[shown.copy];
  if (!c || !p || p.sheet !== shown.sheet) return;
  const k = seen[shown.sheet]!.k;
  const [x, y] = middle(c, p);
  const at = (angle: number, far: number): string => `${x + far * Math.cos((angle * Math.PI) / 180)} ${-y - far * Math.sin((angle * Math.PI) / 180)}`;
  const far = 70 * k;
  if (c.axis) {
    const mid = heading(p.sheet, [x, y]);
    const wide = c.axis.tolerance;
    for (const turn of c.axis.oneWay ? [0] : [0, 180]) make("path", layer, { class: "lay-wedge", d: `M${at(mid + turn - wide, far * 0.5)}L${at(mid + turn - wide, far)}A${far} ${far} 0 0 0 ${at(mid + turn + wide, far)}L${at(mid + turn + wide, far * 0.5)}` });
    for (const end of c.axis.oneWay ? [0] : [0, 180]) make("path", layer, { class: "lay-tight", d: `M${at(mid + stray(c, p) + end, far * 0.5)}L${at(mid + stray(c, p) + end, far)}` });
  } else if (!c.free) for (const a of listed(c)) make("path", layer, { class: "lay-wedge", d: `M${at(a + 90, far * 0.7)}L${at(a + 90, far)}` });
  if (p.lock) return;
  const [hx, hy] = at(p.turn + 90, 104 * k).split(" ");
  make("path", layer, { class: "lay-tight", d: `M${at(p.turn + 90, far)}L${hx} ${hy}` });
  make("circle", layer, { class: "lay-reach", "data-handle": "", cx: hx!, cy: hy!, r: 28 * k });
  make("circle", layer, { class: "lay-handle", cx: hx!, cy: hy!, r: 11 * k });
}

/** wrong are the words for each copy, as last judged. */
let wrong: string[][] = [];

/** told is what each copy's drawing and its list say, so that only what changed is written. */
const told: string[] = [];
let lines = "";

/** tell judges anew, marks what is wrong on the pieces and lists it in words. */
function tell(): void {
  wrong = copies.map((_, n) => (places[n]!.sheet < 0 ? [] : faults(n, places, outs[places[n]!.sheet]!)));
  copies.forEach((_, n) => mark(n));
  const bad = copies.flatMap((c, n) => (wrong[n]!.length ? [[c.key, `${c.key} ${wrong[n]!.join(", ")}${sheets.length > 1 ? ` (${sheets[places[n]!.sheet]!.name})` : ""}`]] : []));
  if (lines === String(bad)) return;
  lines = String(bad);
  one("[data-none]").hidden = bad.length > 0;
  one("[data-faults]").replaceChildren(
    ...bad.map(([key, words]) => {
      const b = document.createElement("button");
      b.type = "button";
      b.className = "lay-pick";
      b.dataset.pick = key!;
      b.textContent = words!;
      return b;
    }),
  );
}

/** mark shows on a copy whether it is picked, locked or wrong, and in words how it lies. */
function mark(n: number): void {
  const c = copies[n]!;
  const p = places[n]!;
  const g = shapes[n]!;
  const words = wrong[n]!;
  const label = [[one(".lay-id", g).textContent!.trim(), words[0] ?? (p.lock ? "locked" : "")].join(" "), c.name, `turned ${Math.round(p.turn)}°`, ...words.slice(1)].join(", ");
  const state = label + (n === shown.copy) + (p.sheet < 0);
  if (told[n] === state) return;
  told[n] = state;
  g.classList.toggle("lay-bad", words.length > 0);
  g.classList.toggle("lay-locked", p.lock);
  g.classList.toggle("lay-picked", n === shown.copy);
  g.setAttribute("tabindex", p.sheet < 0 ? "-1" : "0");
  g.setAttribute("aria-pressed", String(n === shown.copy));
  g.setAttribute("aria-label", label);
  one("[data-word]", g).textContent = words[0] ?? (p.lock ? "locked" : "");
  one(`[data-tray="${c.key}"]`).hidden = p.sheet >= 0;
  one(`[data-card="${c.key}"]`).hidden = n !== shown.copy;
}

/** yieldWords say how much of the sheet is laid, and what is not yet. */
function yieldWords(): void {
  let on = 0;
  let n = 0;
  let left = 0;
  copies.forEach((c, i) => {
    if (places[i]!.sheet === shown.sheet) {
      on += c.area;
      n++;
    }
    if (places[i]!.sheet < 0) left++;
  });
  const s = sheets[shown.sheet]!;
  one("[data-yield]").textContent = `${Math.round((100 * on) / s.area)} %`;
  one("[data-laid]").textContent = `of ${s.name}, ${(s.area / 1e6).toFixed(2)} m², is laid: ${n} pieces`;
  one("[data-left]").textContent = left ? `${left} of ${copies.length} not laid yet` : "every piece is laid";
}

/** drag shows anew what a finger moves: one copy, and what it does to the others. */
export function drag(n: number): void {
  move(n);
  tell();
  hold();
}

/** troubles are the words for one copy, as last judged. */
export const troubles = (n: number): string[] => wrong[n] ?? [];

/** draw shows everything anew. */
export function draw(): void {
  copies.forEach((_, n) => move(n));
  sheets.forEach((s, n) => {
    one(`figure[data-of="${s.id}"]`).hidden = n !== shown.sheet;
    one(`[data-show="${s.id}"]`).setAttribute("aria-pressed", String(n === shown.sheet));
    const layer = one("[data-outs]", drawings[n]);
    layer.replaceChildren();
    outs[n]!.forEach((o, i) =>
      make("path", layer, { class: "lay-out" + (n === shown.sheet && i === shown.out ? " lay-picked" : ""), d: path(o.rings[0]!), tabindex: 0, role: "button", "aria-label": `keep-out ${i + 1}`, "data-out": i }),
    );
  });
  tell();
  yieldWords();
  all<HTMLButtonElement>("[data-needs]").forEach((b) => (b.disabled = shown.copy < 0 && !(b.dataset.needs === "any" && shown.out >= 0)));
  if (seen[shown.sheet]!.k) look();
  else fit();
}
