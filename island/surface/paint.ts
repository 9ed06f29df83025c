// Draws the surface and its flat pattern on two canvases: far faces first, each
// run of equal faces in one stroke of paint. No GPU is asked for.
import { edge, now, solid } from "./facts";
import { eye, order, type View } from "./space";
import { all, hand, one, seams, ways } from "./state";

const lights = 4;
const light = [-0.42, 0.48, 0.77] as const; // right, up, towards

/** Glass is one canvas and how it looks at what it shows. */
export interface Glass {
  canvas: HTMLCanvasElement;
  pen: CanvasRenderingContext2D;
  at: Float64Array; // right, up, towards, in mm
  k: number; // pixels a mm
  x: number; // what lies in the middle, in mm
  y: number;
}

const glass = (name: string): Glass => {
  const canvas = one<HTMLCanvasElement>(`canvas[data-glass="${name}"]`);
  return { canvas, pen: canvas.getContext("2d", { alpha: false })!, at: new Float64Array(), k: 0, x: 0, y: 0 };
};

export const space = glass("space");
export const flat = glass("flat");
export const view: View = { turn: Number(space.canvas.dataset.turn), tip: Number(space.canvas.dataset.tip) };

/** tint is the paint of each class and light, as the style of the page has it. */
let tint: string[] = [];
let [ink, ground, fine, narrow] = ["", "", "", ""];
let signs: (CanvasPattern | null)[] = [];

/** hatches are the signs of the classes. */
function hatches(): (CanvasPattern | null)[] {
  const make = (w: number, h: number, draw: (p: CanvasRenderingContext2D) => void): CanvasPattern | null => {
    const c = document.createElement("canvas");
    [c.width, c.height] = [w, h];
    const p = c.getContext("2d")!;
    p.strokeStyle = p.fillStyle = ink;
    p.lineWidth = 1.1;
    draw(p);
    return space.pen.createPattern(c, "repeat");
  };
  const slant = (n: number) => (p: CanvasRenderingContext2D) => {
    p.beginPath();
    for (const d of [-n, 0, n]) {
      p.moveTo(d, 0);
      p.lineTo(d + n, n);
    }
    p.stroke();
  };
  return [
    null,
    make(18, 18, slant(18)),
    make(9, 9, slant(9)),
    make(10, 10, (p) => {
      slant(10)(p);
      p.translate(10, 0);
      p.scale(-1, 1);
      slant(10)(p);
    }),
    make(12, 12, (p) => {
      p.fillRect(2, 2, 2.4, 2.4);
      p.fillRect(8, 8, 2.4, 2.4);
    }),
    make(14, 9, (p) => {
      p.beginPath();
      p.moveTo(0, 5);
      p.quadraticCurveTo(3.5, 0, 7, 5);
      p.quadraticCurveTo(10.5, 10, 14, 5);
      p.stroke();
    }),
  ];
}

/** dip takes the paints of the page's style. */
function dip(): void {
  tint = all("[data-tint]").map((e) => getComputedStyle(e).fill);
  const style = getComputedStyle(space.canvas);
  [ink, ground, fine, narrow] = [style.color, style.backgroundColor, style.borderTopColor, style.fontFamily];
  signs = hatches();
}
dip();

// Another theme, of the page or of the tablet: both pictures are painted anew.
const anew = (): void => {
  dip();
  draw();
};
new MutationObserver(anew).observe(document.documentElement, { attributes: true, attributeFilter: ["data-theme", "data-neutral"] });
matchMedia("(prefers-color-scheme: dark)").addEventListener("change", anew);

/** size makes a canvas as fine as the screen. */
function size(g: Glass): void {
  const fine = devicePixelRatio || 1;
  const [w, h] = [Math.round(g.canvas.clientWidth * fine), Math.round(g.canvas.clientHeight * fine)];
  if (g.canvas.width !== w || g.canvas.height !== h) [g.canvas.width, g.canvas.height] = [w, h];
  g.pen.setTransform(fine, 0, 0, fine, 0, 0);
}

/** fit brings all of it into view. */
export function fit(g: Glass): void {
  let [left, low, right, high] = [Infinity, Infinity, -Infinity, -Infinity];
  for (let i = 0; i < g.at.length; i += 3) {
    left = Math.min(left, g.at[i]!);
    right = Math.max(right, g.at[i]!);
    low = Math.min(low, g.at[i + 1]!);
    high = Math.max(high, g.at[i + 1]!);
  }
  [g.x, g.y] = [(left + right) / 2, (low + high) / 2];
  g.k = Math.max(0.001, Math.min((g.canvas.clientWidth - 48) / (right - left || 1), (g.canvas.clientHeight - 48) / (high - low || 1)));
}

