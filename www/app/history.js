/**
 * Undo and redo over values that are never changed in place: a step back is
 * the earlier value itself, so that steps share all that did not change.
 */

/**
 * @template T
 * @typedef {object} Step
 * @property {T} value
 * @property {string} label  what the step did, for the reader
 */

/** Steps kept; the oldest fall off. */
const MOST_STEPS = 200;

/** @template T */
export class History {
  /** @type {Step<T>[]} */
  #past = [];
  /** @type {Step<T>[]} */
  #future = [];
  /** @type {T} */
  #present;
  #label = '';
  /** The drag that is under way, if any. @type {string|null} */
  #open = null;

  /** @param {T} present */
  constructor(present) {
    this.#present = present;
  }

  get present() {
    return this.#present;
  }
  get canUndo() {
    return this.#past.length > 0;
  }
  get canRedo() {
    return this.#future.length > 0;
  }
  /** What undo would take back; '' when there is nothing. */
  get undoLabel() {
    return this.canUndo ? this.#label : '';
  }
  /** What redo would do again; '' when there is nothing. */
  get redoLabel() {
    return this.#future.at(-1)?.label ?? '';
  }

  /**
   * Takes a new value. While a drag goes on, and at the set that ends it, the
   * values with the same key make one step.
   *
   * @param {T} value
   * @param {{key: string, label: string, drag: boolean}} how
   */
  push(value, { key, label, drag }) {
    const sameDrag = this.#open === key;
    this.#open = drag ? key : null;
    this.#future = [];
    if (!sameDrag) {
      this.#past.push({ value: this.#present, label: this.#label });
      if (this.#past.length > MOST_STEPS) this.#past.shift();
    }
    this.#present = value;
    this.#label = label;
  }

  /** Ends a drag: the next value begins a new step. */
  endDrag() {
    this.#open = null;
  }

  /** @returns {boolean} whether there was a step to take back */
  undo() {
    return this.#move(this.#past, this.#future);
  }

  /** @returns {boolean} whether there was a step to do again */
  redo() {
    return this.#move(this.#future, this.#past);
  }

  /** @param {Step<T>[]} from @param {Step<T>[]} to */
  #move(from, to) {
    const step = from.pop();
    this.#open = null;
    if (!step) return false;
    to.push({ value: this.#present, label: this.#label });
    this.#present = step.value;
    this.#label = step.label;
    return true;
  }
}
