// What a person can do, by touch or by key. The buttons in the page carry the
// name of the act and its keys, so both are said in one place.
import { ask, say, soon } from "./ask";
import { near, now, per, solid } from "./facts";
import { asked, draw, fit, flat, lay, look, space, view, zoom } from "./paint";
import { length, toward } from "./space";
import { all, hand, keep, move, off, put, read, seams, step, ways } from "./state";

/** cut is what a cut is called, and so at the beginning of a sentence. */
const { cut } = now.said;
const title = cut[0]!.toUpperCase() + cut.slice(1);

/** tell says the numbers of a face. */
export function tell(face: number): void {
  asked.face = face;
  draw();
  if (face < 0) return;
  const { measures, words } = now.said;
  const list = measures.map((m) => `${per(m.of[face]!)} ${m.word}`).join(", ");
  const word = words[now.said.class.charCodeAt(face) - 48] ?? "";
  say(list ? `Here: ${list}. ${word.slice(0, 1).toUpperCase()}${word.slice(1)}.` : "Not laid flat yet.");
}

const mm = (n: number): string => `${Math.round(length(solid, ways[n] ?? []))} mm`;

/** done writes down what was changed, draws it and has it laid flat. */
export function done(said = ""): void {
  asked.face = -1;
  say(said || (seams[hand.seam] ? `${title} ${hand.seam + 1}: ${mm(hand.seam)}.` : ""));
  if (keep()) soon();
  keys();
  draw();
}

/** keys shows which buttons can be touched. */
export function keys(): void {
  all<HTMLButtonElement>("[data-needs]").forEach((b) => (b.disabled = b.dataset.needs === "seam" ? !seams[hand.seam] : hand.seam < 0 || hand.place < 0));
  all('[data-act="seam"]').forEach((b) => b.setAttribute("aria-pressed", String(hand.drawing)));
}

/** tap puts a place of a seam, or picks one that is there. */
export function tap(v: number): void {
  for (const [n, s] of seams.entries()) {
    const i = s.indexOf(v);
    if (i >= 0 && (n !== hand.seam || s.length > 1)) {
      Object.assign(hand, { seam: n, place: i, cursor: v });
      keys();
      draw();
      return say(`Place ${i + 1} of ${cut} ${n + 1}: drag it, or move it by the arrows.`);
    }
  }
  put(v);
  hand.cursor = v;
  done(seams[hand.seam]!.length < 2 ? `The ${cut} begins here. Touch where it goes on.` : "");
}

/** walk moves the picked place, or the cursor, to the neighbour that way. */
function walk(dx: number, dy: number): void {
  if (hand.cursor < 0) hand.cursor = middle();
  const from = hand.place >= 0 ? seams[hand.seam]![hand.place]! : hand.cursor;
  const to = toward(space.at, near, from, dx, dy);
  hand.cursor = to;
  if (hand.place >= 0 && seams[hand.seam]!.length > 1) {
    if (move(to)) done();
    return;
  }
  say(`At vertex ${to}. Enter puts the ${cut} through it.`);
  draw();
}

/** middle is the vertex nearest to the middle of the picture, of those in front. */
function middle(): number {
  let best = 0;
  let least = Infinity;
  for (let v = 0; v < space.at.length / 3; v++) {
    const d = Math.hypot(space.at[3 * v]! - space.x, space.at[3 * v + 1]! - space.y) - space.at[3 * v + 2]! * 0.05;
    if (d < least) [least, best] = [d, v];
  }
  return best;
}

/** turn turns the surface. */
export function turn(dx: number, dy: number): void {
  view.turn = (((view.turn - dx + 180) % 360) + 360) % 360 - 180;
  view.tip = Math.max(-90, Math.min(90, view.tip + dy));
  look();
  draw();
}

function next(): void {
  const list = seams.flatMap((s, n) => s.map((_, i) => [n, i] as const));
  if (!list.length) return say(`No ${cut} is drawn yet.`);
  const at = list.findIndex(([n, i]) => n === hand.seam && i === hand.place);
  const [n, i] = list[(at + 1) % list.length]!;
  Object.assign(hand, { seam: n, place: i, cursor: seams[n]![i]! });
  keys();
  draw();
  say(`Place ${i + 1} of ${cut} ${n + 1}: move it by the arrows.`);
}

function rest(): void {
  Object.assign(hand, { seam: -1, place: -1 });
  keys();
  draw();
}

const arrow = (dx: number, dy: number) => (): void => (hand.drawing ? walk(dx, dy) : turn(dx * 10, dy * 10));
const closer = (by: number) => (): void => {
  for (const g of [space, flat]) {
    const r = g.canvas.getBoundingClientRect();
    zoom(g, by, r.left + r.width / 2, r.top + r.height / 2);
  }
  draw();
};

/** back goes a step back or forward, and has that laid flat. */
const back = (way: boolean) => (): void => {
  if (!step(way)) return say(way ? "Nothing to undo." : "Nothing to redo.");
  draw();
  keys();
  void ask();
};

export const acts: Record<string, () => void> = {
  left: arrow(-1, 0),
  right: arrow(1, 0),
  up: arrow(0, 1),
  down: arrow(0, -1),
  closer: closer(1.25),
  farther: closer(0.8),
  fit: () => {
    look();
    fit(space);
    fit(flat);
    draw();
  },
  undo: back(true),
  redo: back(false),
  seam: () => {
    hand.drawing = !hand.drawing;
    if (hand.drawing && hand.cursor < 0) hand.cursor = middle();
    rest();
    say(hand.drawing ? `Touch where the ${cut} goes, from the rim inwards or across. Drag a place to move it.` : "Drag to turn the surface. Touch a place to read its numbers.");
  },
  put: () => {
    if (!hand.drawing) return;
    if (hand.cursor < 0) hand.cursor = middle();
    tap(hand.cursor);
    // The next arrow looks for the next place, and leaves this one.
    hand.place = -1;
    keys();
  },
  next,
  end: () => {
    rest();
    say(`The ${cut} is done.`);
  },
  off: () => off(false) && done("Taken out."),
  offAll: () => off(true) && done(`The ${cut} is taken out.`),
};

/** side looks from a named side. */
export function side(turned: number, tip: number): void {
  Object.assign(view, { turn: turned, tip });
  acts.fit!();
}

/** anew takes the seams from their field, as a proposal or a person has written it. */
export function anew(): void {
  read();
  done(`${title}s drawn.`);
}

export { lay };
