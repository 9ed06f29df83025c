// Shapes in the plane, in millimetres with y up: what the drawing needs to say
// at once whether two of them overlap and how near they lie. The server's exact
// checker has the last word.

export type Point = [x: number, y: number];
export type Ring = Point[];

/** Shape is an outline with its holes. */
export interface Shape {
  outer: Ring;
  holes?: Ring[] | null;
}

/** Laid is a shape where it lies: its rings, outline first, and the box around them. */
export interface Laid {
  rings: Ring[];
  box: [left: number, low: number, right: number, high: number];
}

/** slack is how deep shapes may seem to enter each other through rounding, in mm. */
export const slack = 0.05;

const { abs, hypot, max, min, PI, sin, cos } = Math;

/** lay turns a shape by degrees about its own origin, then moves it. */
export function lay(shape: Shape, x = 0, y = 0, degrees = 0): Laid {
  const s = sin((degrees * PI) / 180);
  const c = cos((degrees * PI) / 180);
  const rings = [shape.outer, ...(shape.holes ?? [])].map((ring) => ring.map(([px, py]): Point => [x + c * px - s * py, y + s * px + c * py]));
  const xs = rings[0]!.map((p) => p[0]);
  const ys = rings[0]!.map((p) => p[1]);
  return { rings, box: [min(...xs), min(...ys), max(...xs), max(...ys)] };
}

/** edges walks over all edges until visit answers true, and tells whether it did. */
function edges(a: Laid, visit: (p: Point, q: Point) => boolean): boolean {
  return a.rings.some((ring) => ring.some((p, i) => visit(p, ring[(i + 1) % ring.length]!)));
}

/** area is that of the outline without its holes, in mm². */
export function area(a: Laid): number {
  return a.rings.reduce((sum, ring, n) => {
    let twice = 0;
    ring.forEach((p, i) => {
      const q = ring[(i + 1) % ring.length]!;
      twice += p[0] * q[1] - q[0] * p[1];
    });
    return sum + (n ? -1 : 1) * abs(twice / 2);
  }, 0);
}

/** inside tells whether a point lies in the shape and not in a hole. */
export function inside(a: Laid, [x, y]: Point): boolean {
  let odd = false;
  edges(a, (p, q) => {
    if (p[1] > y !== q[1] > y && x < p[0] + ((y - p[1]) / (q[1] - p[1])) * (q[0] - p[0])) odd = !odd;
    return false;
  });
  return odd;
}

/** away is the distance of a point to an edge. */
function away([x, y]: Point, p: Point, q: Point): number {
  const dx = q[0] - p[0];
  const dy = q[1] - p[1];
  const t = max(0, min(1, ((x - p[0]) * dx + (y - p[1]) * dy) / (dx * dx + dy * dy || 1)));
  return hypot(x - p[0] - t * dx, y - p[1] - t * dy);
}

/** near tells whether a point lies within reach of an edge of the shape. */
function near(a: Laid, at: Point, reach: number): boolean {
  return edges(a, (p, q) => away(at, p, q) <= reach);
}

/** apart tells whether boxes are farther from each other than reach. */
export function apart(a: Laid, b: Laid, reach = 0): boolean {
  return a.box[0] > b.box[2] + reach || b.box[0] > a.box[2] + reach || a.box[1] > b.box[3] + reach || b.box[1] > a.box[3] + reach;
}

/** cross tells whether an edge of one shape goes through an edge of the other. */
function cross(a: Laid, b: Laid): boolean {
  return edges(a, (p, q) => {
    const length = hypot(q[0] - p[0], q[1] - p[1]);
    const side = (u: Point, v: Point, w: Point, long: number): number => ((v[0] - u[0]) * (w[1] - u[1]) - (v[1] - u[1]) * (w[0] - u[0])) / long;
    const split = (m: number, n: number): boolean => m * n < 0 && min(abs(m), abs(n)) > slack;
    return edges(b, (u, v) => split(side(p, q, u, length), side(p, q, v, length)) && split(side(u, v, p, hypot(v[0] - u[0], v[1] - u[1])), side(u, v, q, hypot(v[0] - u[0], v[1] - u[1]))));
  });
}

/** enters tells whether a corner of a, or the ground just inside the middle of an edge of it, lies in b. */
function enters(a: Laid, b: Laid): boolean {
  const deep = (at: Point): boolean => inside(b, at) && !near(b, at, slack);
  return edges(a, (p, q) => {
    if (deep(p)) return true;
    const long = hypot(q[0] - p[0], q[1] - p[1]) / (2 * slack);
    return [1, -1].some((way) => {
      const at: Point = [(p[0] + q[0]) / 2 - (way * (q[1] - p[1])) / long, (p[1] + q[1]) / 2 + (way * (q[0] - p[0])) / long];
      return inside(a, at) && deep(at);
    });
  });
}

/** overlap tells whether two shapes share ground. */
export function overlap(a: Laid, b: Laid): boolean {
  return !apart(a, b) && (cross(a, b) || enters(a, b) || enters(b, a));
}

/** leaves tells whether a part of a lies beside b or over a hole in it. */
export function leaves(a: Laid, b: Laid): boolean {
  return a.rings[0]!.some((p) => !inside(b, p) && !near(b, p, slack)) || cross(a, b) || b.rings.some((ring) => ring.some((p) => inside(a, p) && !near(a, p, slack)));
}

/** gap is the least distance between the edges of two shapes. */
export function gap(a: Laid, b: Laid): number {
  let least = Infinity;
  const from = (c: Laid, d: Laid): void => c.rings.forEach((ring) => ring.forEach((at) => edges(d, (p, q) => ((least = min(least, away(at, p, q))), false))));
  from(a, b);
  from(b, a);
  return least;
}

/** rest is an angle brought to the nearest of no turn: above -full/2, up to full/2. */
export function rest(angle: number, full: number): number {
  return angle - full * Math.ceil(angle / full - 0.5);
}
