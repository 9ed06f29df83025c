// Where everything lies now, every step back and forward, and the draft that
// outlives the page. The fields of the form carry what is drawn, so that what is
// sent is the same with and without script.
import { copies, type Place, sheets } from "./facts";
import { type Laid, lay, type Ring } from "./plane";
import { Steps } from "../shell/steps";

export const root = document.querySelector<HTMLElement>("[data-layout]")!;

/** all and one look elements up below the editor. */
export const all = <E extends Element = HTMLElement>(css: string, of: Element = root): E[] => [...of.querySelectorAll<E>(css)];
export const one = <E extends Element = HTMLElement>(css: string, of: Element = root): E => of.querySelector<E>(css)!;

type Field = HTMLInputElement & HTMLSelectElement & HTMLTextAreaElement;
const field = (name: string): Field => one<Field>(`[name="${name}"]`);

/** places say where each copy lies; outs are the keep-outs of each sheet. */
export const places: Place[] = copies.map(() => ({ sheet: -1, x: 0, y: 0, turn: 0, lock: false }));
export const outs: Laid[][] = sheets.map(() => []);

const number = (text: string): number => Number(text.replace(",", ".").replace("−", "-")) || 0;
const round = (n: number): number => Math.round(n * 100) / 100;

/** read takes a copy's place from its fields. */
export function read(n: number): void {
  const of = (name: string): Field => field(`${name}-${copies[n]!.key}`);
  const sheet = sheets.findIndex((s) => s.id === of("sheet").value);
  places[n] = { sheet, x: number(of("x").value), y: number(of("y").value), turn: number(of("turn").value), lock: of("lock").checked };
}

/** write puts a copy's place into its fields. What was moved is rounded; what was not keeps every digit, for an engine lays closer than a hand. */
export function write(n: number, exact = false): void {
  const of = (name: string): Field => field(`${name}-${copies[n]!.key}`);
  const p = places[n]!;
  if (p.sheet < 0) Object.assign(p, { x: 0, y: 0, turn: 0, lock: false });
  const set = (name: "x" | "y" | "turn"): void => {
    const f = of(name);
    if (!exact && number(f.value) !== p[name]) p[name] = round(p[name]);
    f.value = String(p[name]);
  };
  set("x");
  set("y");
  set("turn");
  of("sheet").value = sheets[p.sheet]?.id ?? "";
  of("lock").checked = p.lock;
}

/** readOuts takes the keep-outs of a sheet from its field: one a line, x y, x y, x y. */
export function readOuts(s: number): void {
  outs[s] = field("outs-" + sheets[s]!.id)
    .value.split("\n")
    .map((line) => line.split(/[,;]/).map((at) => at.trim().split(/\s+/).map(number)))
    .filter((ring) => ring.length > 2 && ring.every((at) => at.length === 2))
    .map((ring) => lay({ outer: ring as Ring }));
}

/** writeOuts puts the keep-outs of a sheet into its field. */
export function writeOuts(s: number): void {
  field("outs-" + sheets[s]!.id).value = outs[s]!.map((o) => o.rings[0]!.map((p) => p.map(Math.round).join(" ")).join(", ")).join("\n");
}

/** shot is everything as one text. Copies stand under their names, so that a draft outlives a new piece. */
const shot = (): string => JSON.stringify([Object.fromEntries(copies.map((c, n) => [c.key, places[n]])), Object.fromEntries(sheets.map((s, n) => [s.id, outs[n]!.map((o) => o.rings[0])]))]);

function restore(text: string): void {
  const [at, out] = JSON.parse(text) as [Record<string, Place>, Record<string, Ring[]>];
  copies.forEach((c, n) => {
    const p = at[c.key];
    if (p) places[n] = sheets[p.sheet] ? p : { ...p, sheet: -1 };
    write(n, true);
  });
  sheets.forEach((s, n) => {
    outs[n] = (out[s.id] ?? []).map((outer) => lay({ outer }));
    writeOuts(n);
  });
}

copies.forEach((_, n) => read(n));
sheets.forEach((_, s) => readOuts(s));
const served = shot();
const steps = new Steps(served);

const draft = "fettle-layout " + root.dataset.layout;
const base = root.dataset.base ?? "";

/** fresh is a page of places just worked out, or just sent: they are nowhere else yet. */
const fresh = root.hasAttribute("data-fresh");

function save(): void {
  try {
    if (steps.now === served && !fresh) localStorage.removeItem(draft);
    else localStorage.setItem(draft, JSON.stringify([base, steps.now]));
  } catch {
    // A full or forbidden store: the page still holds everything.
  }
}

/** keep makes what was done a step of its own; it tells whether anything changed. */
export function keep(): boolean {
  if (!steps.take(shot())) return false;
  save();
  return true;
}

/** step goes one step back or forward and tells whether there was one. */
export function step(back: boolean): boolean {
  const to = steps.go(back);
  if (to === undefined) return false;
  restore(to);
  save();
  return true;
}

/** begin goes on with the draft of this tablet; it returns what to say of it. */
export function begin(): string {
  try {
    const [from, text] = JSON.parse(localStorage.getItem(draft) ?? "[]") as string[];
    if (!text || text === served) {
      save();
      return "";
    }
    // What is fresh lies over the draft, which is one step back.
    if (fresh) {
      restore(text);
      steps.now = shot();
      restore(served);
      keep();
      return "";
    }
    restore(text);
    keep();
    return from === base ? "Your draft goes on where you left it." : "Your draft goes on; the kept plan has changed since. Undo shows it.";
  } catch {
    return "";
  }
}
