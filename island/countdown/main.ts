// Countdowns run on between two fetches: the server says how many minutes are
// left, and at the turn of a clock the page is asked anew.
export {};

const second = 1000;
const opened = Date.now();
const since = new WeakMap<HTMLElement, { from: string; at: number }>();

/** left is a clock's remaining seconds, negative since it closed. */
function left(time: HTMLElement): number {
  const from = time.dataset.left ?? "0";
  let known = since.get(time);
  if (known?.from !== from) {
    known = { from, at: known ? Date.now() : opened };
    since.set(time, known);
  }
  return Number(from) * 60 - Math.floor((Date.now() - known.at) / second);
}

/** write gives minutes and seconds in the last ten minutes, else hours and minutes. */
function write(seconds: number): string {
  const n = Math.abs(seconds);
  const two = (x: number): string => String(x).padStart(2, "0");
  const minutes = Math.floor(n / 60);
  if (minutes < 10 && seconds > 0) return `${minutes} min ${two(n % 60)}`;
  if (minutes < 60) return `${minutes} min`;
  if (minutes < 48 * 60) return `${Math.floor(minutes / 60)} h ${two(minutes % 60)}`;
  return `${Math.floor(minutes / 1440)} d ${Math.floor((minutes % 1440) / 60)} h`;
}

function tick(): void {
  for (const time of document.querySelectorAll<HTMLElement>("time[data-left]")) {
    const n = left(time);
    const before = Number(time.dataset.left) > 0;
    time.textContent = write(before ? Math.max(n, 0) : n);
    const typing = document.activeElement?.matches("input, select, textarea");
    if (before && n <= 0 && !typing) {
      clearInterval(timer);
      setTimeout(() => location.reload(), second);
    }
  }
}

const timer = setInterval(tick, second);
tick();
