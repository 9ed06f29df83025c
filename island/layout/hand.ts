// Fingers, pens and mice on the drawing: drag, turn by the handle or with two
// fingers, pan, pinch, and the corners of a keep-out.
import { copies, middle, put } from "./facts";
import { allowed } from "./judge";
import type { Point } from "./plane";
import { one, places } from "./state";
import { close, done, drawn, loose, pick, turn } from "./acts";
import { drag, drawing, say, shown, spot, zoom } from "./view";

/** still is how far a finger may slip, in pixels, and yet have tapped. */
const still = 8;

const down = new Map<number, Point>();
let does: "pan" | "move" | "turn" | "corner" | "" = "";
let began: Point = [0, 0];
let moved = false;
let bare = false; // the finger came down on the ground, not on a piece
let offset = 0; // of the turn from the finger's own angle
let grip: Point = [0, 0]; // of the copy's middle from the finger, in mm

const span = (p: Point, q: Point): [far: number, angle: number, mid: Point] => [Math.hypot(q[0] - p[0], q[1] - p[1]), (Math.atan2(p[1] - q[1], q[0] - p[0]) * 180) / Math.PI, [(p[0] + q[0]) / 2, (p[1] + q[1]) / 2]];

/** hub is the middle of the copy in hand, in mm. */
const hub = (): Point => middle(copies[shown.copy]!, places[shown.copy]!);

/** seize remembers how the fingers hold the copy. */
function seize(): void {
  const fingers = [...down.values()];
  const two = fingers[1] && span(fingers[0]!, fingers[1]);
  const from = spot(...(two ? two[2] : fingers[0]!));
  const at = hub();
  grip = [at[0] - from[0], at[1] - from[1]];
  const angle = two ? two[1] : span([0, 0], [from[0] - at[0], at[1] - from[1]])[1];
  offset = places[shown.copy]!.turn - angle;
}

function press(e: PointerEvent): void {
  const svg = drawing();
  if (e.button || !svg.contains(e.target as Node)) return;
  svg.setPointerCapture(e.pointerId);
  down.set(e.pointerId, [e.clientX, e.clientY]);
  if (down.size > 1) {
    if (does === "move") seize();
    return;
  }
  began = [e.clientX, e.clientY];
  moved = false;
  const target = e.target as Element;
  const piece = target.closest<SVGElement>("[data-copy]");
  const out = target.closest<SVGElement>("[data-out]");
  bare = !piece && !out;
  does = drawn.corners ? "corner" : target.closest("[data-handle]") ? "turn" : piece ? "move" : "pan";
  if (does === "move") pick(copies.findIndex((c) => c.key === piece!.dataset.copy));
  if (does === "pan" && out) pick(-1, Number(out.dataset.out));
  if (does === "move" || does === "turn") {
    if (loose()) seize();
    else does = "pan";
  }
}

let waiting = false;

function slip(e: PointerEvent): void {
  const last = down.get(e.pointerId);
  if (!last) return;
  const before = [...down.values()];
  down.set(e.pointerId, [e.clientX, e.clientY]);
  const after = [...down.values()];
  if (!moved && Math.hypot(e.clientX - began[0], e.clientY - began[1]) < still) return;
  if (does === "move" || does === "turn") {
    if (!waiting) requestAnimationFrame(carry);
    waiting = moved = true;
  } else if (after[1]) {
    const [far, , mid] = span(before[0]!, before[1]!);
    const [to, , now] = span(after[0]!, after[1]);
    zoom(to / far, mid, now[0] - mid[0], now[1] - mid[1]);
    moved = true;
  } else {
    zoom(1, last, e.clientX - (moved ? last : began)[0], e.clientY - (moved ? last : began)[1]);
    moved = true;
  }
}

/** carry brings the copy to where the fingers are, once a picture. */
function carry(): void {
  waiting = false;
  const fingers = [...down.values()];
  const p = places[shown.copy];
  if (!fingers[0] || !p) return;
  const c = copies[shown.copy]!;
  const two = fingers[1] && span(fingers[0], fingers[1]);
  const to = spot(...(two ? two[2] : fingers[0]));
  if (does === "move") put(c, p, [to[0] + grip[0], to[1] + grip[1]]);
  if (two || does === "turn") {
    const at = hub();
    const angle = two ? two[1] : span([0, 0], [to[0] - at[0], at[1] - to[1]])[1];
    say(turn(angle + offset) ? "" : allowed(c, p));
  }
  drag(shown.copy);
}

function lift(e: PointerEvent): void {
  if (!down.has(e.pointerId)) return;
  if (waiting) carry();
  down.delete(e.pointerId);
  if (down.size) {
    if (does === "move") seize();
    return;
  }
  if (does === "corner" && !moved) corner(spot(e.clientX, e.clientY));
  else if ((does === "move" || does === "turn") && moved) done();
  else if (does === "pan" && !moved && bare) pick(-1);
  does = "";
}

/** corner adds a corner to the keep-out; near the first one it closes it. */
function corner(at: Point): void {
  const ring = drawn.corners!;
  const mm = spot(1, 0)[0] - spot(0, 0)[0];
  if (ring[2] && Math.hypot(at[0] - ring[0]![0], at[1] - ring[0]![1]) < 24 * mm) return close(true);
  ring.push([Math.round(at[0]), Math.round(at[1])]);
  one("[data-trace]", drawing()).setAttribute("points", ring.map(([x, y]) => `${x},${-y}`).join(" "));
  say(`Corner ${ring.length}.`);
}

/** hands lets the drawing be worked by hand. */
export function hands(stage: HTMLElement): void {
  stage.addEventListener("pointerdown", press);
  stage.addEventListener("pointermove", slip);
  stage.addEventListener("pointerup", lift);
  stage.addEventListener("pointercancel", lift);
  // A quick drag is no fling of the page, which would swallow the next tap.
  stage.addEventListener("touchmove", (e) => e.preventDefault(), { passive: false });
  stage.addEventListener(
    "wheel",
    (e) => {
      if (!e.ctrlKey) return;
      e.preventDefault();
      zoom(Math.exp(-e.deltaY / 200), [e.clientX, e.clientY]);
    },
    { passive: false },
  );
}

