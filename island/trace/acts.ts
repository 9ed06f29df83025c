// What is done to what is marked: points put, moved, taken off, things begun.
import { all, at, field, fresh, type Item, items, keep, one, picked, type Point, read, step } from "./state";
import { outline } from "./outline";
import { counts, cross, draw, fit, inside, k, look, say, show, zoom } from "./view";

const how: Record<string, string> = {
  reference: "Touch the corners anticlockwise, beginning at the lower left one. Hold and slide to aim: the magnifier shows what lies under your finger.",
  straight: "Touch five places or so along an edge that is straight in truth, near the rim of the photo: the sides of the taped rectangle do. Next one begins another edge.",
  outline: "Touch around the edge. A touch on the line puts a point in between; slide a point to move it.",
  faults: "Pick what it is, then touch around it; two touches are its middle and its rim. Next one begins another.",
  zones: "Pick the grade, then touch around the part. Next one begins another.",
  stretch: "Touch both ends of an arrow along the least stretch. Pull a strip of leather to find it.",
  checks: "Type what the tape says, then touch both ends of it.",
};
const stickHow = "Touch both ends of the stick.";

/** most is how many points an item of a tool has; 0 is no bound. */
function most(): number {
  if (at.tool === "stretch" || at.tool === "checks") return 2;
  if (at.tool !== "reference") return 0;
  return { rectangle: 4, stick: 2 }[picked("with")] ?? 0;
}

const item = (): Item | undefined => items[at.tool]![at.item];

/** headNow is what begins the line of a new item. */
function headNow(): string {
  if (at.tool === "faults") return [field("kind").value, field("takes").value].filter(Boolean).join(" ");
  if (at.tool === "zones") return `${field("grade").value} ${field("part").value}`.trim();
  return "";
}

/** done shows anew what was done, as a step of its own. */
export function done(words = ""): void {
  keep();
  tell();
  draw();
  say(words);
}

const words = (i: Item, n: number): string => {
  const places = `${i.points.length} points`;
  if (at.tool === "checks") return `${i.tail || "?"} mm`;
  if (at.tool === "stretch") return `arrow ${n + 1}`;
  if (at.tool === "straight") return `edge ${n + 1}, ${places}`;
  return `${i.head || "?"}, ${places}`;
};

/** tell writes what stands beside the photo. */
export function tell(): void {
  counts();
  one("[data-how]").textContent = at.tool === "reference" && picked("with") === "stick" ? stickHow : how[at.tool]!;
  for (const s of all("[data-for]")) s.hidden = s.dataset.for !== at.tool;
  for (const b of all<HTMLButtonElement>("[data-needs]")) b.disabled = at.point < 0 && !whole();
  one('[data-act="find"]').hidden = at.tool !== "outline";
  const list = one("[data-list]");
  const marks = at.tool === "reference" && picked("with") === "points";
  list.replaceChildren();
  if (marks) item()?.points.forEach((_, n) => list.append(place(n)));
  else if (!["reference", "outline"].includes(at.tool)) items[at.tool]!.forEach((i, n) => list.append(button(words(i, n), n)));
}

function button(text: string, n: number): Element {
  const li = document.createElement("li");
  const b = document.createElement("button");
  b.type = "button";
  b.className = "lay-key";
  b.dataset.item = String(n);
  b.textContent = text;
  b.setAttribute("aria-pressed", String(n === at.item));
  li.append(b);
  return li;
}

/** place asks where a measured mark is in truth. */
function place(n: number): Element {
  const li = document.createElement("li");
  const label = document.createElement("label");
  const input = document.createElement("input");
  input.className = "field-input";
  input.value = item()!.mm[n] ?? "";
  input.placeholder = "0 0";
  input.addEventListener("change", () => {
    item()!.mm[n] = input.value.trim();
    keep();
  });
  label.append(`mark ${n + 1}, x y in mm `, input);
  li.append(label);
  return li;
}

/** choose takes a tool in hand, and the last thing it marked where that can go on. */
export function choose(tool: string): void {
  at.tool = tool;
  at.point = -1;
  at.item = Math.max(0, items[tool]!.length - 1);
  if (item()?.points.length === 2 && most() === 2 && tool !== "reference") at.item = items[tool]!.length;
  tell();
  draw();
  say("");
}

