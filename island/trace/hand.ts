// Fingers, pens and mice on the photo: one aims and marks or slides a point, two
// move and widen the view.
import { done, move, near, pick, put } from "./acts";
import { at, items, type Point } from "./state";
import { k, magnify, spot, zoom } from "./view";

/** reach is how near a finger must come to a point to take it, in pixels of the screen. */
const reach = 14;

const down = new Map<number, Point>();
let does: "" | "aim" | "slide" | "view" = "";
let grip: Point = [0, 0]; // of a taken point from the finger, in pixels of the photo

const mid = (p: Point, q: Point): Point => [(p[0] + q[0]) / 2, (p[1] + q[1]) / 2];

function press(e: PointerEvent): void {
  if (e.button) return;
  (e.currentTarget as Element).setPointerCapture(e.pointerId);
  down.set(e.pointerId, [e.clientX, e.clientY]);
  if (down.size > 1) {
    does = "view";
    magnify();
    return;
  }
  const p = spot(e.clientX, e.clientY);
  const found = near(p, reach * k());
  does = found ? "slide" : "aim";
  if (found) {
    pick(...found);
    const held = items[at.tool]![at.item]!.points[at.point]!;
    grip = [held[0] - p[0], held[1] - p[1]];
  } else grip = [0, 0];
  magnify([p[0] + grip[0], p[1] + grip[1]]);
}

let slid = false;

function slip(e: PointerEvent): void {
  const last = down.get(e.pointerId);
  if (!last) return;
  const [a, b] = [...down.values()];
  down.set(e.pointerId, [e.clientX, e.clientY]);
  const [c, d] = [...down.values()];
  if (b && d) {
    const from = mid(a!, b);
    const to = mid(c!, d);
    zoom(Math.hypot(c![0] - d[0], c![1] - d[1]) / Math.max(1, Math.hypot(a![0] - b[0], a![1] - b[1])), from, to[0] - from[0], to[1] - from[1]);
    return;
  }
  if (does === "view" || !does) return;
  const p = spot(e.clientX, e.clientY);
  const to: Point = [p[0] + grip[0], p[1] + grip[1]];
  magnify(to);
  if (does === "slide" && (slid || Math.hypot(e.clientX - last[0], e.clientY - last[1]) > 0)) {
    slid = true;
    move(to);
  }
}

function lift(e: PointerEvent): void {
  if (!down.delete(e.pointerId) || down.size) return;
  const was = does;
  does = "";
  magnify();
  if (was === "aim" && e.type !== "pointercancel") put(spot(e.clientX, e.clientY));
  if (was === "slide") done(slid ? `Point ${at.point + 1} moved.` : `Point ${at.point + 1} is picked.`);
  slid = false;
}

/** hands lets the photo be worked by hand. */
export function hands(picture: SVGSVGElement): void {
  picture.addEventListener("pointerdown", press);
  picture.addEventListener("pointermove", slip);
  picture.addEventListener("pointerup", lift);
  picture.addEventListener("pointercancel", lift);
  picture.addEventListener("touchmove", (e) => e.preventDefault(), { passive: false });
  picture.addEventListener("contextmenu", (e) => e.preventDefault());
  picture.addEventListener(
    "wheel",
    (e) => {
      e.preventDefault();
      if (e.ctrlKey) zoom(Math.exp(-e.deltaY / 200), [e.clientX, e.clientY]);
      else zoom(1, undefined, -e.deltaX, -e.deltaY);
    },
    { passive: false },
  );
}
