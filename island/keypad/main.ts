// The big keypad types into the PIN field of its form.
export {};

const longest = 8;

for (const pad of document.querySelectorAll<HTMLElement>("[data-keypad]")) {
  const field = document.getElementById(pad.dataset.keypad ?? "") as HTMLInputElement | null;
  pad.addEventListener("click", (event) => {
    const key = (event.target as HTMLElement).dataset.key;
    if (!field || !key) return;
    if (key === "clear") field.value = "";
    else if (key === "back") field.value = field.value.slice(0, -1);
    else field.value = (field.value + key).slice(0, longest);
  });
}