/** pick takes an item or a point in hand. */
export function pick(n: number, point = -1): void {
  at.item = n;
  at.point = point;
  const i = item();
  if (i && at.tool === "faults") {
    const cut = i.head.search(/ [ABC]$/);
    field("kind").value = cut < 0 ? i.head : i.head.slice(0, cut);
    field("takes").value = cut < 0 ? "" : i.head.slice(cut + 1);
  }
  if (i && at.tool === "zones") {
    field("grade").value = i.head.slice(0, 1);
    field("part").value = i.head.slice(2);
  }
  if (i && at.tool === "checks") field("size").value = i.tail;
  tell();
  draw();
}

/** renamed gives the item in hand what is picked beside the photo. */
export function renamed(): void {
  const i = item();
  if (!i) return;
  if (at.tool === "faults" || at.tool === "zones") i.head = headNow();
  if (at.tool === "checks") i.tail = field("size").value.trim();
  done();
}

/** near is the point of the tool in hand that lies within reach of a place. */
export function near(p: Point, reach: number): [item: number, point: number] | undefined {
  let best = reach;
  let found: [number, number] | undefined;
  items[at.tool]!.forEach((i, n) =>
    i.points.forEach((q, m) => {
      const d = Math.hypot(q[0] - p[0], q[1] - p[1]);
      if (d < best) [best, found] = [d, [n, m]];
    }),
  );
  return found;
}

/** between is where in a line a place on it belongs: after which point, or -1. */
function between(p: Point, line: Point[], reach: number): number {
  let best = reach;
  let found = -1;
  line.forEach((a, n) => {
    const b = line[n + 1];
    if (!b) return; // the closing edge: a point there goes on from the last
    const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
    const t = ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / (dx * dx + dy * dy || 1);
    const d = Math.hypot(a[0] + t * dx - p[0], a[1] + t * dy - p[1]);
    if (t > 0 && t < 1 && d < best) [best, found] = [d, n];
  });
  return found;
}

/** put marks a place with the tool in hand. */
export function put(p: Point): void {
  const list = items[at.tool]!;
  const bound = most();
  let i = item();
  if (i && bound && i.points.length >= bound) {
    if (at.tool === "reference") return say(`All ${bound} are marked. Slide one to move it, or take it off.`);
    at.item = list.length;
    i = undefined;
  }
  if (at.tool === "checks" && !field("size").value.trim()) {
    field("size").focus();
    return say("Type what the tape says first.");
  }
  if (!i) {
    i = fresh(headNow(), at.tool === "checks" ? field("size").value.trim() : "");
    list.push(i);
    at.item = list.length - 1;
  }
  const after = at.tool === "outline" || at.tool === "faults" || at.tool === "zones" ? between(p, i.points, 14 * k()) : -1;
  at.point = after < 0 ? i.points.length : after + 1;
  i.points.splice(at.point, 0, p);
  const n = at.point + 1;
  if (at.tool === "checks" && i.points.length === 2) {
    field("size").value = "";
  }
  done(bound ? `${n} of ${bound} marked.` : after < 0 ? `Point ${n}.` : `Point ${n} put in between.`);
}

/** move brings the picked point to a place; it is a step only once it is kept. */
export function move(p: Point): void {
  const i = item();
  if (!i || at.point < 0) return;
  i.points[at.point] = inside(p);
  draw();
}

/** whole tells whether one of several things is in hand, with no point of it. */
const whole = (): boolean => at.point < 0 && !!item() && !["reference", "outline"].includes(at.tool);

function off(): void {
  const i = item();
  if (!i || (at.point < 0 && !whole())) return;
  if (at.point < 0) i.points = [];
  else {
    i.points.splice(at.point, 1);
    i.mm.splice(at.point, 1);
  }
  at.point = Math.min(at.point, i.points.length - 1);
  if (!i.points.length) {
    items[at.tool]!.splice(at.item, 1);
    at.item = Math.max(0, items[at.tool]!.length - 1);
    at.point = -1;
  }
  done("Taken off.");
}

