// What is drawn on the photo: lines and points, the part in view, the magnifier.
import { all, at, items, one, picked, type Item, type Point, tools } from "./state";

const svg = one<SVGSVGElement>("[data-picture]");
const layer = one<SVGGElement>("[data-layer]");
// Numbers stand apart, so that the magnifier leaves them out.
const words = one<SVGGElement>("[data-words]", svg);
const loupe = one<SVGSVGElement>("[data-loupe]");
const status = one("[data-say]");
const image = one<SVGImageElement>("image", svg);
const width = Number(image.getAttribute("width"));
const height = Number(image.getAttribute("height"));

/** seen is the part in view: its upper left corner, and how many pixels of the photo one of the screen is. */
const seen = { x: 0, y: 0, k: 0 };

/** cross is where the keys are, in pixels of the photo. */
export const cross: { at: Point; shown: boolean } = { at: [width / 2, height / 2], shown: false };

/** say tells a person what happened, and a screen reader too. */
export function say(words: string): void {
  status.textContent = words;
}

/** k is how many pixels of the photo one of the screen is. */
export const k = (): number => seen.k;

/** wide is how wide the drawing was when it was last drawn, in pixels of the screen. */
let wide = 0;

/** resized keeps what is in view when a tablet is turned. */
export function resized(): void {
  if (svg.clientWidth) seen.k *= wide / svg.clientWidth;
  look();
}

export function look(): void {
  wide = svg.clientWidth;
  svg.setAttribute("viewBox", `${seen.x} ${seen.y} ${svg.clientWidth * seen.k} ${svg.clientHeight * seen.k}`);
  draw();
}

/** fit brings the whole photo into view. */
export function fit(): void {
  seen.k = Math.max(width / svg.clientWidth, height / svg.clientHeight, 1e-3);
  seen.x = (width - svg.clientWidth * seen.k) / 2;
  seen.y = (height - svg.clientHeight * seen.k) / 2;
  look();
}

/** spot is where a place on the screen lies in the photo, within its edges. */
export function spot(x: number, y: number): Point {
  const r = svg.getBoundingClientRect();
  return inside([seen.x + (x - r.left) * seen.k, seen.y + (y - r.top) * seen.k]);
}

export const inside = ([x, y]: Point): Point => [Math.min(width, Math.max(0, x)), Math.min(height, Math.max(0, y))];

export function centre(): [number, number] {
  const r = svg.getBoundingClientRect();
  return [r.left + r.width / 2, r.top + r.height / 2];
}

/** zoom brings what lies at a place of the screen closer by a factor, moved by dx, dy. */
export function zoom(by: number, [x, y] = centre(), dx = 0, dy = 0): void {
  const r = svg.getBoundingClientRect();
  const most = Math.max(width / svg.clientWidth, height / svg.clientHeight) * 1.2;
  const to = Math.min(most, Math.max(0.04, seen.k / by));
  seen.x += (x - r.left) * (seen.k - to) - dx * to;
  seen.y += (y - r.top) * (seen.k - to) - dy * to;
  seen.k = to;
  // Some of the photo stays in view.
  seen.x = Math.min(width - 40 * to, Math.max(40 * to - svg.clientWidth * to, seen.x));
  seen.y = Math.min(height - 40 * to, Math.max(40 * to - svg.clientHeight * to, seen.y));
  look();
}

/** show brings a point into view where it is not. */
export function show([x, y]: Point): void {
  const edge = 30 * seen.k;
  const wide = svg.clientWidth * seen.k;
  const high = svg.clientHeight * seen.k;
  if (x < seen.x + edge || x > seen.x + wide - edge) seen.x = x - wide / 2;
  if (y < seen.y + edge || y > seen.y + high - edge) seen.y = y - high / 2;
}

function make(kind: string, of: Record<string, string | number>, text = "", into: Element = layer): void {
  const e = document.createElementNS("http://www.w3.org/2000/svg", kind);
  for (const name in of) e.setAttribute(name, String(of[name]));
  e.textContent = text;
  into.append(e);
}

/** parts are the lines that an item shows: sheets of paper are four places each. */
function parts(tool: string, i: Item): Point[][] {
  const way = picked("with");
  if (tool !== "reference") return [i.points];
  if (way === "points") return [];
  if (way !== "sheets") return [i.points];
  return i.points.flatMap((_, n) => (n % 4 ? [] : [i.points.slice(n, n + 4)]));
}

