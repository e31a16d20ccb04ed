// The one frequency that every chart reads out.

/**
 * @typedef {object} Cursor
 * @property {number} hz
 * @property {(hz: number) => void} set
 * @property {(hear: (hz: number) => void) => void} subscribe heard once for every change
 */

/**
 * @param {number} hz
 * @returns {Cursor}
 */
export function createCursor(hz) {
  /** @type {((hz: number) => void)[]} */
  const hearers = [];
  const cursor = {
    hz,
    /** @param {number} next */
    set(next) {
      if (next === cursor.hz || !Number.isFinite(next)) return;
      cursor.hz = next;
      for (const hear of hearers) hear(next);
    },
    /** @param {(hz: number) => void} hear */
    subscribe(hear) {
      hearers.push(hear);
    },
  };
  return cursor;
}
