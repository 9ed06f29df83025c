// The seams that a person draws: places on the surface that a cut goes through,
// along edges. The field of the form carries them, so that what is sent is the
// same with and without script.
import { Steps } from "../shell/steps";
import { near, solid } from "./facts";
import { route } from "./space";

export const root = document.querySelector<HTMLElement>("[data-surface]")!;
export const all = <E extends Element = HTMLElement>(css: string, of: ParentNode = root): E[] => [...of.querySelectorAll<E>(css)];
export const one = <E extends Element = HTMLElement>(css: string, of: ParentNode = root): E => of.querySelector<E>(css)!;

const field = one<HTMLTextAreaElement>("[name=cuts]");

/** seams are the vertices that each goes through; ways the whole paths. */
export const seams: number[][] = [];
export const ways: number[][] = [];

/** hand is what is picked: a place of a seam, the seam that goes on, and the vertex under the cursor. */
export const hand = { seam: -1, place: -1, cursor: -1, drawing: false };

/** mend works the path of a seam out anew. */
export function mend(n: number): void {
  const path: number[] = [];
  seams[n]!.forEach((v, i, list) => path.push(...(i ? route(solid, near, list[i - 1]!, v).slice(1) : [v])));
  ways[n] = path;
}

/** read takes the seams from their field. */
export function read(): void {
  const count = solid.points.length / 3;
  seams.length = ways.length = 0;
  for (const line of field.value.split("\n")) {
    const list = line.split(/[\s,;]+/).filter(Boolean).map(Number);
    if (list.length && list.every((v) => Number.isInteger(v) && v >= 0 && v < count)) seams.push(list);
  }
  seams.forEach((_, n) => mend(n));
  Object.assign(hand, { seam: -1, place: -1 });
}

/** write puts the seams into their field; one place alone is no seam yet. */
export function write(): void {
  field.value = seams
    .filter((s) => s.length > 1)
    .map((s) => s.join(" "))
    .join("\n");
}

read();
const steps = new Steps(field.value);

/** keep makes what was done a step of its own; it tells whether anything changed. */
export function keep(): boolean {
  write();
  return steps.take(field.value);
}

/** step goes one step back or forward and tells whether there was one. */
export function step(back: boolean): boolean {
  const to = steps.go(back);
  if (to === undefined) return false;
  field.value = to;
  read();
  return true;
}

/** put adds a vertex to the seam that is drawn, or begins one. */
export function put(v: number): void {
  if (!seams[hand.seam]) hand.seam = seams.push([]) - 1;
  const s = seams[hand.seam]!;
  if (s.at(-1) !== v) s.push(v);
  hand.place = s.length - 1;
  mend(hand.seam);
}

/** move brings the picked place of a seam to another vertex. */
export function move(v: number): boolean {
  const s = seams[hand.seam];
  if (!s || s[hand.place] === v || hand.place < 0) return false;
  s[hand.place] = v;
  mend(hand.seam);
  return true;
}

/** off takes out the picked place of a seam, or all of it. */
export function off(whole: boolean): boolean {
  const s = seams[hand.seam];
  if (!s) return false;
  if (!whole && s.length > 2 && hand.place >= 0) {
    s.splice(hand.place, 1);
    hand.place = Math.min(hand.place, s.length - 1);
    mend(hand.seam);
    return true;
  }
  seams.splice(hand.seam, 1);
  ways.splice(hand.seam, 1);
  Object.assign(hand, { seam: -1, place: -1 });
  return true;
}
