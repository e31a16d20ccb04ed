/**
 * Keeps the job as it is edited, and the list of jobs kept on this machine.
 */
import { StorageError } from './storage.js';

/**
 * @typedef {import('./job.js').Job} Job
 * @typedef {import('./store.js').Store} Store
 * @typedef {import('./storage.js').Storage} Storage
 *
 * @typedef {object} KeptJob
 * @property {string} id
 * @property {string} title
 * @property {number} saved  when, in milliseconds since 1970
 * @property {string} writer  the open page that wrote it last
 * @property {Job} job
 *
 * @typedef {object} SaveState
 * @property {'saved'|'waiting'|'refused'|'copied'} kind
 * @property {string} say  a sentence where the reader must know, else ''
 *
 * @typedef {object} Autosave
 * @property {string} id  of the job that is kept
 * @property {() => Promise<void>} flush  keeps at once what waits; never rejects
 * @property {(id: string) => void} moveTo  keeps from now on under another id
 * @property {() => void} stop
 */

const PREFIX = 'job/';
const LAST = 'last';
/** Long enough to skip most of a drag, short enough to lose nothing that matters. */
const DELAY_MS = 400;

export function newId() {
  return crypto.randomUUID?.() ?? `${Date.now()}-${Math.random().toString(36).slice(2)}`;
}

/** The jobs kept here, newest first. @param {Storage} storage @returns {Promise<KeptJob[]>} */
export async function keptJobs(storage) {
  const all = (await storage.list(PREFIX)).map(([, value]) => /** @type {KeptJob} */ (value));
  return all.sort((a, b) => b.saved - a.saved);
}

/** The job that was open last, if it is still kept. @param {Storage} storage @returns {Promise<KeptJob|undefined>} */
export async function lastJob(storage) {
  const id = await storage.get(LAST);
  return typeof id === 'string' ? storage.get(PREFIX + id) : undefined;
}

/** @param {Storage} storage @param {string} id @returns {Promise<KeptJob|undefined>} */
export function keptJob(storage, id) {
  return storage.get(PREFIX + id);
}

/** Puts a job back, or a copy of one. @param {Storage} storage @param {KeptJob} kept */
export function keepJob(storage, kept) {
  return storage.put(PREFIX + kept.id, kept);
}

/** @param {Storage} storage @param {string} id */
export function forgetJob(storage, id) {
  return storage.remove(PREFIX + id);
}

/**
 * Keeps what the store holds, a moment after every change, and at once when
 * the page is hidden. Two open pages never write over each other: the second
 * goes on under an id of its own.
 *
 * @param {Store} store
 * @param {Storage} storage
 * @param {string} id
 * @param {(state: SaveState) => void} onState
 * @returns {Autosave}
 */
export function autosave(store, storage, id, onState) {
  const writer = newId();
  const ended = new AbortController();
  /** What we last wrote or found under the id. @type {number|undefined} */
  let known;
  /** @type {ReturnType<typeof setTimeout>|undefined} */
  let timer;
  let dirty = false;
  /** @type {Promise<void>} */
  let writing = Promise.resolve();

  const write = async () => {
    if (!dirty) return;
    dirty = false;
    const { job } = store;
    try {
      const there = await keptJob(storage, id);
      if (there && there.writer !== writer && known !== undefined && there.saved !== known) {
        id = newId();
        onState({
          kind: 'copied',
          say: 'This job was changed in another tab as well. Yours goes on as a copy, so that neither is lost.',
        });
      }
      const saved = Math.max(Date.now(), (known ?? 0) + 1);
      await keepJob(storage, { id, title: job.title, saved, writer, job });
      await storage.put(LAST, id);
      known = saved;
      onState({ kind: 'saved', say: '' });
    } catch (error) {
      dirty = true;
      onState({
        kind: 'refused',
        say: error instanceof StorageError ? error.message : 'The job could not be kept. Save it to a file so that it is not lost.',
      });
    }
  };

  /** @type {Autosave} */
  const saver = {
    get id() {
      return id;
    },
    flush() {
      clearTimeout(timer);
      timer = undefined;
      writing = writing.then(write);
      return writing;
    },
    moveTo(other) {
      id = other;
      known = undefined;
    },
    stop() {
      clearTimeout(timer);
      ended.abort();
    },
  };
  // What another tab wrote since we opened the job must be told from what we opened.
  writing = keptJob(storage, id).then(
    (there) => {
      known = there?.saved;
    },
    () => {},
  );
  store.subscribe(
    () => {
      dirty = true;
      if (timer === undefined) {
        onState({ kind: 'waiting', say: '' });
        timer = setTimeout(saver.flush, DELAY_MS);
      }
    },
    { signal: ended.signal },
  );
  globalThis.document?.addEventListener(
    'visibilitychange',
    () => {
      if (document.visibilityState === 'hidden') saver.flush();
    },
    { signal: ended.signal },
  );
  globalThis.addEventListener?.('pagehide', () => saver.flush(), { signal: ended.signal });
  return saver;
}
