/**
 * The only IndexedDB: named stores of plain values. A phone may kill the connection while the page
 * sleeps; then the handle is dropped, opened again and the work done once more before we say it failed.
 */

const NAME = 'yardwright';
const VERSION = 1;
const STORES = ['drafts', 'quotes', 'outbox', 'settings'];
const OPEN_TIMEOUT_MS = 8_000;

let opening = null;

function open() {
  opening ??= new Promise((resolve, reject) => {
    const request = indexedDB.open(NAME, VERSION);
    const timer = setTimeout(() => reject(new Error('the store does not open')), OPEN_TIMEOUT_MS);
    request.onupgradeneeded = () => {
      for (const store of STORES) {
        if (!request.result.objectStoreNames.contains(store)) request.result.createObjectStore(store);
      }
    };
    request.onblocked = () => reject(new Error('another tab holds an older version: close it'));
    request.onerror = () => reject(request.error);
    request.onsuccess = () => {
      clearTimeout(timer);
      request.result.onversionchange = () => {
        request.result.close();
        opening = null;
      };
      request.result.onclose = () => {
        opening = null;
      };
      resolve(request.result);
    };
  });
  opening.catch(() => {
    opening = null;
  });
  return opening;
}

async function once(store, mode, work) {
  const database = await open();
  return new Promise((resolve, reject) => {
    const transaction = database.transaction(store, mode, { durability: 'strict' });
    const request = work(transaction.objectStore(store));
    transaction.oncomplete = () => resolve(request.result);
    transaction.onabort = () => reject(transaction.error ?? new Error('not written'));
    transaction.onerror = () => reject(transaction.error);
  });
}

async function run(store, mode, work) {
  try {
    return await once(store, mode, work);
  } catch {
    opening = null;
    return once(store, mode, work);
  }
}

export const get = (store, key) => run(store, 'readonly', (s) => s.get(key));
export const all = (store) => run(store, 'readonly', (s) => s.getAll());
export const keep = (store, key, value) => run(store, 'readwrite', (s) => s.put(value, key));
export const drop = (store, key) => run(store, 'readwrite', (s) => s.delete(key));

/** Ask the phone not to clear our data when it is short of room. True, false, or null = it does not say. */
export async function askToKeep() {
  try {
    return await navigator.storage.persist();
  } catch {
    return null;
  }
}
