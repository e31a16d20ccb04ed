// What the document allows at each place, as the engine states it: the one
// table serves its checks and the page's fields.

import { steps } from '../pointer.js';

/**
 * @typedef {object} Limit
 * @property {string} at pattern of a pointer, a star for the number of a list element
 * @property {number} min
 * @property {number} max
 * @property {boolean} [zero] zero is allowed as well
 * @property {boolean} [whole]
 */

/** @type {Map<string, Limit>} */
const limits = new Map();

/** @param {Limit[]} list */
export function learnLimits(list) {
  for (const limit of list) limits.set(limit.at, limit);
}

/**
 * The span a number at a pointer may have; all numbers where none is stated.
 * @param {string} pointer
 * @returns {{min: number, max: number, whole: boolean}}
 */
export function limitOf(pointer) {
  const limit = limits.get(steps(pointer).map((s) => `/${/^\d+$/.test(s) ? '*' : s}`).join(''));
  if (!limit) return { min: -1e9, max: 1e9, whole: false };
  return { min: limit.zero ? Math.min(0, limit.min) : limit.min, max: limit.max, whole: limit.whole ?? false };
}
