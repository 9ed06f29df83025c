// Traces a hide on its photo: reference, outline, marks, zones, headings. The
// page works without it, by numbers; see internal/place/trim.
import { acts, choose, pick, renamed, tell, typed } from "./acts";
import { hands } from "./hand";
import { all, begin, one, root, save, tools, write } from "./state";
import { draw, fit, resized, say } from "./view";

const keys = new Map<string, string>([
  ["n", "next"],
  ["p", "before"],
  ["enter", "mark"],
  ["escape", "drop"],
]);
for (const b of all("[data-act][aria-keyshortcuts]")) for (const k of b.getAttribute("aria-keyshortcuts")!.split(" ")) keys.set(k.toLowerCase(), b.dataset.act!);

root.addEventListener("click", (event) => {
  const on = (name: string): string | undefined => (event.target as Element).closest<HTMLElement>(`[data-${name}]`)?.dataset[name];
  const tool = on("tool");
  if (tool) choose(tool);
  const item = on("item");
  if (item) pick(Number(item));
  acts[on("act") ?? ""]?.(false);
  // What is wrong leads to its field, which another tool may have put away.
  const wrong = (event.target as Element).closest<HTMLAnchorElement>(".wrong a")?.hash.slice(1);
  if (wrong && tools.includes(wrong)) choose(wrong);
  else if (wrong) choose(tools[0]!);
});

document.addEventListener("keydown", (event) => {
  const on = event.target as Element;
  if ((!root.contains(on) && on !== document.body) || event.altKey) return;
  if (on.matches("input:not([type=checkbox],[type=radio]),select,textarea")) return;
  const name = event.key.toLowerCase();
  if (on.matches("[type=radio]") && name.startsWith("arrow")) return;
  if (name === "enter" && on.matches("button,a,summary,input")) return;
  const held = event.ctrlKey || event.metaKey ? "control+" + name : name;
  const n = Number(name);
  if (!event.ctrlKey && n >= 1 && n <= tools.length) choose(tools[n - 1]!);
  else if (keys.has(held)) acts[keys.get(held)!]!(event.shiftKey);
  else return;
  event.preventDefault();
});

root.addEventListener("change", (event) => {
  const name = (event.target as HTMLInputElement).name;
  if (tools.includes(name)) typed(name);
  else if (["kind", "takes", "grade", "part", "size"].includes(name)) renamed();
  else if (name === "with") {
    write("reference");
    choose("reference");
  }
  save();
});
root.addEventListener("input", () => save());

/** Working it out shows what comes back without leaving the draft. */
root.addEventListener("submit", async (event) => {
  save();
  const by = (event as SubmitEvent).submitter as HTMLButtonElement | null;
  if (by?.value !== "work") return;
  event.preventDefault();
  say("The photo is worked out.");
  try {
    const form = root as HTMLFormElement;
    const body = new URLSearchParams(new FormData(form, by) as unknown as Record<string, string>);
    const answer = await fetch(form.action, { method: "POST", body, headers: { Accept: "text/html" } });
    const page = new DOMParser().parseFromString(await answer.text(), "text/html");
    const found = page.querySelector("[data-found]");
    const wrong = page.querySelector("[data-trace] > .wrong");
    root.querySelector(":scope > .wrong")?.remove();
    if (wrong) root.prepend(wrong);
    if (found) one("[data-found]").innerHTML = found.innerHTML;
    const shown = wrong ?? (found?.firstElementChild ? one("[data-found]") : null);
    shown?.scrollIntoView({ block: wrong ? "start" : "nearest" });
    say(wrong ? wrong.querySelector("li")!.textContent! : shown ? one("[data-sum]").textContent! : "The server could not work this out. Nothing is lost; try again.");
  } catch {
    say("No answer from the server. Nothing is lost; try again when it answers.");
  }
  root.removeAttribute("data-sending");
  by.removeAttribute("aria-disabled");
});

addEventListener("resize", resized);
root.classList.add("trace-live");
const picture = one<SVGSVGElement>("[data-picture]");
picture.setAttribute("tabindex", "0");
hands(picture);
const said = begin();
tell();
fit();
choose(tools[0]!);
draw();
say(said);