/** spot is where a place of the screen lies in what is drawn, in mm. */
export function spot(g: Glass, x: number, y: number): [number, number] {
  const r = g.canvas.getBoundingClientRect();
  return [g.x + (x - r.left - r.width / 2) / g.k, g.y - (y - r.top - r.height / 2) / g.k];
}

/** zoom brings what lies at a place of the screen closer, moved by dx, dy pixels. */
export function zoom(g: Glass, by: number, x: number, y: number, dx = 0, dy = 0): void {
  const before = spot(g, x, y);
  g.k = Math.min(200, Math.max(0.01, g.k * by));
  const after = spot(g, x + dx, y + dy);
  g.x += before[0] - after[0];
  g.y += before[1] - after[1];
}

/** look turns the surface to the view. */
export function look(): void {
  space.at = eye(solid.points, view);
}

const px = (g: Glass, v: number): [number, number] => [g.canvas.clientWidth / 2 + (g.at[3 * v]! - g.x) * g.k, g.canvas.clientHeight / 2 - (g.at[3 * v + 1]! - g.y) * g.k];

/** shade is the tone of a face; both sides of a surface are seen. */
function shade(at: Float64Array, a: number, b: number, c: number): number {
  const [ux, uy, uz] = [at[b]! - at[a]!, at[b + 1]! - at[a + 1]!, at[b + 2]! - at[a + 2]!];
  const [vx, vy, vz] = [at[c]! - at[a]!, at[c + 1]! - at[a + 1]!, at[c + 2]! - at[a + 2]!];
  const [x, y, z] = [uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx];
  const lit = Math.abs(x * light[0] + y * light[1] + z * light[2]) / (Math.hypot(x, y, z) || 1);
  return Math.min(lights - 1, Math.floor((1 - lit) * lights * 1.15));
}

/** fill paints faces in an order, each run of equal ones at once. */
function fill(g: Glass, faces: Int32Array, list: ArrayLike<number>, lit: boolean): void {
  const { pen, at } = g;
  let open = -1;
  const end = (): void => {
    if (open < 0) return;
    pen.fillStyle = tint[open]!;
    pen.fill();
    pen.strokeStyle = tint[open]!;
    pen.lineWidth = 0.6; // closes the hair between neighbours
    pen.stroke();
    const sign = signs[Math.floor(open / lights)];
    if (sign) {
      pen.fillStyle = sign;
      pen.fill();
    }
  };
  for (let n = 0; n < list.length; n++) {
    const f = 3 * list[n]!;
    const [a, b, c] = [faces[f]!, faces[f + 1]!, faces[f + 2]!];
    const key = (now.said.class.charCodeAt(list[n]!) - 48 || 0) * lights + (lit ? shade(at, 3 * a, 3 * b, 3 * c) : 0);
    if (key !== open) {
      end();
      pen.beginPath();
      open = key;
    }
    pen.moveTo(...px(g, a));
    pen.lineTo(...px(g, b));
    pen.lineTo(...px(g, c));
    pen.closePath();
  }
  end();
}

function lines(g: Glass, pairs: number[], wide: number): void {
  g.pen.beginPath();
  for (let i = 0; i < pairs.length; i += 2) {
    g.pen.moveTo(...px(g, pairs[i]!));
    g.pen.lineTo(...px(g, pairs[i + 1]!));
  }
  g.pen.strokeStyle = ink;
  g.pen.lineWidth = wide;
  g.pen.stroke();
}

function way(g: Glass, path: number[], wide: number, dash: number[]): void {
  g.pen.setLineDash(dash);
  lines(g, path.slice(1).flatMap((v, i) => [path[i]!, v]), wide);
  g.pen.setLineDash([]);
}

function dot(g: Glass, [x, y]: [number, number], r: number, full: boolean): void {
  g.pen.beginPath();
  g.pen.arc(x, y, r, 0, 7);
  g.pen.fillStyle = full ? ink : ground;
  g.pen.fill();
  g.pen.lineWidth = 2;
  g.pen.strokeStyle = ink;
  g.pen.stroke();
}

/** flags number the places that the table beside names. */
function flags(g: Glass, faces: Int32Array): void {
  const { pen } = g;
  for (const s of now.said.spots) {
    const at = [0, 1, 2].map((i) => px(g, faces[3 * s.face + i]!));
    const [x, y] = [(at[0]![0] + at[1]![0] + at[2]![0]) / 3, (at[0]![1] + at[1]![1] + at[2]![1]) / 3];
    const to: [number, number] = [x + (x > g.canvas.clientWidth / 2 ? -26 : 26), y + (y < 60 ? 24 : -22)];
    pen.beginPath();
    pen.moveTo(x, y);
    pen.lineTo(...to);
    pen.lineWidth = 1.5;
    pen.strokeStyle = ink;
    pen.stroke();
    dot(g, to, 10, false);
    pen.fillStyle = ink;
    pen.font = `600 14px ${narrow}`;
    pen.textAlign = "center";
    pen.textBaseline = "middle";
    pen.fillText(s.label, ...to);
  }
}

