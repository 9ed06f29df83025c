// What is marked on the photo, every step back and forward, and the draft that
// outlives the page. The fields of the form carry it all, so that what is sent is
// the same with and without script.
import { Steps } from "../shell/steps";

export type Point = [x: number, y: number];

/** Item is one thing that a tool marked: a line, an outline, a mark of the hide. */
export interface Item {
  head: string; // before the places, such as scar B
  tail: string; // after them, such as what the tape says
  points: Point[];
  mm: string[]; // of measured marks: where each is in truth
}

export const root = document.querySelector<HTMLElement>("[data-trace]")!;
export const all = <E extends Element = HTMLElement>(css: string, of: Element = root): E[] => [...of.querySelectorAll<E>(css)];
export const one = <E extends Element = HTMLElement>(css: string, of: Element = root): E => of.querySelector<E>(css)!;

type Field = HTMLInputElement & HTMLTextAreaElement;
export const field = (name: string): Field => one<Field>(`[name="${name}"]`);
export const picked = (name: string): string => one<Field>(`[name="${name}"]:checked`)?.value ?? "";

export const tools = all("[data-tool]").map((b) => b.dataset.tool!);
const joined = ["reference", "outline"]; // one item, a place a line
const headed = ["faults", "zones"];

export const items: Record<string, Item[]> = {};

/** at is what is in hand: the tool, the item it goes on with, and a picked point or -1. */
export const at = { tool: tools[0]!, item: 0, point: -1 };

export const fresh = (head = "", tail = ""): Item => ({ head, tail, points: [], mm: [] });

const numbers = (text: string): number[] =>
  text
    .replace(/−/g, "-")
    .split(/[\s,;]+/)
    .filter(Boolean)
    .map(Number);

const pairs = (n: number[]): Point[] => n.flatMap((v, i) => (i % 2 || Number.isNaN(v) || Number.isNaN(n[i + 1] ?? NaN) ? [] : [[v, n[i + 1]!] as Point]));

/** read takes what a tool marked from its field. */
export function read(tool: string): void {
  const lines = field(tool).value.split("\n");
  if (joined.includes(tool)) {
    const item = fresh();
    const marks = tool === "reference" && picked("with") === "points";
    for (const line of lines) {
      const n = numbers(line);
      item.points.push(...pairs(marks ? n.slice(0, 2) : n));
      if (marks && n.length >= 2) item.mm.push(n.slice(2).join(" "));
    }
    items[tool] = item.points.length ? [item] : [];
    return;
  }
  items[tool] = lines
    .filter((l) => l.trim())
    .map((line) => {
      const [before = "", after] = line.split(":");
      const [places = "", tail = ""] = (after ?? before).split("=");
      return { head: after === undefined ? "" : before.trim(), tail: tail.trim(), points: pairs(numbers(places)), mm: [] };
    });
}

const round = (v: number): number => Math.round(v * 10) / 10;
const spot = (p: Point): string => `${round(p[0])} ${round(p[1])}`;

/** write puts what a tool marked into its field. */
export function write(tool: string): void {
  const list = items[tool]!.filter((i) => i.points.length);
  const marks = tool === "reference" && picked("with") === "points";
  field(tool).value = list
    .map((i) => {
      if (joined.includes(tool)) return i.points.map((p, n) => (marks ? `${spot(p)} ${i.mm[n] ?? ""}`.trim() : spot(p))).join("\n");
      const places = i.points.map(spot).join(", ");
      return (headed.includes(tool) ? i.head + ": " : "") + places + (tool === "checks" ? " = " + i.tail : "");
    })
    .join("\n");
}

const shot = (): string => JSON.stringify(tools.map((t) => field(t).value));

function restore(text: string): void {
  const values = JSON.parse(text) as string[];
  tools.forEach((t, n) => {
    field(t).value = values[n] ?? "";
    read(t);
  });
  at.point = -1;
  at.item = Math.min(at.item, items[at.tool]!.length);
}

// Fields that are typed or ticked, kept with the draft but not with the steps.
const typed = ["across", "up", "tape"];
const ticks = ["wide", "back", "renew"];
const draft = "fettle-trace " + root.dataset.trace;

export function save(): void {
  const rest: Record<string, string | boolean> = { with: picked("with") };
  for (const n of typed) rest[n] = field(n).value;
  for (const n of ticks) rest[n] = field(n)?.checked ?? false;
  try {
    localStorage.setItem(draft, JSON.stringify([rest, shot()]));
  } catch {
    // A full or forbidden store: the page still holds everything.
  }
}

const steps = new Steps("");

/** keep makes what was done a step of its own. */
export function keep(): void {
  for (const t of tools) write(t);
  if (steps.take(shot())) save();
}

/** step goes one step back or forward and tells whether there was one. */
export function step(back: boolean): boolean {
  const to = steps.go(back);
  if (to === undefined) return false;
  restore(to);
  save();
  return true;
}

/** begin reads the fields, or goes on with the draft of this tablet. */
export function begin(): string {
  let said = "";
  try {
    const [rest, text] = JSON.parse(localStorage.getItem(draft) ?? "[]") as [Record<string, string | boolean>, string];
    if (text && !root.hasAttribute("data-fresh")) {
      for (const n of typed) field(n).value = String(rest[n] ?? "");
      for (const n of ticks) if (field(n)) field(n).checked = !!rest[n];
      const way = one<HTMLInputElement>(`[name="with"][value="${rest.with}"]`);
      if (way) way.checked = true;
      restore(text);
      said = JSON.parse(text).some(Boolean) ? "Your draft goes on where you left it." : "";
    }
  } catch {
    // No draft that can be read: the page begins as it was sent.
  }
  for (const t of tools) read(t);
  steps.now = shot();
  if (root.hasAttribute("data-fresh")) save();
  return said;
}
