// What is wrong with where a piece lies, in words. The server's exact checker
// has the last word; this one answers while a finger moves.
import { clearance, type Copy, copies, heading, laid, middle, type Place, sheets, together } from "./facts";
import { apart, gap, type Laid, leaves, overlap, rest, slack } from "./plane";

/** mm writes a length with at most one decimal. */
export const mm = (n: number): string => String(Math.round(n * 10) / 10).replace("-", "−");

const known = new WeakMap<Laid, WeakMap<Laid, string>>();

/** close says what two shapes do to each other: "over", "3 of 5 mm from ", or nothing. Shapes that have not moved are not asked twice. */
function close(a: Laid, b: Laid, wanted: number, clash = overlap): string {
  if (clash === overlap && apart(a, b, wanted)) return "";
  let of = known.get(a);
  if (!of) known.set(a, (of = new WeakMap()));
  let words = of.get(b);
  if (words === undefined) {
    const d = clash(a, b) ? -1 : wanted ? gap(a, b) : Infinity;
    words = d < 0 ? "over" : d < wanted - slack ? `${mm(d)} of ${mm(wanted)} mm from ` : "";
    of.set(b, words);
  }
  return words;
}

/** stray is how far a copy's tight direction lies from that of the material under it, in degrees. */
export function stray(c: Copy, at: Place, turn = at.turn): number {
  return c.axis ? rest(c.axis.angle + turn - heading(at.sheet, middle(c, at)), c.axis.oneWay ? 360 : 180) : 0;
}

/** nearest is the allowed angle nearest to the one wanted. */
export function nearest(c: Copy, at: Place, want: number): number {
  if (!c.free) return listed(c).reduce((best, a) => (Math.abs(rest(a - want, 360)) < Math.abs(rest(best - want, 360)) ? a : best));
  if (!c.axis) return want;
  const off = stray(c, at, want);
  return want - off + Math.max(-c.axis.tolerance, Math.min(c.axis.tolerance, off));
}

/** listed are the only angles at which a copy may lie. */
export const listed = (c: Copy): number[] => c.rotations ?? [0];

/** allowed says in words at which angles a copy may lie. */
export function allowed(c: Copy, at: Place): string {
  if (!c.free) return `${c.key} may lie at ${listed(c).map((a) => mm(a) + "°").join(", ")} only.`;
  if (!c.axis) return "";
  const middle = rest(at.turn - stray(c, at), 360);
  return `${c.key} keeps its tight direction within ${mm(c.axis.tolerance)}° of the hide's: ${mm(middle - c.axis.tolerance)}° to ${mm(middle + c.axis.tolerance)}° here.`;
}

/** faults are what is wrong with a copy, given all places and the keep-outs of its sheet. */
export function faults(n: number, places: Place[], outs: Laid[]): string[] {
  const c = copies[n]!;
  const at = places[n]!;
  const sheet = sheets[at.sheet];
  if (!sheet) return [];
  const me = laid(c, at);
  const said: string[] = [];
  const blame = (near: string, over: string, what: string): void => {
    if (near) said.push(near === "over" ? over + what : near + what);
  };
  places.forEach((p, i) => {
    if (i !== n && p.sheet === at.sheet) blame(close(me, laid(copies[i]!, p), clearance), "overlaps ", copies[i]!.key);
  });
  blame(close(me, sheet.laid, sheet.margin, leaves), "goes over ", "the edge");
  for (const z of sheet.zones) if (!(z.quality && c.quality && z.quality >= c.quality)) blame(close(me, z.laid, sheet.margin), "lies on ", z.label);
  for (const o of outs) blame(close(me, o, sheet.margin), "lies on ", "a keep-out");
  for (const set of together) {
    const mate = set.includes(c.key) && copies.find((o, i) => i !== n && set.includes(o.key) && places[i]!.sheet >= 0 && places[i]!.sheet !== at.sheet);
    if (mate) said.push(`not on the sheet of ${mate.key}`);
  }
  if (c.axis && Math.abs(stray(c, at)) > c.axis.tolerance + 0.01) said.push(`${mm(Math.abs(stray(c, at)))}° off the stretch, at most ${mm(c.axis.tolerance)}°`);
  if (!c.free && Math.abs(rest(nearest(c, at, at.turn) - at.turn, 360)) > 0.01) said.push(`may not lie at ${mm(at.turn)}°`);
  return said;
}