const closed = ["reference", "outline", "faults", "zones"];

export function draw(): void {
  layer.replaceChildren();
  words.replaceChildren();
  for (const tool of tools) items[tool]!.forEach((item, n) => drawItem(tool, item, n));
  if (cross.shown) {
    const [x, y] = cross.at;
    make("path", { class: "trace-cross", d: `M${x - 18 * seen.k} ${y}h${36 * seen.k}M${x} ${y - 18 * seen.k}v${36 * seen.k}` });
  }
}

function drawItem(tool: string, item: Item, n: number): void {
  const on = tool === at.tool;
  for (const p of parts(tool, item)) {
    if (p.length === 2 && tool === "faults") {
      make("circle", { class: "trace-line trace-of-faults", cx: p[0]![0], cy: p[0]![1], r: Math.hypot(p[1]![0] - p[0]![0], p[1]![1] - p[0]![1]) });
      continue;
    }
    const full = p.length > 2 && closed.includes(tool);
    make("path", { class: `trace-line trace-of-${tool}${on ? " trace-on" : ""}`, d: "M" + p.map((q) => q.join(" ")).join("L") + (full ? "Z" : "") });
    if (tool === "stretch" && p[1]) head(p[0]!, p[1]);
  }
  if (!on) return;
  item.points.forEach(([x, y], i) => {
    const held = n === at.item && i === at.point;
    make("circle", { class: "trace-point" + (held ? " trace-held" : ""), cx: x, cy: y, r: (held ? 9 : 5) * seen.k });
    if (tool === "reference" || held || (tool === "outline" && i === 0)) make("text", { class: "trace-number", x: x + 10 * seen.k, y: y - 8 * seen.k, "font-size": 16 * seen.k }, String(i + 1), words);
  });
}

/** head draws the heads of an arrow that has none of its own. */
function head(a: Point, b: Point): void {
  const angle = Math.atan2(b[1] - a[1], b[0] - a[0]);
  const far = 16 * seen.k;
  for (const [p, turn] of [[b, Math.PI], [a, 0]] as [Point, number][])
    for (const side of [-0.4, 0.4]) make("path", { class: "trace-line trace-of-stretch", d: `M${p.join(" ")}l${far * Math.cos(angle + turn + side)} ${far * Math.sin(angle + turn + side)}` });
}

/** larger is how much the magnifier shows things larger, and the edge of it on the screen. */
const larger = 3;
const edge = 148;

/** magnify shows what lies under a finger, in the corner away from it; nothing hides it. */
export function magnify(p?: Point): void {
  loupe.toggleAttribute("hidden", !p);
  if (!p) return;
  if (!loupe.firstChild) {
    loupe.append(image.cloneNode());
    const lines = document.createElementNS("http://www.w3.org/2000/svg", "use");
    lines.setAttribute("href", "#trace-layer");
    const mark = document.createElementNS("http://www.w3.org/2000/svg", "path");
    mark.setAttribute("class", "trace-cross");
    loupe.append(lines, mark);
  }
  const wide = (edge * seen.k) / larger;
  loupe.setAttribute("viewBox", `${p[0] - wide / 2} ${p[1] - wide / 2} ${wide} ${wide}`);
  const arm = wide / 6;
  loupe.lastElementChild!.setAttribute("d", `M${p[0] - arm} ${p[1]}h${2 * arm}M${p[0]} ${p[1] - arm}v${2 * arm}`);
  loupe.classList.toggle("trace-right", p[0] < seen.x + (svg.clientWidth * seen.k) / 2);
}

/** counts say on each tool how much it has marked. */
export function counts(): void {
  for (const b of all("[data-tool]")) {
    const list = items[b.dataset.tool!]!;
    const n = list.length === 1 && ["reference", "outline"].includes(b.dataset.tool!) ? list[0]!.points.length : list.length;
    one("[data-count]", b).textContent = n ? String(n) : "";
    b.setAttribute("aria-pressed", String(b.dataset.tool === at.tool));
  }
}

layer.id = "trace-layer";
svg.style.aspectRatio = `${width} / ${height}`;
