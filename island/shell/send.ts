// Sends what waits, in order, one at a time across all tabs.
import { drop, list, put, type Waiting } from "./store";

/** Answer is what became of one entry. */
export interface Answer {
  kind: "kept" | "later" | "sign-in" | "refused";
  see?: string;
  what?: string;
  hint?: string;
}

/** judge turns an HTTP status into what to do with the entry. */
export function judge(status: number): Answer["kind"] {
  if ((status >= 200 && status < 300) || status === 409) return "kept";
  if (status === 401) return "sign-in";
  if (status >= 400 && status < 500 && status !== 408 && status !== 429) return "refused";
  return "later";
}

/** drain sends all that waits until one must wait longer; it returns the answers by entry. */
export async function drain(): Promise<Map<string, Answer>> {
  const answers = new Map<string, Answer>();
  await alone(async () => {
    const all = (await list()).filter((w) => !w.refused).sort((a, b) => (a.id < b.id ? -1 : 1));
    for (const w of all) {
      const a = await post(w);
      answers.set(w.id, a);
      if (a.kind === "kept") await drop(w.id);
      else if (a.kind === "refused") await put({ ...w, refused: a.what || "refused" });
      else break;
    }
  });
  return answers;
}

async function post(w: Waiting): Promise<Answer> {
  const body = new FormData();
  for (const [name, value] of w.fields) body.append(name, value);
  const plain = w.fields.every(([, v]) => typeof v === "string");
  try {
    const answer = await fetch(w.url, {
      method: "POST",
      body: plain ? new URLSearchParams(w.fields as [string, string][]) : body,
      headers: { Accept: "application/json" },
      signal: AbortSignal.timeout(30000),
    });
    const said = (await answer.json().catch(() => ({}))) as { see?: string; what?: string; where?: string; hint?: string };
    return { see: said.see, what: [said.where, said.what].filter(Boolean).join(": "), hint: said.hint, kind: judge(answer.status) };
  } catch {
    return { kind: "later" };
  }
}

let busy: Promise<void> | undefined;

/** alone keeps two tabs, or two touches, from sending at once. */
async function alone(act: () => Promise<void>): Promise<void> {
  if (navigator.locks) return navigator.locks.request("fettle-outbox", act);
  while (busy) await busy;
  busy = act().finally(() => (busy = undefined));
  return busy;
}
