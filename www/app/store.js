/**
 * The page's one piece of state: the job, with undo and redo. Jobs are never
 * changed in place: every change makes a new one that shares what stayed.
 */
import { History } from './history.js';
import { getAt, setAt, within } from './pointer.js';

/**
 * @typedef {import('./job.js').Job} Job
 *
 * @typedef {object} Change  what subscribers are told
 * @property {'set'|'replace'|'undo'|'redo'} kind
 * @property {string[]} pointers  what was set; empty when everything may differ
 * @property {boolean} drag  more of the same is on its way
 *
 * @typedef {object} SetOptions
 * @property {boolean} [drag]  one of many while a handle moves; all make one step to undo
 * @property {boolean} [assumed]  nobody measured or chose it: marks it so instead of taking the mark off
 * @property {string} [label]  what the step does, for the undo button
 * @property {[pointer: string, value: any][]} [follow]  values that move along; those that were assumed stay so
 *
 * @typedef {object} Store
 * @property {Job} job
 * @property {(pointer: string, value: any, options?: SetOptions) => void} set
 * @property {(changes: [pointer: string, value: any][], options?: SetOptions) => void} setAll  several values as one step
 * @property {(job: Job, label: string) => void} replace  another job in its place, as a step that can be undone
 * @property {() => void} endDrag
 * @property {() => boolean} undo
 * @property {() => boolean} redo
 * @property {boolean} canUndo
 * @property {boolean} canRedo
 * @property {string} undoLabel
 * @property {string} redoLabel
 * @property {(fn: (job: Job, change: Change) => void, options?: {signal?: AbortSignal}) => () => void} subscribe
 *   Returns what ends it; the signal ends it too.
 */

/**
 * @param {Job} job
 * @returns {Store}
 */
export function createStore(job) {
  const history = new History(job);
  /** @type {Set<(job: Job, change: Change) => void>} */
  const subscribers = new Set();
  /** @param {Change} change */
  const tell = (change) => {
    for (const fn of [...subscribers]) if (subscribers.has(fn)) fn(history.present, change);
  };

  /** @type {Store['setAll']} */
  const setAll = (changes, { drag = false, assumed = false, label = '', follow = [] } = {}) => {
    const pointers = changes.map(([pointer]) => pointer);
    const before = history.present;
    const all = [...changes, ...follow];
    const same = all.every(([pointer, value]) => Object.is(getAt(before, pointer), value));
    let next = markAssumed(before, pointers, assumed);
    // Nothing changed: undo must not have to take back what nobody saw.
    if (same && next === before) return;
    if (!same) for (const [pointer, value] of all) next = setAt(next, pointer, value);
    history.push(next, { key: pointers.join(' '), label, drag });
    tell({ kind: 'set', pointers, drag });
  };

  return {
    get job() {
      return history.present;
    },
    set: (pointer, value, options) => setAll([[pointer, value]], options),
    setAll,
    replace(next, label) {
      history.push(next, { key: '', label, drag: false });
      tell({ kind: 'replace', pointers: [], drag: false });
    },
    endDrag: () => history.endDrag(),
    undo() {
      const moved = history.undo();
      if (moved) tell({ kind: 'undo', pointers: [], drag: false });
      return moved;
    },
    redo() {
      const moved = history.redo();
      if (moved) tell({ kind: 'redo', pointers: [], drag: false });
      return moved;
    },
    get canUndo() {
      return history.canUndo;
    },
    get canRedo() {
      return history.canRedo;
    },
    get undoLabel() {
      return history.undoLabel;
    },
    get redoLabel() {
      return history.redoLabel;
    },
    subscribe(fn, { signal } = {}) {
      const end = () => {
        subscribers.delete(fn);
        signal?.removeEventListener('abort', end);
      };
      if (!signal?.aborted) {
        subscribers.add(fn);
        signal?.addEventListener('abort', end, { once: true });
      }
      return end;
    },
  };
}

/**
 * A value that was set is no longer assumed, nor is anything within it; or it
 * is from now on.
 *
 * @param {Job} job
 * @param {string[]} pointers
 * @param {boolean} assumed
 * @returns {Job}
 */
function markAssumed(job, pointers, assumed) {
  const before = job.assumed ?? [];
  let after = before.filter((mark) => !pointers.some((pointer) => within(mark, pointer)));
  if (assumed) after = [...after, ...pointers];
  if (after.length === before.length && after.every((mark, i) => mark === before[i])) return job;
  return { ...job, assumed: after };
}
