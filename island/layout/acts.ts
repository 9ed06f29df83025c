// What a person can do, by touch or by key. The buttons in the page carry the
// name of the act and its keys, so both are said in one place.
import { type Copy, copies, heading, middle, type Place, put, sheets } from "./facts";
import { allowed, faults, listed, mm, nearest } from "./judge";
import { lay, type Point, rest } from "./plane";
import { all, keep, one, outs, places, step, write, writeOuts } from "./state";
import { centre, draw, fit, say, shown, spot, troubles, zoom } from "./view";

/** picked is where the copy in hand lies, unless there is none. */
const picked = (): Place | undefined => places[shown.copy];

/** done writes down what was changed, draws it, and says how it lies now. */
export function done(words = ""): void {
  const n = shown.copy;
  if (n >= 0) write(n);
  keep();
  draw();
  const p = picked();
  const lies = words || (p && p.sheet >= 0 ? `${copies[n]!.key} at ${mm(p.x)}, ${mm(p.y)} mm, ${mm(p.turn)}°.` : "");
  say(n >= 0 && troubles(n).length ? `${lies.replace(/\.$/, "")}: ${troubles(n).join(", ")}.` : lies);
}

/** loose is the place in hand where it may be moved; a locked one says so. */
export function loose(): Place | undefined {
  const p = picked();
  if (!p || p.sheet < 0) return undefined;
  if (p.lock) say(`${copies[shown.copy]!.key} is locked. Unlock it first.`);
  return p.lock ? undefined : p;
}

/** pick takes a copy in hand and shows its sheet. */
export function pick(n: number, out = -1): void {
  if (shown.copy === n && shown.out === out) return;
  shown.copy = n;
  shown.out = out;
  const sheet = picked()?.sheet ?? -1;
  if (sheet >= 0) shown.sheet = sheet;
  draw();
}

/** show turns to another sheet. */
export function show(id: string): void {
  shown.sheet = sheets.findIndex((s) => s.id === id);
  shown.copy = shown.out = -1;
  draw();
}

/** turn turns the copy in hand about its middle to the nearest angle that it may have, and says so where that is another. */
export function turn(want: number): boolean {
  const p = loose();
  if (!p) return false;
  const c = copies[shown.copy]!;
  const at = middle(c, p);
  const got = nearest(c, p, want);
  p.turn = rest(got, 360);
  put(c, p, at);
  return Math.abs(rest(got - want, 360)) < 0.01;
}

function turnBy(way: number, fine: boolean): void {
  const p = loose();
  if (!p) return;
  const c = copies[shown.copy]!;
  const on = c.free ? p.turn + way * (fine ? 0.5 : 5) : listed(c).reduce((best, a) => (((a - p.turn) * way + 719.99) % 360 < ((best - p.turn) * way + 719.99) % 360 ? a : best));
  done(turn(on) ? "" : allowed(c, p));
}

/** lie puts the middle of a copy at a point, as near to unturned as it may lie there. */
function lie(c: Copy, p: Place, at: Point): void {
  put(c, p, at);
  p.turn = rest(nearest(c, p, c.axis ? heading(p.sheet, at) - c.axis.angle : 0), 360);
  put(c, p, at);
}

/** fromTray lays a copy down near the middle of what is seen, where it lies free if there is such a place in reach. */
export function fromTray(n: number): void {
  const p = places[n]!;
  const c = copies[n]!;
  const [x, y] = spot(...centre());
  p.sheet = shown.sheet;
  const free = (ring: number): boolean => {
    const all = Math.max(1, ring * 8);
    for (let i = 0; i < all; i++) {
      const angle = (i / all) * 2 * Math.PI;
      lie(c, p, [x + ring * 70 * Math.cos(angle), y + ring * 70 * Math.sin(angle)]);
      if (!faults(n, places, outs[p.sheet]!).length) return true;
    }
    return false;
  };
  if (![...Array(16).keys()].some(free)) lie(c, p, [x, y]);
  shown.copy = n;
  done();
  one(`g[data-copy="${c.key}"]`).focus({ preventScroll: true });
}

