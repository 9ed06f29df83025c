// htmx as a global, since its extensions look for it there.
import htmx from "htmx.org";

declare global {
  interface Window {
    htmx: typeof htmx;
  }
}

window.htmx = htmx;
export default htmx;