/** mark is the face whose numbers were last asked for. */
export const asked = { face: -1 };

function ring(g: Glass, faces: Int32Array): void {
  if (asked.face < 0) return;
  g.pen.beginPath();
  for (let i = 0; i < 3; i++) g.pen.lineTo(...px(g, faces[3 * asked.face + i]!));
  g.pen.closePath();
  g.pen.lineWidth = 4;
  g.pen.strokeStyle = ink;
  g.pen.stroke();
}

function blank(g: Glass): void {
  size(g);
  g.pen.fillStyle = ground;
  g.pen.fillRect(0, 0, g.canvas.clientWidth, g.canvas.clientHeight);
}

function drawSpace(): void {
  const g = space;
  blank(g);
  fill(g, solid.faces, order(g.at, solid.faces), true);
  lines(g, edge, 1.5);
  for (const path of now.said.paths) way(g, path, 2, [3, 4]);
  ways.forEach((path, n) => way(g, path, n === hand.seam ? 5 : 3.5, [10, 5]));
  seams.forEach((s, n) => s.forEach((v, i) => dot(g, px(g, v), n === hand.seam && i === hand.place ? 10 : 7, n === hand.seam && i === hand.place)));
  if (hand.drawing && hand.cursor >= 0) {
    const [x, y] = px(g, hand.cursor);
    g.pen.lineWidth = 2.5;
    g.pen.strokeStyle = ink;
    g.pen.strokeRect(x - 13, y - 13, 26, 26);
  }
  ring(g, solid.faces);
  flags(g, solid.faces);
}

/** across draws a line of the flat shape, such as a fold. */
function across(g: Glass, [x, y, u, v]: [number, number, number, number]): void {
  const to = (a: number, b: number): [number, number] => [g.canvas.clientWidth / 2 + (a - g.x) * g.k, g.canvas.clientHeight / 2 - (b - g.y) * g.k];
  g.pen.setLineDash([12, 6]);
  g.pen.beginPath();
  g.pen.moveTo(...to(x, y));
  g.pen.lineTo(...to(u, v));
  g.pen.lineWidth = 3;
  g.pen.strokeStyle = ink;
  g.pen.stroke();
  g.pen.setLineDash([]);
}

function drawFlat(): void {
  const g = flat;
  blank(g);
  const f = now.laid;
  if (!f) return;
  const list = Array.from({ length: f.faces.length / 3 }, (_, i) => i).sort((a, b) => now.said.class.charCodeAt(a) - now.said.class.charCodeAt(b) || a - b);
  fill(g, f.faces, list, false);
  lines(g, f.rim, 2);
  now.said.lines.forEach((l) => across(g, l));
  ring(g, f.faces);
  flags(g, f.faces);
  bar(g);
}

/** bar says how large what is drawn is. */
function bar(g: Glass): void {
  const step = [1000, 500, 200, 100, 50, 20, 10].find((mm) => mm * g.k < g.canvas.clientWidth / 3) ?? 10;
  const [x, y] = [14, g.canvas.clientHeight - 14];
  g.pen.beginPath();
  g.pen.moveTo(x, y - 6);
  g.pen.lineTo(x, y);
  g.pen.lineTo(x + step * g.k, y);
  g.pen.lineTo(x + step * g.k, y - 6);
  g.pen.lineWidth = 2;
  g.pen.strokeStyle = ink;
  g.pen.stroke();
  g.pen.fillStyle = ink;
  g.pen.font = `600 14px ${narrow}`;
  g.pen.textAlign = "left";
  g.pen.textBaseline = "bottom";
  g.pen.fillText(`${step} mm`, x + 6, y - 4);
  g.pen.strokeStyle = fine;
}

let waiting = false;

/** draw draws both anew with the next picture of the screen. */
export function draw(): void {
  if (waiting) return;
  waiting = true;
  requestAnimationFrame(() => {
    waiting = false;
    drawSpace();
    drawFlat();
  });
}

/** lay takes the flat pattern that was laid anew into view. */
export function lay(): void {
  const first = !flat.at.length;
  flat.at = now.laid?.points ?? new Float64Array();
  if (first || !seen()) fit(flat);
}

/** seen tells whether the flat pattern's middle is on its glass still. */
function seen(): boolean {
  const w = flat.canvas.clientWidth / flat.k;
  return flat.at.length > 0 && Math.abs(flat.at[0]! - flat.x) < w && Math.abs(flat.at[1]! - flat.y) < w;
}
