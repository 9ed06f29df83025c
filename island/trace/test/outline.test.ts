// Run by npm test, in node.
import { type Grid, outline } from "../outline";

declare function require(name: string): { test(name: string, act: () => void): void };
const { test } = require("node:test");

/** paint makes a picture of leather on a floor, with grain. */
function paint(width: number, height: number, is: (x: number, y: number) => boolean): Grid {
  const data = new Uint8Array(width * height * 4);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const grain = ((x * 7 + y * 13) % 11) - 5;
      (is(x + 0.5, y + 0.5) ? [170, 112, 66] : [112, 114, 116]).forEach((v, c) => (data[(y * width + x) * 4 + c] = v + 2 * grain));
    }
  return { width, height, data };
}

const area = (ring: number[][]): number => Math.abs(ring.reduce((sum, p, i) => sum + p[0]! * ring[(i + 1) % ring.length]![1]! - p[1]! * ring[(i + 1) % ring.length]![0]!, 0) / 2);

test("a round hide with a hole is walked around", () => {
  const ring = outline(paint(300, 200, (x, y) => Math.hypot(x - 150, y - 100) < 80 && Math.hypot(x - 180, y - 90) > 6), [150, 110]);
  const got = area(ring);
  const want = Math.PI * 80 * 80;
  if (ring.length < 12 || ring.length > 90 || Math.abs(got / want - 1) > 0.015) throw new Error(`${ring.length} points hold ${got}, want ${want}`);
  for (const [x, y] of ring) if (Math.abs(Math.hypot(x - 150, y - 100) - 80) > 1.6) throw new Error(`${x}, ${y} is off the edge`);
});

test("a spike where the walk begins is no end of it", () => {
  const ring = outline(paint(120, 100, (x, y) => (x > 30 && x < 90 && y > 40 && y < 80) || (x > 50 && x < 51.1 && y > 20 && y < 80)), [60, 60]);
  if (Math.abs(area(ring) / (60 * 40) - 1) > 0.05) throw new Error(`the ring holds ${area(ring)}`);
});

test("nothing comes back where nothing stands out", () => {
  for (const is of [() => true, () => false, (x: number) => x < 60]) {
    const ring = outline(paint(120, 100, is), [30, 50]);
    if (ring.length) throw new Error(`${ring.length} points of nothing`);
  }
});
