/**
 * Where the reader's jobs are kept on this machine: IndexedDB, or localStorage
 * where that is refused, or memory alone, which is said.
 */

/**
 * @typedef {object} Storage
 * @property {'indexeddb'|'localstorage'|'memory'} kind
 * @property {(key: string) => Promise<any>} get  undefined where nothing is kept
 * @property {(key: string, value: any) => Promise<void>} put  rejects with a StorageError
 * @property {(key: string) => Promise<void>} remove
 * @property {(prefix: string) => Promise<[key: string, value: any][]>} list  in the order of the keys
 */

/** A refusal; its message is a sentence for the reader. */
export class StorageError extends Error {
  /** @param {string} say @param {unknown} [cause] */
  constructor(say, cause) {
    super(say, { cause });
    this.name = 'StorageError';
  }
}

const SAY_FULL = 'This machine has no room left to keep the job. Save it to a file so that it is not lost.';
const SAY_REFUSED = 'This browser would not keep the job. Save it to a file so that it is not lost.';

/** What to tell the reader about where jobs are kept. @type {Record<Storage['kind'], string>} */
export const storageSays = {
  indexeddb: '',
  localstorage: '',
  memory: 'This browser keeps nothing between visits. Save the job to a file before you close the page.',
};

/**
 * The best storage that works here. Never rejects.
 *
 * @param {{indexedDB?: IDBFactory, localStorage?: globalThis.Storage, name?: string}} [from]  for tests
 * @returns {Promise<Storage>}
 */
export async function openStorage(from) {
  const name = from?.name ?? 'bootfloor';
  for (const open of [
    async () => openDatabase(from ? from.indexedDB : globalThis.indexedDB, name),
    async () => openLocal(from ? from.localStorage : globalThis.localStorage, name),
  ]) {
    try {
      const storage = await open();
      // Some browsers open what they then refuse to write to.
      await storage.put('probe', 1);
      await storage.remove('probe');
      return storage;
    } catch {
      // The next kind is tried.
    }
  }
  return openMemory();
}

/** @param {unknown} error */
function refusal(error) {
  const full = error instanceof DOMException && error.name === 'QuotaExceededError';
  return new StorageError(full ? SAY_FULL : SAY_REFUSED, error);
}

/** @param {IDBFactory|undefined} factory @param {string} name @returns {Promise<Storage>} */
async function openDatabase(factory, name) {
  if (!factory) throw new StorageError(SAY_REFUSED);
  const opening = factory.open(name, 1);
  opening.onupgradeneeded = () => opening.result.createObjectStore('kept');
  const db = await settle(opening);
  // A newer page in another tab may need to change the database.
  db.onversionchange = () => db.close();

  /**
   * @template T
   * @param {IDBTransactionMode} mode
   * @param {(kept: IDBObjectStore) => IDBRequest<T>} act
   * @returns {Promise<T>}
   */
  const transact = (mode, act) =>
    new Promise((resolve, reject) => {
      try {
        const transaction = db.transaction('kept', mode);
        const request = act(transaction.objectStore('kept'));
        // Only the whole transaction tells that the bytes are kept.
        transaction.oncomplete = () => resolve(request.result);
        transaction.onabort = () => reject(refusal(transaction.error));
      } catch (error) {
        reject(refusal(error));
      }
    });

  return {
    kind: 'indexeddb',
    get: (key) => transact('readonly', (kept) => kept.get(key)),
    put: async (key, value) => {
      await transact('readwrite', (kept) => kept.put(value, key));
    },
    remove: async (key) => {
      await transact('readwrite', (kept) => kept.delete(key));
    },
    list: async (prefix) => {
      const range = IDBKeyRange.bound(prefix, `${prefix}\uffff`);
      /** @type {IDBRequest<IDBValidKey[]>|undefined} */
      let keys;
      const values = await transact('readonly', (kept) => {
        keys = kept.getAllKeys(range);
        return kept.getAll(range);
      });
      return (keys?.result ?? []).map((key, i) => [String(key), values[i]]);
    },
  };
}

/** @template T @param {IDBRequest<T>} request @returns {Promise<T>} */
function settle(request) {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
    if ('onblocked' in request) request.onblocked = () => reject(new StorageError(SAY_REFUSED));
  });
}

/** @param {globalThis.Storage|undefined} local @param {string} name @returns {Storage} */
function openLocal(local, name) {
  if (!local) throw new StorageError(SAY_REFUSED);
  const full = (/** @type {string} */ key) => `${name}:${key}`;
  /** @type {Storage} */
  const storage = {
    kind: 'localstorage',
    async get(key) {
      const text = local.getItem(full(key));
      return text === null ? undefined : JSON.parse(text);
    },
    async put(key, value) {
      try {
        local.setItem(full(key), JSON.stringify(value));
      } catch (error) {
        throw refusal(error);
      }
    },
    async remove(key) {
      local.removeItem(full(key));
    },
    async list(prefix) {
      const keys = Array.from({ length: local.length }, (_, i) => local.key(i) ?? '')
        .filter((key) => key.startsWith(full(prefix)))
        .map((key) => key.slice(name.length + 1))
        .sort();
      return Promise.all(keys.map(async (key) => /** @type {[string, any]} */ ([key, await storage.get(key)])));
    },
  };
  return storage;
}

/** @returns {Storage} */
function openMemory() {
  /** @type {Map<string, any>} */
  const kept = new Map();
  return {
    kind: 'memory',
    get: async (key) => structuredClone(kept.get(key)),
    put: async (key, value) => void kept.set(key, structuredClone(value)),
    remove: async (key) => void kept.delete(key),
    list: async (prefix) =>
      [...kept]
        .filter(([key]) => key.startsWith(prefix))
        .sort(([a], [b]) => (a < b ? -1 : 1))
        .map(([key, value]) => [key, structuredClone(value)]),
  };
}
