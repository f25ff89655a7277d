// The tablet's own store: entries waiting, receipts, what was refused, and what the tablet knows. Nothing is ever dropped on upgrade.

const NAME = "strawline-bench";
const VERSION = 1;

/** Opens the store, making what is missing and deleting nothing. */
export function openStore(name = NAME) {
  return new Promise((resolve, reject) => {
    const asked = indexedDB.open(name, VERSION);
    asked.onupgradeneeded = () => {
      const made = asked.result;
      const missing = (store) => !made.objectStoreNames.contains(store);
      if (missing("waiting")) made.createObjectStore("waiting", { keyPath: "seq" });
      if (missing("taken")) made.createObjectStore("taken", { keyPath: "seq" });
      if (missing("told")) made.createObjectStore("told", { keyPath: "seq" });
      if (missing("memory")) made.createObjectStore("memory");
    };
    asked.onsuccess = () => {
      asked.result.onversionchange = () => asked.result.close();
      resolve(asked.result);
    };
    asked.onerror = () => reject(asked.error);
    asked.onblocked = () => reject(new Error("another tab holds an older store open; close it"));
  });
}

/** Runs `work(stores)` in one transaction; resolves with its result only once everything is on disk. */
export function within(store, names, mode, work) {
  return new Promise((resolve, reject) => {
    const running = store.transaction(names, mode, { durability: "strict" });
    let result;
    running.oncomplete = () => resolve(result);
    running.onabort = () => reject(running.error || new Error("the tablet did not keep it"));
    const stores = Object.fromEntries(names.map((name) => [name, running.objectStore(name)]));
    Promise.resolve(work(stores)).then((given) => { result = given; }, (failed) => { stop(running); reject(failed); });
  });
}

/** Waits for one request inside a transaction. */
export function answer(request) {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}

/** Remembers something that is no entry: the sheet, the choice of frame, a draft. */
export function remember(store, key, value) {
  return within(store, ["memory"], "readwrite", ({ memory }) => answer(memory.put(value, key)));
}

/** Gives what was remembered, or undefined. */
export function recall(store, key) {
  return within(store, ["memory"], "readonly", ({ memory }) => answer(memory.get(key)));
}

function stop(running) {
  try { running.abort(); } catch { /* it is over already */ }
}