/** slide moves the copy in hand until it touches or, where it lies wrong, until it no longer does. */
function slide(p: Place, dx: number, dy: number): void {
  const n = shown.copy;
  const at: Point = [p.x, p.y];
  const wrong = (far: number): boolean => {
    p.x = at[0] + dx * far;
    p.y = at[1] + dy * far;
    return faults(n, places, outs[p.sheet]!).length > 0;
  };
  const before = wrong(0);
  const stride = 2; // mm, less than any piece is wide
  let far = stride;
  while (far < 1e4 && wrong(far) === before) far += stride;
  let [low, high] = [far - stride, far];
  while (high - low > 0.02) {
    const mid = (low + high) / 2;
    if (wrong(mid) === before) low = mid;
    else high = mid;
  }
  wrong(far < 1e4 ? (before ? high : low) : 0);
  done(far < 1e4 ? "" : "Nothing there to touch.");
}

function nudge(dx: number, dy: number, how = one<HTMLInputElement>("[name=lay-step]:checked").value): void {
  const p = loose();
  if (!p) return;
  if (how === "touch") return slide(p, dx, dy);
  p.x += dx * Number(how);
  p.y += dy * Number(how);
  done();
}

/** corners are the taps of a keep-out that is being drawn; null while none is. */
export const drawn: { corners: Point[] | null } = { corners: null };

/** close ends drawing a keep-out: kept where it has three corners. */
export function close(kept: boolean): void {
  const ring = drawn.corners;
  drawn.corners = null;
  if (ring && ring.length > 2 && kept) outs[shown.sheet]!.push(lay({ outer: ring }));
  writeOuts(shown.sheet);
  all('[data-act="out"]').forEach((b) => b.setAttribute("aria-pressed", "false"));
  one("[data-trace]").removeAttribute("points");
  done(ring && ring.length > 2 && kept ? "Keep-out drawn." : "No keep-out drawn.");
}

const by = (shift: boolean, ctrl: boolean): string | undefined => (ctrl ? "touch" : shift ? "10" : undefined);

/** acts by name; shift and ctrl are the keys held, of which a touch has none. */
export const acts: Record<string, (shift: boolean, ctrl: boolean) => void> = {
  undo: () => say(step(true) ? (draw(), "One step back.") : "There is no step to take back."),
  redo: () => say(step(false) ? (draw(), "One step forward.") : "There is no step forward."),
  fit,
  closer: () => zoom(1.5),
  farther: () => zoom(1 / 1.5),
  left: (shift, ctrl) => nudge(-1, 0, by(shift, ctrl)),
  right: (shift, ctrl) => nudge(1, 0, by(shift, ctrl)),
  up: (shift, ctrl) => nudge(0, 1, by(shift, ctrl)),
  down: (shift, ctrl) => nudge(0, -1, by(shift, ctrl)),
  anti: () => turnBy(1, false),
  clock: () => turnBy(-1, false),
  antiFine: () => turnBy(1, true),
  clockFine: () => turnBy(-1, true),
  lock() {
    const p = picked();
    if (!p || p.sheet < 0) return;
    p.lock = !p.lock;
    done(`${copies[shown.copy]!.key} ${p.lock ? "locked" : "unlocked"}.`);
  },
  off() {
    if (shown.out >= 0) {
      outs[shown.sheet]!.splice(shown.out, 1);
      shown.out = -1;
      writeOuts(shown.sheet);
      return done("Keep-out taken away.");
    }
    const p = loose();
    if (!p) return;
    const key = copies[shown.copy]!.key;
    p.sheet = -1;
    done(`${key} is in the tray.`);
    one(`[data-tray="${key}"]`).focus({ preventScroll: true });
  },
  out() {
    if (drawn.corners) return close(true);
    drawn.corners = [];
    pick(-1);
    one('[data-act="out"]').setAttribute("aria-pressed", "true");
    say("Tap the corners of the keep-out, then the first one again.");
  },
  drop() {
    if (drawn.corners) close(false);
    else pick(-1);
  },
};
