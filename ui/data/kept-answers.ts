/** Answers kept in the browser, so that the last data can be read when the program is away. */

interface Kept {
  readonly at: number;
  readonly answer: unknown;
}

const databaseName = "sparewright";
const storeName = "answers";
/** Most answers kept; the oldest go first. */
const most = 600;

const asPromise = <T>(request: IDBRequest<T>): Promise<T> =>
  new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });

let opened: Promise<IDBDatabase> | undefined;

function open(): Promise<IDBDatabase> {
  opened ??= new Promise((resolve, reject) => {
    const request = indexedDB.open(databaseName, 1);
    request.onupgradeneeded = () => {
      request.result.createObjectStore(storeName).createIndex("at", "at");
    };
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
  return opened;
}

/** Keeps an answer under its question; where the browser refuses storage, nothing is kept. */
export async function keepAnswer(question: string, answer: unknown): Promise<void> {
  try {
    const database = await open();
    const store = database.transaction(storeName, "readwrite").objectStore(storeName);
    store.put({ at: Date.now(), answer } satisfies Kept, question);
    const count = await asPromise(store.count());
    if (count <= most) return;
    const oldest = await asPromise(store.index("at").getAllKeys(null, count - most));
    for (const key of oldest) store.delete(key);
  } catch {
    // Storage may be refused or full; the page then needs the program.
  }
}

/** The last answer to a question, and when it was given. */
export async function keptAnswer(question: string): Promise<Kept | undefined> {
  try {
    const database = await open();
    const kept: unknown = await asPromise(
      database.transaction(storeName).objectStore(storeName).get(question),
    );
    return kept as Kept | undefined;
  } catch {
    return undefined;
  }
}
