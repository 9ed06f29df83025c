// The outbox in IndexedDB: entries that wait on this tablet, oldest first.

export interface Waiting {
  id: string; // the entry's UUIDv7: what is sent twice counts once
  url: string;
  fields: [string, string | File][];
  what: string; // for a person
  at: number;
  refused?: string; // the server's reason, for a person to read
}

const table = "waiting";
let opened: Promise<IDBDatabase> | undefined;

function open(): Promise<IDBDatabase> {
  opened ??= new Promise((done, fail) => {
    const ask = indexedDB.open("fettle-outbox", 1);
    ask.onupgradeneeded = () => ask.result.createObjectStore(table, { keyPath: "id" });
    ask.onsuccess = () => done(ask.result);
    ask.onerror = () => fail(ask.error);
  });
  return opened;
}

async function run<T>(mode: IDBTransactionMode, act: (s: IDBObjectStore) => IDBRequest<T>): Promise<T> {
  const db = await open();
  return new Promise((done, fail) => {
    const tx = db.transaction(table, mode);
    const ask = act(tx.objectStore(table));
    tx.oncomplete = () => done(ask.result);
    tx.onerror = tx.onabort = () => fail(tx.error);
  });
}

export const put = (w: Waiting) => run("readwrite", (s) => s.put(w));
export const drop = (id: string) => run("readwrite", (s) => s.delete(id));
export const list = () => run<Waiting[]>("readonly", (s) => s.getAll());
