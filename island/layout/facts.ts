// What the page says of sheets and pieces, and where each copy lies.
import { area, type Laid, lay, type Point, type Ring, type Shape } from "./plane";

interface Sheet {
  id: string;
  name: string;
  outline: Shape; // the line that pieces keep the margin to
  area: number; // mm², of the whole
  zones: (Shape & { quality: number; label: string })[];
  headings: { x: number; y: number; angle: number }[];
  margin: number;
}

interface Piece {
  name: string;
  keys: string[]; // of its copies, as their fields are named
  shape: Shape;
  quality: number;
  rotations: number[] | null;
  free: boolean;
  axis: { angle: number; tolerance: number; oneWay?: boolean } | null;
}

/** Place is where a copy lies; sheet is -1 while it is in the tray. */
export interface Place {
  sheet: number;
  x: number;
  y: number;
  turn: number; // degrees, anticlockwise
  lock: boolean;
}

/** Copy is one piece to cut. */
export interface Copy extends Piece {
  key: string;
  area: number; // mm²
  middle: Point; // of its own coordinates: it is turned about this
}

const data = JSON.parse(document.getElementById("layout-data")!.textContent!) as { clearance: number; sheets: Sheet[]; pieces: Piece[]; together: string[][] };

export const clearance = data.clearance;

/** together lists the keys of copies that come from one sheet. */
export const together = data.together;

/** sheets with what lies on them where it is. */
export const sheets = data.sheets.map((s) => ({ ...s, laid: lay(s.outline), zones: s.zones.map((z) => ({ ...z, laid: lay(z) })) }));

export const copies = data.pieces.flatMap((p) => p.keys.map((key): Copy => ({ ...p, key, area: area(lay(p.shape)), middle: centroid(p.shape.outer) })));

/** centroid is the middle of gravity of an outline. */
function centroid(ring: Ring): Point {
  let twice = 0;
  let x = 0;
  let y = 0;
  ring.forEach((p, i) => {
    const q = ring[(i + 1) % ring.length]!;
    const c = p[0] * q[1] - q[0] * p[1];
    twice += c;
    x += (p[0] + q[0]) * c;
    y += (p[1] + q[1]) * c;
  });
  return [x / twice / 3, y / twice / 3];
}

/** middle is where the middle of a copy lies on its sheet. */
export function middle(c: Copy, at: Place): Point {
  return lay({ outer: [c.middle] }, at.x, at.y, at.turn).rings[0]![0]!;
}

/** put lays the middle of a copy at a point, turned as at says. */
export function put(c: Copy, at: Place, [x, y]: Point): void {
  const now = middle(c, at);
  at.x += x - now[0];
  at.y += y - now[1];
}

const kept = new Map<Copy, { x: number; y: number; turn: number; laid: Laid }>();

/** laid is the shape of a copy where it lies; worked out anew only once it has moved. */
export function laid(c: Copy, { x, y, turn }: Place): Laid {
  const known = kept.get(c);
  if (known && known.x === x && known.y === y && known.turn === turn) return known.laid;
  const now = lay(c.shape, x, y, turn);
  kept.set(c, { x, y, turn, laid: now });
  return now;
}

/** heading is the direction of the material nearest to a point, in degrees. */
export function heading(sheet: number, [x, y]: Point): number {
  let best = Infinity;
  let angle = 0;
  for (const h of sheets[sheet]?.headings ?? []) {
    const d = Math.hypot(h.x - x, h.y - y);
    if (d < best) [best, angle] = [d, h.angle];
  }
  return angle;
}
