// A table of fields is worked down with the keyboard: Enter goes to the same
// column of the next row, Shift and Enter or the arrows the other way; after
// the last row it goes to the button of the form. Without this script Enter
// sends the form, which shows the page again with what was typed.
export {};

type Cell = HTMLInputElement | HTMLSelectElement;

for (const table of document.querySelectorAll<HTMLTableElement>("[data-rows]")) {
  table.addEventListener("keydown", (event) => {
    const cell = event.target as HTMLElement;
    if (!(cell instanceof HTMLInputElement || cell instanceof HTMLSelectElement)) return;
    const step = stepOf(event, cell);
    if (step === 0) return;
    event.preventDefault();
    const next = neighbour(table, cell, step);
    if (next) enter(next);
    else if (step > 0) table.closest("form")?.querySelector<HTMLElement>("button[type=submit], button:not([type])")?.focus();
  });
}

/** stepOf is how many rows a key goes down: arrows open and change a list, so there only Enter counts. */
function stepOf(event: KeyboardEvent, cell: Cell): number {
  if (event.isComposing || event.ctrlKey || event.altKey || event.metaKey) return 0;
  if (event.key === "Enter") return event.shiftKey ? -1 : 1;
  if (cell instanceof HTMLSelectElement) return 0;
  if (event.key === "ArrowDown") return 1;
  return event.key === "ArrowUp" ? -1 : 0;
}

/** neighbour is the field of the same column, so many rows further down. */
function neighbour(table: HTMLTableElement, cell: Cell, step: number): Cell | undefined {
  const column = cell.name.split("-")[0];
  const fields = [...table.querySelectorAll<Cell>("input, select")].filter((f) => f.name.split("-")[0] === column);
  return fields[fields.indexOf(cell) + step];
}

function enter(cell: Cell): void {
  cell.focus();
  if (cell instanceof HTMLInputElement) cell.select();
  cell.scrollIntoView({ block: "nearest" });
}
