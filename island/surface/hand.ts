// Fingers, pens and mice on the two canvases: drag turns or moves a seam, two
// fingers pan and pinch, a tap reads a place or puts one.
import { done, keys, tap, tell, turn } from "./acts";
import { soon } from "./ask";
import { now, solid } from "./facts";
import { draw, flat, type Glass, space, spot, zoom } from "./paint";
import { pick, under } from "./space";
import { hand, move, seams, write } from "./state";

/** still is how far a finger may slip, in pixels, and yet have tapped; reach is that of a fingertip. */
const still = 8;
const reach = 30;

type Point = [number, number];
const down = new Map<number, Point>();
let on: Glass = space;
let does: "turn" | "seam" | "pan" = "turn";
let began: Point = [0, 0];
let moved = false;

/** held is the place of a seam under a finger, the nearest in reach. */
function held(x: number, y: number): boolean {
  if (on !== space || !hand.drawing) return false;
  const [mx, my] = spot(space, x, y);
  let least = reach / space.k;
  let found = false;
  seams.forEach((s, n) =>
    s.forEach((v, i) => {
      const d = Math.hypot(space.at[3 * v]! - mx, space.at[3 * v + 1]! - my);
      if (d < least) {
        [least, found] = [d, true];
        Object.assign(hand, { seam: n, place: i });
      }
    }),
  );
  return found;
}

function press(e: PointerEvent, g: Glass): void {
  if (e.button) return;
  g.canvas.setPointerCapture(e.pointerId);
  if (!down.size) {
    [on, moved, began] = [g, false, [e.clientX, e.clientY]];
    does = g === flat ? "pan" : held(e.clientX, e.clientY) ? "seam" : "turn";
    if (does === "seam") keys();
  }
  down.set(e.pointerId, [e.clientX, e.clientY]);
}

function slip(e: PointerEvent): void {
  const last = down.get(e.pointerId);
  if (!last) return;
  if (!moved && down.size < 2 && Math.hypot(e.clientX - began[0], e.clientY - began[1]) < still) return;
  const before = [...down.values()];
  down.set(e.pointerId, [e.clientX, e.clientY]);
  const after = [...down.values()];
  moved = true;
  if (after[1]) {
    const span = ([p, q]: Point[]): number => Math.hypot(q![0] - p![0], q![1] - p![1]);
    const mid = ([p, q]: Point[]): Point => [(p![0] + q![0]) / 2, (p![1] + q![1]) / 2];
    const [from, to] = [mid(before), mid(after)];
    zoom(on, span(after) / (span(before) || 1), ...from, to[0] - from[0], to[1] - from[1]);
  } else if (does === "seam") {
    const v = pick(space.at, solid.faces, ...spot(space, e.clientX, e.clientY), reach / space.k);
    if (v >= 0 && move(v)) {
      hand.cursor = v;
      write();
      soon(90);
    }
  } else if (does === "turn") turn((e.clientX - last[0]) * 0.5, (e.clientY - last[1]) * 0.5);
  else zoom(on, 1, ...last, e.clientX - last[0], e.clientY - last[1]);
  draw();
}

function lift(e: PointerEvent): void {
  if (!down.delete(e.pointerId) || down.size) return;
  if (does === "seam" && moved) return done();
  if (moved || e.type === "pointercancel") return;
  const at = spot(on, e.clientX, e.clientY);
  if (on === space && hand.drawing) {
    const v = does === "seam" ? seams[hand.seam]![hand.place]! : pick(space.at, solid.faces, ...at, reach / space.k);
    if (v >= 0) tap(v);
  } else tell(on === space ? under(space.at, solid.faces, ...at) : now.laid ? under(flat.at, now.laid.faces, ...at) : -1);
}

/** hands lets both canvases be worked by hand. */
export function hands(): void {
  for (const g of [space, flat]) {
    g.canvas.addEventListener("pointerdown", (e) => press(e, g));
    g.canvas.addEventListener("pointermove", slip);
    g.canvas.addEventListener("pointerup", lift);
    g.canvas.addEventListener("pointercancel", lift);
    g.canvas.addEventListener("touchmove", (e) => e.preventDefault(), { passive: false });
    g.canvas.addEventListener(
      "wheel",
      (e) => {
        if (!e.ctrlKey) return;
        e.preventDefault();
        zoom(g, Math.exp(-e.deltaY / 200), e.clientX, e.clientY);
        draw();
      },
      { passive: false },
    );
  }
}
