// A touch on the drawing becomes millimetres on the vehicle: the panel's link
// is followed with the place added to it, or the fields of the page take it.
// Beside it, the large less and more of a size.
export {};

/** place turns a touched point into vehicle co-ordinates by what the drawing says of its scale. */
function place(svg: SVGSVGElement, event: MouseEvent): [string, number][] {
  const turn = svg.getScreenCTM()?.inverse();
  if (!turn) return [];
  const at = new DOMPoint(event.clientX, event.clientY).matrixTransform(turn);
  const [ox = 0, oy = 0] = (svg.dataset.origin ?? "0 0").split(" ").map(Number);
  const scale = Number(svg.dataset.scale);
  const steps = [(at.x - ox) / scale, (at.y - oy) / scale];
  return (svg.dataset.axes ?? "").split(" ").map((axis, i) => [axis.charAt(0), Math.round((axis[1] === "-" ? -1 : 1) * (steps[i] ?? 0))]);
}

/** fill puts a touched place into the fields of its axes. */
function fill(svg: SVGSVGElement, event: MouseEvent): void {
  for (const [axis, mm] of place(svg, event)) {
    const input = document.getElementById(axis) as HTMLInputElement | null;
    if (!input) continue;
    input.value = String(mm);
    input.dispatchEvent(new Event("input", { bubbles: true }));
  }
}

document.addEventListener("click", (event) => {
  if (event.ctrlKey || event.metaKey || event.shiftKey) return;
  const svg = (event.target as Element).closest<SVGSVGElement>("svg[data-pick], svg[data-fill]");
  const link = (event.target as Element).closest<SVGAElement>("a");
  // A click from the keyboard has no place: the panel's own middle is taken.
  if (!svg || event.detail === 0) return;
  if (svg.dataset.fill !== undefined) {
    event.preventDefault();
    fill(svg, event);
    return;
  }
  if (link ? link.dataset.panel === undefined : svg.dataset.pickGround === undefined) return;
  event.preventDefault();
  const to = new URL(svg.dataset.pick ?? "", location.href);
  if (link) to.searchParams.set("panel", link.dataset.panel ?? "");
  for (const [axis, mm] of place(svg, event)) to.searchParams.set(axis, String(mm));
  location.assign(to);
});

/** A first touch on more or less begins at a hand's breadth. */
const begin = 100;

document.addEventListener("click", (event) => {
  const button = (event.target as Element).closest<HTMLElement>("[data-step]");
  const input = button && (document.getElementById(button.dataset.of ?? "") as HTMLInputElement | null);
  if (!button || !input) return;
  const now = Number(input.value.replace(",", "."));
  const next = input.value.trim() === "" || Number.isNaN(now) ? begin : now + Number(button.dataset.step);
  input.value = String(Math.max(next, 0));
  input.dispatchEvent(new Event("input", { bubbles: true }));
});
