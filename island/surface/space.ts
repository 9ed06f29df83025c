// A surface in space as it is looked at: turned, picked, and walked along its
// edges. Lengths are millimetres; angles are degrees.

/** Surface holds x, y, z of each vertex and the three vertices of each face. */
export interface Surface {
  points: Float64Array;
  faces: Int32Array;
}

/** View is turned about the upright axis and tipped above the level. */
export interface View {
  turn: number;
  tip: number;
}

/** eye turns every vertex into right, up and towards who looks. */
export function eye(points: Float64Array, view: View): Float64Array {
  const [st, ct, sp, cp] = [Math.sin, Math.cos].flatMap((f) => [f((view.turn * Math.PI) / 180)]).concat([Math.sin, Math.cos].map((f) => f((view.tip * Math.PI) / 180))) as [number, number, number, number];
  const out = new Float64Array(points.length);
  for (let i = 0; i < points.length; i += 3) {
    const [px, py, z] = [points[i]!, points[i + 1]!, points[i + 2]!];
    const y = ct * py - st * px;
    out[i] = ct * px + st * py;
    out[i + 1] = cp * z + sp * y;
    out[i + 2] = sp * z - cp * y;
  }
  return out;
}

/** order lists faces from far to near. */
export function order(at: Float64Array, faces: Int32Array): Int32Array {
  const count = faces.length / 3;
  const depth = new Float64Array(count);
  const list = new Int32Array(count);
  for (let i = 0; i < count; i++) {
    list[i] = i;
    depth[i] = at[3 * faces[3 * i]! + 2]! + at[3 * faces[3 * i + 1]! + 2]! + at[3 * faces[3 * i + 2]! + 2]!;
  }
  return list.sort((a, b) => depth[a]! - depth[b]! || a - b);
}

/** links lists the neighbours of each vertex. */
export function links(s: Surface): number[][] {
  const sets = Array.from({ length: s.points.length / 3 }, () => new Set<number>());
  for (let i = 0; i < s.faces.length; i += 3)
    for (let j = 0; j < 3; j++) {
      const a = s.faces[i + j]!;
      const b = s.faces[i + ((j + 1) % 3)]!;
      sets[a]!.add(b);
      sets[b]!.add(a);
    }
  return sets.map((set) => [...set]);
}

/** rim lists the edges that one face has alone, as pairs. */
export function rim(faces: Int32Array, vertices: number): number[] {
  const seen = new Map<number, number>();
  const edges: [number, number, number][] = [];
  for (let i = 0; i < faces.length; i += 3)
    for (let j = 0; j < 3; j++) {
      const a = faces[i + j]!;
      const b = faces[i + ((j + 1) % 3)]!;
      const key = Math.min(a, b) * vertices + Math.max(a, b);
      seen.set(key, (seen.get(key) ?? 0) + 1);
      edges.push([key, a, b]);
    }
  return edges.filter(([key]) => seen.get(key) === 1).flatMap(([, a, b]) => [a, b]);
}

const away = (p: Float64Array, a: number, b: number): number => Math.hypot(p[3 * a]! - p[3 * b]!, p[3 * a + 1]! - p[3 * b + 1]!, p[3 * a + 2]! - p[3 * b + 2]!);

/** route is the shortest way along edges, both ends included; empty where there is none. */
export function route(s: Surface, near: number[][], from: number, to: number): number[] {
  const far = new Map<number, number>([[from, 0]]);
  const back = new Map<number, number>();
  const done = new Set<number>();
  const heap: [number, number][] = [[0, from]];
  while (heap.length) {
    const [, v] = pop(heap);
    if (v === to) break;
    if (done.has(v)) continue;
    done.add(v);
    for (const w of near[v]!) {
      const d = far.get(v)! + away(s.points, v, w);
      if (d >= (far.get(w) ?? Infinity)) continue;
      far.set(w, d);
      back.set(w, v);
      push(heap, [d, w]);
    }
  }
  if (from !== to && !back.has(to)) return [];
  const path = [to];
  while (path[0] !== from) path.unshift(back.get(path[0]!)!);
  return path;
}

function push(heap: [number, number][], item: [number, number]): void {
  let i = heap.push(item) - 1;
  while (i > 0 && heap[(i - 1) >> 1]![0] > item[0]) {
    heap[i] = heap[(i - 1) >> 1]!;
    i = (i - 1) >> 1;
  }
  heap[i] = item;
}

function pop(heap: [number, number][]): [number, number] {
  const top = heap[0]!;
  const last = heap.pop()!;
  if (!heap.length) return top;
  let i = 0;
  for (;;) {
    let child = 2 * i + 1;
    if (child >= heap.length) break;
    if (child + 1 < heap.length && heap[child + 1]![0] < heap[child]![0]) child++;
    if (heap[child]![0] >= last[0]) break;
    heap[i] = heap[child]!;
    i = child;
  }
  heap[i] = last;
  return top;
}

/** length is how long a way along edges is, in mm. */
export function length(s: Surface, path: number[]): number {
  return path.slice(1).reduce((sum, v, i) => sum + away(s.points, path[i]!, v), 0);
}

/** under is the face nearest to who looks at a place of the picture, or −1. */
export function under(at: Float64Array, faces: Int32Array, x: number, y: number): number {
  let best = -1;
  let near = -Infinity;
  for (let i = 0; i < faces.length; i += 3) {
    const [a, b, c] = [3 * faces[i]!, 3 * faces[i + 1]!, 3 * faces[i + 2]!];
    const area = (at[b]! - at[a]!) * (at[c + 1]! - at[a + 1]!) - (at[b + 1]! - at[a + 1]!) * (at[c]! - at[a]!);
    if (!area) continue;
    const v = ((x - at[a]!) * (at[c + 1]! - at[a + 1]!) - (y - at[a + 1]!) * (at[c]! - at[a]!)) / area;
    const w = ((at[b]! - at[a]!) * (y - at[a + 1]!) - (at[b + 1]! - at[a + 1]!) * (x - at[a]!)) / area;
    if (v < 0 || w < 0 || v + w > 1) continue;
    const depth = at[a + 2]! * (1 - v - w) + at[b + 2]! * v + at[c + 2]! * w;
    if (depth > near) [near, best] = [depth, i / 3];
  }
  return best;
}

/** pick is the vertex that a finger means at a place of the picture: a corner of the face under it, else the nearest in reach; −1 for none. */
export function pick(at: Float64Array, faces: Int32Array, x: number, y: number, reach: number): number {
  const face = under(at, faces, x, y);
  const all = face < 0 ? Array.from({ length: at.length / 3 }, (_, i) => i) : [faces[3 * face]!, faces[3 * face + 1]!, faces[3 * face + 2]!];
  let best = -1;
  let least = face < 0 ? reach : Infinity;
  for (const v of all) {
    const d = Math.hypot(at[3 * v]! - x, at[3 * v + 1]! - y);
    if (d < least) [least, best] = [d, v];
  }
  return best;
}

/** toward is the neighbour that lies most in a direction of the picture, or the vertex itself. */
export function toward(at: Float64Array, near: number[][], v: number, dx: number, dy: number): number {
  let best = v;
  let most = 0.35; // the cosine of some 70°: farther aside is another direction
  for (const w of near[v]!) {
    const [x, y] = [at[3 * w]! - at[3 * v]!, at[3 * w + 1]! - at[3 * v + 1]!];
    const cos = (x * dx + y * dy) / (Math.hypot(x, y) || 1);
    if (cos > most) [most, best] = [cos, w];
  }
  return best;
}