/** nudge moves the picked point, or else the cross, by steps of the screen. */
const nudge = (dx: number, dy: number) => (fine: boolean): void => {
  const by = (fine ? 1 : 10) * k();
  const held = item()?.points[at.point];
  if (held) {
    const to = inside([held[0] + (dx * by) / 10, held[1] + (dy * by) / 10]);
    show(to);
    move(to);
    cross.at = to;
    return done();
  }
  cross.shown = true;
  cross.at = inside([cross.at[0] + dx * by, cross.at[1] + dy * by]);
  show(cross.at);
  look();
};

/** walk picks the next point of the tool in hand. */
const walk = (by: number) => (): void => {
  const every = items[at.tool]!.flatMap((i, n) => i.points.map((_, m) => [n, m] as const));
  if (!every.length) return say("Nothing is marked here yet.");
  const here = every.findIndex(([n, m]) => n === at.item && m === at.point);
  const [n, m] = every[here < 0 ? (by > 0 ? 0 : every.length - 1) : (here + by + every.length) % every.length]!;
  const p = items[at.tool]![n]!.points[m]!;
  show(p);
  look();
  pick(n, m);
  say(`Point ${m + 1} is picked.`);
};

/** cells is how many the picture is wide in which an edge is looked for. */
const cells = 640;

/** find draws a first outline around the leather in the middle of the reference. */
async function find(): Promise<void> {
  say("The edge is looked for.");
  const image = one<SVGImageElement>("[data-picture] image");
  const wide = image.width.baseVal.value;
  const high = image.height.baseVal.value;
  const corners = items.reference![0]?.points ?? [];
  const [x, y] = corners.length > 3 ? [0, 1].map((c) => corners.reduce((sum, p) => sum + p[c]!, 0) / corners.length) : [wide / 2, high / 2];
  const picture = new Image();
  picture.src = image.href.baseVal;
  const paper = document.createElement("canvas");
  const k = Math.max(1, wide / cells);
  paper.width = Math.round(wide / k);
  paper.height = Math.round(high / k);
  const pen = paper.getContext("2d")!;
  await picture.decode();
  pen.drawImage(picture, 0, 0, paper.width, paper.height);
  const ring = outline(pen.getImageData(0, 0, paper.width, paper.height), [Math.round(x! / k), Math.round(y! / k)]);
  if (!ring.length) return say("No edge is found: the floor looks too much like the leather. Trace it by touch.");
  items.outline = [{ ...fresh(), points: ring.map((p) => inside([p[0] * k, p[1] * k])) }];
  choose("outline");
  done(`${ring.length} points found, as a start. Go around it and put right what is not the edge: shadows, folds, the tape.`);
}

const steps = (back: boolean) => (): void => {
  const did = step(back);
  choose(at.tool);
  say(did ? (back ? "One step back." : "One step forward.") : back ? "There is nothing to undo." : "There is nothing to do again.");
};

export const acts: Record<string, (fine: boolean) => void> = {
  undo: steps(true),
  redo: steps(false),
  fit: () => fit(),
  closer: () => zoom(1.6),
  farther: () => zoom(1 / 1.6),
  close: () => {
    at.item = items[at.tool]!.length;
    at.point = -1;
    if (["reference", "outline"].includes(at.tool)) at.item = 0;
    tell();
    draw();
    say(["reference", "outline"].includes(at.tool) ? "There is one of these only." : "The next touch begins a new one.");
  },
  off,
  all: () => {
    items[at.tool] = [];
    at.item = 0;
    at.point = -1;
    done("Cleared. Undo brings it back.");
  },
  find: () => void find(),
  left: nudge(-1, 0),
  right: nudge(1, 0),
  up: nudge(0, -1),
  down: nudge(0, 1),
  next: walk(1),
  before: walk(-1),
  drop: () => {
    at.point = -1;
    tell();
    draw();
  },
  mark: () => {
    if (at.point >= 0) {
      at.point = -1;
      tell();
      draw();
      return say("Let go. The cross moves again.");
    }
    cross.shown = true;
    put(cross.at);
    at.point = -1;
    tell();
    draw();
  },
};

/** typed takes a field that a person wrote into. */
export function typed(tool: string): void {
  read(tool);
  done();
}
