// A touch on the drawing becomes millimetres on the vehicle: the panel's link
// is followed with the place added to it. Beside it, the large less and more of
// a size.
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

document.addEventListener("click", (event) => {
  if (event.ctrlKey || event.metaKey || event.shiftKey) return;
  const link = (event.target as Element).closest<SVGAElement>("[data-pick] a[data-panel]");
  const svg = link?.ownerSVGElement;
  // A click from the keyboard has no place: the panel's own middle is taken.
  if (!link || !svg || event.detail === 0) return;
  event.preventDefault();
  const to = new URL(svg.dataset.pick ?? "", location.href);
  to.searchParams.set("panel", link.dataset.panel ?? "");
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
