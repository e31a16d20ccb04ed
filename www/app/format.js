// Numbers as the reader sees them, through Intl.

import { toShown, unitOf } from './units.js';

/** @type {Map<string, Intl.NumberFormat>} */
const formats = new Map();

/**
 * The reader's language decides the decimal mark; the page itself is English.
 */
export const locale = usable(typeof navigator === 'undefined' ? '' : navigator.language);

/** A language tag that Intl takes: some engines report the system's "C". @param {string} tag */
function usable(tag) {
  try {
    return Intl.NumberFormat.supportedLocalesOf(tag)[0] ?? 'en-GB';
  } catch {
    return 'en-GB';
  }
}

/**
 * @param {number} value
 * @param {number} digits most decimals
 * @param {boolean} [fixed] keep trailing zeros, for columns
 */
export function formatNumber(value, digits, fixed = false) {
  const key = `${digits}${fixed}`;
  let format = formats.get(key);
  if (!format) {
    format = new Intl.NumberFormat(locale, {
      maximumFractionDigits: digits,
      minimumFractionDigits: fixed ? digits : 0,
      useGrouping: false,
      numberingSystem: 'latn',
      // @ts-ignore: known to browsers, not yet to the checker's library
      signDisplay: 'negative',
    });
    formats.set(key, format);
  }
  return format.format(value).replace('-', '−');
}

/**
 * Decimals that keep about three figures, so that 0.0082 is not shown as 0.
 * @param {number} shown
 * @param {number} digits those of the unit
 */
export function digitsFor(shown, digits) {
  const size = Math.abs(shown);
  if (size === 0 || size >= 10 ** -digits * 50) return digits;
  return Math.min(6, Math.max(digits, 2 - Math.floor(Math.log10(size))));
}

/**
 * The number alone, in the reader's units.
 * @param {number} stored value in the document's unit
 * @param {import('./units.js').QuantityName} quantity
 * @param {import('./units.js').System} system
 */
export function formatValue(stored, quantity, system) {
  const u = unitOf(quantity, system);
  const shown = toShown(stored, u);
  return formatNumber(shown, digitsFor(shown, u.digits));
}

/**
 * Number and unit, joined so that they never part at a line's end.
 * @param {number} stored
 * @param {import('./units.js').QuantityName} quantity
 * @param {import('./units.js').System} system
 */
export function formatWithUnit(stored, quantity, system) {
  const { sign } = unitOf(quantity, system);
  const value = formatValue(stored, quantity, system);
  if (sign === '') return value;
  return sign === '°' || sign === '%' ? `${value}${sign}` : `${value}\u00a0${sign}`;
}

/**
 * A frequency with the digits that matter: 8.4, 31, 120.
 * @param {number} hz
 */
export function formatHz(hz) {
  return `${formatNumber(hz, hz < 20 ? 1 : 0)}\u00a0Hz`;
}
