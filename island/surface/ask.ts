// Has the surface laid flat anew with the seams as they are drawn, without
// leaving the page: the parts that say so are fetched and put in place.
import { hear } from "./facts";
import { draw, lay } from "./paint";
import { all, one, root } from "./state";

const status = one("[data-say]");

/** say tells a person what happened, and a screen reader too. */
export function say(words: string): void {
  status.textContent = words;
}

const form = one<HTMLFormElement>("form[data-ask]");
let under: AbortController | null = null;
let timer = 0;

/** address is that of the page with what the form holds. */
function address(): string {
  const body = new URLSearchParams(new FormData(form) as unknown as Record<string, string>);
  return `${form.action}?${body}`;
}

/** alike lets the other forms of the page send what is asked as it stands now. */
function alike(): void {
  const now = new FormData(form);
  for (const h of all<HTMLInputElement>("form:not([data-ask]) input[type=hidden]")) if (form.elements.namedItem(h.name)) h.value = String(now.get(h.name) ?? "");
}
root.addEventListener("submit", alike, { capture: true });

/** ask has it laid flat; what was asked before and is not answered is let go. Quietly, nothing is said of it. */
export async function ask(quiet = false): Promise<void> {
  clearTimeout(timer);
  alike();
  under?.abort();
  const mine = (under = new AbortController());
  root.setAttribute("aria-busy", "true");
  try {
    const answer = await fetch(address(), { headers: { Accept: "text/html", "HX-Request": "true" }, signal: mine.signal });
    const page = new DOMParser().parseFromString(await answer.text(), "text/html");
    if (!page.querySelector("#surface-data")) throw new Error("no drawing in it");
    for (const part of all("[data-told]")) {
      const fresh = page.querySelector(`[data-told="${part.dataset.told}"]`);
      if (fresh) part.innerHTML = fresh.innerHTML;
    }
    hear(page);
    lay();
    draw();
    history.replaceState(null, "", address());
    if (!quiet) say(one("[data-told=sum]").textContent!.replace(/\s+/g, " ").trim());
  } catch (e) {
    if (mine.signal.aborted) return;
    say("No answer from the server. What you drew is here still; lay it flat again when it answers.");
    console.info(String(e));
  }
  root.removeAttribute("aria-busy");
}

/** soon asks once nothing has changed for a moment. */
export function soon(after = 150): void {
  clearTimeout(timer);
  timer = window.setTimeout(() => void ask(), after);
}

form.addEventListener("submit", (e) => {
  e.preventDefault();
  form.removeAttribute("data-sending");
  void ask();
});
