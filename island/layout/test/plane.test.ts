// Run by npm test, in node.
import { area, gap, inside, lay, leaves, overlap, type Ring, rest, type Shape } from "../plane";

declare function require(name: string): { test(name: string, act: () => void): void };
const { test } = require("node:test");

function same(got: unknown, want: unknown, of = ""): void {
  if (JSON.stringify(got) !== JSON.stringify(want)) throw new Error(`${of}: got ${JSON.stringify(got)}, want ${JSON.stringify(want)}`);
}

const near = (got: number, want: number, of = ""): void => {
  if (!(Math.abs(got - want) < 1e-6)) throw new Error(`${of}: got ${got}, want ${want}`);
};

const box = (w: number, h: number): Shape => ({ outer: [[0, 0], [w, 0], [w, h], [0, h]] });
const frame: Shape = { ...box(100, 100), holes: [[[40, 40], [60, 40], [60, 60], [40, 60]]] };
const notch: Shape = { outer: [[0, 0], [100, 0], [100, 100], [60, 100], [60, 40], [40, 40], [40, 100], [0, 100]] };

test("a shape turns about its own origin, then moves", () => {
  const at = lay(box(10, 4), 100, 50, 90);
  at.rings[0]!.forEach((p, i) => p.forEach((v, j) => near(v, [[100, 50], [100, 60], [96, 60], [96, 50]][i]![j]!)));
  at.box.forEach((v, i) => near(v, [96, 50, 100, 60][i]!));
});

test("holes take from the area", () => near(area(lay(frame, 7, 7, 33)), 9600));

test("inside", () => {
  for (const [x, y, want] of [[20, 20, true], [50, 50, false], [120, 50, false], [50, 20, true]] as const) same(inside(lay(frame), [x, y]), want, `${x} ${y}`);
});

test("overlap", () => {
  const cases: [string, Shape, [number, number, number], boolean][] = [
    ["the very same place", frame, [0, 0, 0], true],
    ["beside it, touching", box(100, 100), [100, 0, 0], false],
    ["a hundredth into it", box(100, 100), [99.99, 0, 0], false],
    ["a millimetre into it", box(100, 100), [99, 0, 0], true],
    ["as wide and shifted along", box(100, 100), [0, 60, 0], true],
    ["within the hole", box(18, 18), [41, 41, 0], false],
    ["filling the hole", box(20, 20), [40, 40, 0], false],
    ["larger than the hole", box(24, 10), [38, 45, 0], true],
    ["inside the ground", box(10, 10), [10, 10, 0], true],
    ["around it", box(300, 300), [-100, -100, 0], true],
    ["a corner from the side", box(50, 50), [130, 20, 45], true],
    ["a corner well in", box(50, 50), [80, 20, 0], true],
    ["a cross without a corner inside", box(300, 10), [-100, 20, 0], true],
    ["turned, touching by a corner", box(50, 50), [100, 20, -45], false],
  ];
  for (const [name, shape, at, want] of cases) {
    const [a, b] = [lay(frame), lay(shape, ...at)];
    same(overlap(a, b), want, name);
    same(overlap(b, a), want, name + ", the other way round");
  }
});

test("a piece in a notch lies beside it", () => {
  same(overlap(lay(notch), lay(box(18, 50), 41, 45)), false);
  same(overlap(lay(notch), lay(box(22, 50), 39, 45)), true);
});

test("leaves", () => {
  const sheet = lay(frame);
  for (const [name, shape, at, want] of [
    ["inside", box(30, 30), [5, 5, 0], false],
    ["on the edge", box(30, 30), [0, 0, 0], false],
    ["over the edge", box(30, 30), [-1, 5, 0], true],
    ["beside it", box(30, 30), [200, 5, 0], true],
    ["over the hole", box(40, 40), [30, 30, 0], true],
    ["in the hole", box(10, 10), [45, 45, 0], true],
  ] as [string, Shape, [number, number, number], boolean][]) same(leaves(lay(shape, ...at), sheet), want, name);
});

test("gap", () => {
  near(gap(lay(box(10, 10)), lay(box(10, 10), 13, 14)), 5, "corner to corner");
  near(gap(lay(box(10, 10)), lay(box(100, 4), -50, 12.5)), 2.5, "corner to edge");
  near(gap(lay(frame), lay(box(10, 10), 43, 45)), 3, "in a hole");
});

test("overlap agrees with a fine raster", () => {
  let seed = 7;
  const draw = (n: number): number => ((seed = (seed * 48271) % 2147483647), (seed / 2147483647) * n);
  for (let i = 0; i < 300; i++) {
    const star = (): Ring => Array.from({ length: 9 }, (_, k) => {
      const far = 20 + draw(60);
      return [far * Math.cos((k * 2 * Math.PI) / 9), far * Math.sin((k * 2 * Math.PI) / 9)];
    });
    const a = lay({ outer: star() });
    const b = lay({ outer: star() }, draw(200) - 100, draw(200) - 100, draw(360));
    let both = 0;
    for (let x = -80; x < 80; x++) for (let y = -80; y < 80; y++) if (inside(a, [x, y]) && inside(b, [x, y])) both++;
    if (both && !overlap(a, b)) throw new Error(`case ${i}: ${both} mm² in both, yet no overlap`);
    if (overlap(a, b) && !both && gap(a, b) > 1.5) throw new Error(`case ${i}: overlap of nothing`);
  }
});

test("an angle comes to the nearest of no turn", () => {
  for (const [a, full, want] of [[350, 360, -10], [170, 180, -10], [-95, 180, 85], [540, 360, 180], [-180, 360, 180]] as const) near(rest(a, full), want, String(a));
});
