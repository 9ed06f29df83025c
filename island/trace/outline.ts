// A first outline out of the picture itself, as a start to be corrected: what is
// coloured more like the leather under the cross than like the floor around it,
// joined up, walked around, and thinned.

/** Grid is a small picture, four bytes a pixel: red, green, blue and one unused. */
export interface Grid {
  width: number;
  height: number;
  data: ArrayLike<number>;
}

type Cell = [x: number, y: number];

/** sample is the mean colour of cells, and how much it varies. */
function sample(g: Grid, cells: Cell[]): { mean: number[]; vary: number[] } {
  const mean = [0, 0, 0];
  const vary = [0, 0, 0];
  for (const [x, y] of cells) for (let c = 0; c < 3; c++) mean[c]! += g.data[(y * g.width + x) * 4 + c]! / cells.length;
  for (const [x, y] of cells) for (let c = 0; c < 3; c++) vary[c]! += (g.data[(y * g.width + x) * 4 + c]! - mean[c]!) ** 2 / cells.length;
  return { mean, vary };
}

/** floorSpread is added to how much colours vary: light falls off across a floor. */
const floorSpread = 120;

/** leathery tells for each pixel whether it is more like the leather than the floor. */
function leathery(g: Grid, leather: Cell[], floor: Cell[]): Uint8Array {
  const a = sample(g, leather);
  const b = sample(g, floor);
  const out = new Uint8Array(g.width * g.height);
  for (let i = 0; i < out.length; i++) {
    let near = 0;
    for (let c = 0; c < 3; c++) {
      const v = g.data[i * 4 + c]!;
      near += (v - b.mean[c]!) ** 2 / (b.vary[c]! + floorSpread) - (v - a.mean[c]!) ** 2 / (a.vary[c]! + floorSpread);
    }
    out[i] = near > 0 ? 1 : 0;
  }
  return out;
}

/** spread marks with a value all cells that hang together with one, and counts them. */
function spread(of: Uint8Array, width: number, from: number, mark: number): number {
  const was = of[from]!;
  const stack = [from];
  of[from] = mark;
  let n = 0;
  while (stack.length) {
    const i = stack.pop()!;
    n++;
    const x = i % width;
    for (const j of [x > 0 ? i - 1 : -1, x < width - 1 ? i + 1 : -1, i - width, i + width])
      if (j >= 0 && j < of.length && of[j] === was) {
        of[j] = mark;
        stack.push(j);
      }
  }
  return n;
}

/** walk goes around the marked cells (Moore's neighbours), from the first one. */
function walk(of: Uint8Array, width: number, mark: number): Cell[] {
  const height = of.length / width;
  const is = (x: number, y: number): boolean => x >= 0 && y >= 0 && x < width && y < height && of[y * width + x] === mark;
  const first = of.indexOf(mark);
  const start: Cell = [first % width, Math.floor(first / width)];
  const round: Cell[] = [[-1, 0], [-1, -1], [0, -1], [1, -1], [1, 0], [1, 1], [0, 1], [-1, 1]];
  const ring: Cell[] = [];
  let [x, y] = start;
  let came = 0; // the way back, outside
  while (ring.length < of.length) {
    ring.push([x, y]);
    let n = 1;
    while (n <= 8 && !is(x + round[(came + n) % 8]![0], y + round[(came + n) % 8]![1])) n++;
    if (n > 8) return ring;
    const d = (came + n) % 8;
    const [dx, dy] = round[d]!;
    const next: Cell = [x + dx, y + dy];
    // Around once the step from the first cell to the second comes again.
    if (ring.length > 2 && x === start[0] && y === start[1] && next[0] === ring[1]![0] && next[1] === ring[1]![1]) return ring.slice(0, -1);
    // The last cell outside, as seen from the next one.
    const [bx, by] = round[(d + 7) % 8]!;
    came = round.findIndex(([p, q]) => p === bx - dx && q === by - dy);
    [x, y] = next;
  }
  return ring;
}

/** thin leaves out what lies within a distance of the line without it (Douglas and Peucker). */
function thin(line: Cell[], far: number): Cell[] {
  const [a, b] = [line[0]!, line[line.length - 1]!];
  const long = Math.hypot(b[0] - a[0], b[1] - a[1]);
  let at = 0;
  let most = far;
  line.forEach((p, i) => {
    const d = long ? Math.abs((b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])) / long : Math.hypot(p[0] - a[0], p[1] - a[1]);
    if (d > most) [most, at] = [d, i];
  });
  if (!at) return [a, b];
  return [...thin(line.slice(0, at + 1), far).slice(0, -1), ...thin(line.slice(at), far)];
}

/**
 * outline walks around the leather at a cell. Nothing comes back where no edge is
 * found: the leather would be less than a hundredth of the picture, or reach its rim.
 */
export function outline(g: Grid, [x, y]: Cell): Cell[] {
  const around: Cell[] = [];
  const r = Math.max(2, Math.round(g.width / 40));
  for (let dy = -r; dy <= r; dy++) for (let dx = -r; dx <= r; dx++) if (x + dx >= 0 && y + dy >= 0 && x + dx < g.width && y + dy < g.height) around.push([x + dx, y + dy]);
  const rim: Cell[] = [];
  for (let i = 0; i < g.width; i++) rim.push([i, 0], [i, 1], [i, g.height - 1], [i, g.height - 2]);
  for (let j = 0; j < g.height; j++) rim.push([0, j], [1, j], [g.width - 1, j], [g.width - 2, j]);
  const of = leathery(g, around, rim);
  if (!of[y * g.width + x]) return [];
  const n = spread(of, g.width, y * g.width + x, 2);
  if (n < of.length / 100 || rim.filter(([i, j]) => of[j * g.width + i] === 2).length > rim.length / 20) return [];
  const ring = walk(of, g.width, 2);
  // Halved at the farthest cell, so that both ends stay.
  const half = ring.reduce((best, p, i) => (Math.hypot(p[0] - ring[0]![0], p[1] - ring[0]![1]) > Math.hypot(ring[best]![0] - ring[0]![0], ring[best]![1] - ring[0]![1]) ? i : best), 0);
  if (half < 3) return [];
  return outwards([...thin(ring.slice(0, half + 1), 1).slice(0, -1), ...thin([...ring.slice(half), ring[0]!], 1).slice(0, -1)]);
}

/** outwards moves a ring through the middles of its cells to their outer edge: half a cell away from its left, as it is walked clockwise as seen. */
function outwards(ring: Cell[]): Cell[] {
  return ring.map(([x, y], i) => {
    const a = ring[(i + ring.length - 1) % ring.length]!;
    const b = ring[(i + 1) % ring.length]!;
    const far = Math.hypot(b[0] - a[0], b[1] - a[1]) || 1;
    return [x + 0.5 + (b[1] - a[1]) / far / 2, y + 0.5 - (b[0] - a[0]) / far / 2];
  });
}
