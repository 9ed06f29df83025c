// The layout editor: lays pieces on hides, rolls and sheets by hand. The page
// works without it, by numbers; see internal/place/trim.
import { acts, done, drawn, fromTray, pick, show } from "./acts";
import { copies, sheets } from "./facts";
import { hands } from "./hand";
import { allowed, nearest } from "./judge";
import { all, begin, one, places, read, readOuts, root } from "./state";
import { draw, fit, say, shown } from "./view";


const keys = new Map<string, string>();
for (const b of all("[data-act][aria-keyshortcuts]")) for (const k of b.getAttribute("aria-keyshortcuts")!.split(" ")) keys.set(k.toLowerCase(), b.dataset.act!);

root.addEventListener("click", (event) => {
  const on = <T extends string>(name: T): string | undefined => (event.target as Element).closest<HTMLElement>(`[data-${name}]`)?.dataset[name];
  const tray = on("tray") ?? on("pick");
  const n = copies.findIndex((c) => c.key === tray);
  if (n >= 0) {
    if (places[n]!.sheet < 0) return fromTray(n);
    pick(n);
    one(`g[data-copy="${tray}"]`).focus();
  }
  acts[on("act") ?? ""]?.(false, false);
  const id = on("show");
  if (id) show(id);
});

document.addEventListener("keydown", (event) => {
  if (!root.contains(event.target as Node) && event.target !== document.body) return;
  if (event.altKey || (event.target as Element).matches("input:not([type=checkbox],[type=radio]),select,textarea")) return;
  if (event.key === "Enter" && drawn.corners) acts.out!(false, false);
  const name = event.key.toLowerCase();
  // Radios turn by the arrows themselves.
  if ((event.target as Element).matches("[type=radio]") && name.startsWith("arrow")) return;
  const held = (event.ctrlKey || event.metaKey ? "control+" : "") + name;
  const act = keys.get(held) ?? (name.startsWith("arrow") ? keys.get(name) : undefined);
  if (!act) return;
  event.preventDefault();
  acts[act]!(event.shiftKey, event.ctrlKey || event.metaKey);
});

root.addEventListener("focusin", (event) => {
  const g = (event.target as Element).closest<SVGElement>("[data-copy],[data-out]");
  if (!g || drawn.corners) return;
  if (g.dataset.out) pick(-1, Number(g.dataset.out));
  else pick(copies.findIndex((c) => c.key === g.dataset.copy));
});

root.addEventListener("change", (event) => {
  const [name = "", ...rest] = (event.target as HTMLInputElement).name.split("-");
  const key = rest.join("-");
  const s = sheets.findIndex((s) => s.id === key);
  if (name === "outs" && s >= 0) {
    readOuts(s);
    done("Keep-outs drawn.");
  }
  const n = copies.findIndex((c) => c.key === key);
  if (n < 0) return;
  read(n);
  const p = places[n]!;
  const c = copies[n]!;
  const want = p.turn;
  const words = p.sheet < 0 ? `${key} is in the tray.` : "";
  p.turn = name === "turn" ? nearest(c, p, want) : want;
  if (p.sheet >= 0) shown.sheet = p.sheet;
  done(Math.abs(p.turn - want) > 0.01 ? allowed(c, p) : words);
});

/** check asks the exact checker and shows what it says, without leaving the draft. */
root.addEventListener("submit", async (event) => {
  const by = (event as SubmitEvent).submitter as HTMLButtonElement | null;
  if (by?.value !== "check") return;
  event.preventDefault();
  const form = root as HTMLFormElement;
  const found = one("[data-found]");
  say("The exact checker is asked.");
  try {
    const body = new URLSearchParams(new FormData(form, by) as unknown as Record<string, string>);
    const answer = await fetch(form.action, { method: "POST", body, headers: { Accept: "text/html" } });
    const page = new DOMParser().parseFromString(await answer.text(), "text/html");
    const fresh = page.querySelector("[data-found]");
    if (fresh) found.innerHTML = fresh.innerHTML;
    say(fresh ? one("[data-found] [data-sum]").textContent! : "The server could not check this. Nothing is lost; try again.");
  } catch {
    say("No answer from the server. Nothing is lost; check again when it answers.");
  }
  form.removeAttribute("data-sending");
  by.removeAttribute("aria-disabled");
});

addEventListener("resize", fit);
root.classList.add("lay-live");
hands(one("[data-stage]"));
const said = begin();
draw();
say(said);
