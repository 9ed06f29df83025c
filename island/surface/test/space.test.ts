// Run by npm test, in node.
import { eye, length, links, order, pick, rim, route, toward, under } from "../space";

interface Assert {
  ok(is: boolean, words?: string): void;
  equal(got: unknown, want: unknown): void;
  deepEqual(got: unknown, want: unknown): void;
}
declare function require(name: string): { test(name: string, act: () => void): void; strict: Assert };
const { test } = require("node:test");
const assert: Assert = require("node:assert").strict;

// A sheet of 3 by 3 vertices in the level, 10 mm apart, its middle raised.
const sheet = () => {
  const points: number[] = [];
  for (let y = 0; y < 3; y++) for (let x = 0; x < 3; x++) points.push(10 * x, 10 * y, x === 1 && y === 1 ? 5 : 0);
  const faces: number[] = [];
  for (const v of [0, 1, 3, 4]) faces.push(v, v + 1, v + 4, v, v + 4, v + 3);
  return { points: new Float64Array(points), faces: new Int32Array(faces) };
};

const near = (got: number, want: number) => assert.ok(Math.abs(got - want) < 1e-9, `got ${got}, want ${want}`);

test("eye: from the front x is to the right and z up, from above y is up", () => {
  const front = eye(new Float64Array([1, 2, 3]), { turn: 0, tip: 0 });
  [1, 3, -2].forEach((want, i) => near(front[i]!, want));
  const above = eye(new Float64Array([1, 2, 3]), { turn: 0, tip: 90 });
  [1, 2, 3].forEach((want, i) => near(above[i]!, want));
});

test("order: far faces come first", () => {
  const s = sheet();
  const at = eye(s.points, { turn: 0, tip: 0 });
  const list = [...order(at, s.faces)];
  const depth = (f: number) => [0, 1, 2].reduce((sum, i) => sum + at[3 * s.faces[3 * f + i]! + 2]!, 0);
  list.slice(1).forEach((f, i) => assert.ok(depth(f) >= depth(list[i]!)));
});

test("route: the shortest way along edges, and none between two sheets", () => {
  const s = sheet();
  const at = links(s);
  assert.deepEqual(route(s, at, 0, 8).length, 3); // the diagonals of two squares
  assert.deepEqual(route(s, at, 4, 4), [4]);
  near(length(s, [0, 1, 2]), 20);
  const two = { points: new Float64Array(18), faces: new Int32Array([0, 1, 2, 3, 4, 5]) };
  assert.deepEqual(route(two, links(two), 0, 5), []);
});

test("rim: the outer edges, none within", () => {
  const s = sheet();
  const edges = rim(s.faces, 9);
  assert.equal(edges.length, 16);
  assert.ok(!edges.includes(4));
});

test("pick: a corner of the face under the finger, beside the surface the nearest in reach", () => {
  const s = sheet();
  const at = eye(s.points, { turn: 0, tip: 90 });
  assert.ok(under(at, s.faces, 5, 4) >= 0);
  assert.equal(under(at, s.faces, -5, 4), -1);
  assert.equal(pick(at, s.faces, 9, 8, 3), 4);
  assert.equal(pick(at, s.faces, -2, -1, 3), 0);
  assert.equal(pick(at, s.faces, -9, -9, 3), -1);
});

test("pick: of two layers the one in front", () => {
  const at = new Float64Array([0, 0, 1, 9, 0, 1, 0, 9, 1, 0, 0, 5, 9, 0, 5, 0, 9, 5]);
  assert.equal(pick(at, new Int32Array([0, 1, 2, 3, 4, 5]), 1, 1, 3), 3);
});

test("toward: the neighbour that way, else where it is", () => {
  const s = sheet();
  const at = eye(s.points, { turn: 0, tip: 90 });
  const to = links(s);
  assert.equal(toward(at, to, 4, 1, 0), 5);
  assert.equal(toward(at, to, 4, 0, 1), 7);
  assert.equal(toward(at, to, 2, 1, 0), 2);
});
