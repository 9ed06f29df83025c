// What was done on a page, step by step, each as one text: back and forward
// without end.

export class Steps {
  private past: string[] = [];
  private next: string[] = [];

  constructor(public now: string) {}

  /** take makes what is there now a step of its own; it tells whether it is new. */
  take(after: string): boolean {
    if (after === this.now) return false;
    this.past.push(this.now);
    this.next = [];
    this.now = after;
    return true;
  }

  /** go returns what was there a step back, or forward again; nothing where there is none. */
  go(back: boolean): string | undefined {
    const to = (back ? this.past : this.next).pop();
    if (to === undefined) return undefined;
    (back ? this.next : this.past).push(this.now);
    return (this.now = to);
  }
}
