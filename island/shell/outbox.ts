// Forms marked data-outbox go through a queue on the tablet, so that what is
// entered in the dead corner is sent later, exactly once.
import { free } from "./guard";
import { drain } from "./send";
import { drop, list, put } from "./store";
import { uuid7 } from "./uuid";

const everyMs = 15000;

export function outbox(): void {
  if (!("indexedDB" in window)) return;
  document.addEventListener("input", begin);
  document.addEventListener("submit", take);
  addEventListener("online", later);
  setInterval(later, everyMs);
  later();
  if (navigator.serviceWorker) navigator.serviceWorker.register("/sw.js").catch(() => {});
}

/** begin gives the entry its ID when the person begins, not when it is sent. */
function begin(event: Event): void {
  const form = (event.target as HTMLInputElement).form;
  const entry = form?.querySelector<HTMLInputElement>("input[data-entry]");
  if (entry && !entry.dataset.made) {
    entry.value = uuid7();
    entry.dataset.made = "yes";
  }
}

async function take(event: SubmitEvent): Promise<void> {
  const form = event.target as HTMLFormElement;
  const entry = form.querySelector<HTMLInputElement>("input[name=entry]");
  if (event.defaultPrevented || !form.hasAttribute("data-outbox") || !entry) return;
  event.preventDefault();
  entry.value ||= uuid7();
  const data = new FormData(form, event.submitter);
  const id = entry.value;
  // A button without an address of its own would answer with that of the page.
  const button = event.submitter as HTMLButtonElement | null;
  const url = button?.hasAttribute("formaction") ? button.formAction : form.action;
  await put({ id, url, fields: [...data.entries()], what: document.title, at: Date.now() });
  const answer = (await drain()).get(id) ?? { kind: "later" as const };
  free(form);
  if (answer.kind === "kept") {
    location.assign(answer.see ?? location.href);
  } else if (answer.kind === "refused") {
    await drop(id); // the form still stands before the person, with the reason beside it
    say(form, [answer.what, answer.hint].filter(Boolean).join(". "));
  } else {
    form.reset();
    entry.value = uuid7();
    say(form, answer.kind === "sign-in" ? "Kept on this tablet. Sign in to send it." : "Kept on this tablet. It is sent when the server answers again.", "flash");
  }
  count();
}

/** say puts a sentence at the head of the form; its look is that of a fault or, as a flash, of good news. */
function say(form: HTMLFormElement, text: string, look: "fault" | "flash" = "fault"): void {
  let p = form.querySelector<HTMLElement>("[data-said]");
  if (!p) {
    p = document.createElement("p");
    p.dataset.said = "";
    p.setAttribute("role", "alert");
    form.prepend(p);
  }
  p.className = look;
  p.textContent = text;
}

async function later(): Promise<void> {
  if ((await list().catch(() => [])).length) await drain();
  count();
}

/** count shows in the title block what waits and what was refused. */
async function count(): Promise<void> {
  const all = await list().catch(() => []);
  const refused = all.filter((w) => w.refused);
  for (const p of document.querySelectorAll<HTMLElement>("[data-outbox-count]")) {
    p.hidden = !all.length;
    const waiting = all.length - refused.length;
    p.textContent = waiting ? `${waiting} waiting to be sent` : "";
    for (const w of refused) {
      const b = document.createElement("button");
      b.className = "block-act";
      b.textContent = `Refused: ${w.refused}. Drop it`;
      b.onclick = () => drop(w.id).then(count);
      p.append(b);
    }
  }
}
