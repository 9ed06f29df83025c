// The moving view: a surface in space and the same laid flat side by side. The
// page works without it, by still pictures and numbers; see internal/web/ui/surface.
import { acts, anew, keys, side } from "./acts";
import { ask } from "./ask";
import { hands } from "./hand";
import { draw, fit, flat, lay, look, space } from "./paint";
import { all, one, root } from "./state";

const names = new Map<string, string>();
for (const b of all("[data-act][aria-keyshortcuts]")) for (const k of b.getAttribute("aria-keyshortcuts")!.split(" ")) names.set(k.toLowerCase(), b.dataset.act!);

root.addEventListener("click", (event) => {
  const b = (event.target as Element).closest<HTMLElement>("[data-act],[data-turn][data-tip],[data-take]");
  if (!b || b.tagName === "CANVAS") return;
  if (b.dataset.act) acts[b.dataset.act]?.();
  else if (b.dataset.take) {
    event.preventDefault();
    const field = one<HTMLTextAreaElement>("[name=cuts]");
    field.value = [field.value.trim(), b.dataset.take].filter(Boolean).join("\n");
    anew();
    space.canvas.focus();
  } else {
    event.preventDefault();
    side(Number(b.dataset.turn), Number(b.dataset.tip));
  }
});

document.addEventListener("keydown", (event) => {
  const on = event.target as Element;
  if (event.altKey || (on !== document.body && !root.contains(on)) || on.matches("input,select,textarea")) return;
  const name = event.key.toLowerCase();
  // Enter and Space on a button or a link are its own.
  if ((name === "enter" || name === " ") && on !== space.canvas) return;
  const act = names.get((event.ctrlKey || event.metaKey ? "control+" : "") + (name === " " ? "space" : name));
  if (!act) return;
  event.preventDefault();
  acts[act]!();
});

one("[name=cuts]").addEventListener("change", anew);
addEventListener("resize", () => {
  fit(space);
  fit(flat);
  draw();
});

// The search for darts is long work: its answer is looked for while it is open.
setInterval(() => {
  if (root.querySelector("[data-wait]") && !document.hidden) void ask(true);
}, 2000);

root.classList.add("surf-live");
look();
fit(space);
lay();
hands();
keys();
draw();
