// Clocking: a touch carries the time at which it was made, so that one that
// waits on the tablet counts from then, and running times go on by themselves.
export {};

const everyMs = 20000;
const opened = Date.now();

document.addEventListener(
  "submit",
  (event) => {
    const form = event.target as HTMLFormElement;
    const at = form.querySelector<HTMLInputElement>("input[name=at]");
    if (form.hasAttribute("data-touched") && at) at.value = String(Date.now());
  },
  true,
);

/** length writes minutes as the server does: "45 min", "1 h 05". */
function length(minutes: number): string {
  if (minutes < 60) return `${minutes} min`;
  return `${Math.floor(minutes / 60)} h ${String(minutes % 60).padStart(2, "0")}`;
}

// A time element remembers when it came onto the page: parts of the page are
// put in anew when another tablet keeps something.
const since = new WeakMap<HTMLElement, { from: string; at: number }>();

function tick(): void {
  for (const time of document.querySelectorAll<HTMLElement>("time[data-minutes]")) {
    const from = time.dataset.minutes ?? "0";
    let known = since.get(time);
    if (known?.from !== from) {
      known = { from, at: known ? Date.now() : opened };
      since.set(time, known);
    }
    time.textContent = length(Number(from) + Math.floor((Date.now() - known.at) / 60000));
  }
}

// A page that the browser kept and shows again holds entries that were sent.
addEventListener("pageshow", (event) => event.persisted && location.reload());

tick();
setInterval(tick, everyMs);
