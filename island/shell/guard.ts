// Safe hands: one touch sends once, a file too large is refused before it
// travels, the list of troubles gets the focus, paper buttons print.

const busyMs = 8000;

export function guard(): void {
  document.addEventListener("submit", once);
  document.addEventListener("change", weigh);
  document.addEventListener("click", print);
  document.querySelector<HTMLElement>("[data-focus]:not([data-still] *)")?.focus();
  addEventListener("pageshow", () => document.querySelectorAll<HTMLFormElement>("[data-sending]").forEach(free));
}

/** once lets a form go only once until it is answered or some seconds have passed. */
function once(event: SubmitEvent): void {
  const form = event.target as HTMLFormElement;
  if (!form.hasAttribute("data-guard")) return;
  if (form.hasAttribute("data-sending")) {
    event.preventDefault();
    event.stopImmediatePropagation();
    return;
  }
  form.setAttribute("data-sending", "");
  event.submitter?.setAttribute("aria-disabled", "true");
  setTimeout(() => free(form), busyMs);
}

/** free makes a form ready again. */
export function free(form: HTMLFormElement): void {
  form.removeAttribute("data-sending");
  for (const b of form.querySelectorAll("[aria-disabled]")) b.removeAttribute("aria-disabled");
}

function weigh(event: Event): void {
  const input = event.target as HTMLInputElement;
  const most = Number(input.dataset?.most);
  if (!most || !input.files) return;
  let sum = 0;
  for (const f of input.files) sum += f.size;
  const over = sum > most * 2 ** 20;
  input.setCustomValidity(over ? `That is more than ${most} MB, the most this page takes.` : "");
  input.reportValidity();
}

function print(event: Event): void {
  if ((event.target as Element).closest?.("[data-print]")) window.print();
}
