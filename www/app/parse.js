// Numbers as people type them: decimal comma or point, thousands marks, unit
// after the number, fractions of an inch.

import { QUANTITIES, toStored } from './units.js';

/**
 * What came of reading a number: a value in the document's unit, or why not.
 * @typedef {{ok: true, value: number}|{ok: false, why: 'empty'|'not_a_number'|'unknown_unit'|'too_small'|'too_large'}} Parsed
 */

const MINUS = /^[-−–]\s*/;
const BODY = /^(\d[\d.,'’\u00a0\u202f ]*|[.,]\d+)\s*(.*)$/u;
/** "3/4" or "14 1/2", as on a tape in inches. */
const FRACTION = /^(?:(\d+)\s+)?(\d+)\s*\/\s*(\d+)\s*(\D.*)?$/u;
/** Thousands set apart by spaces or apostrophes. */
const SPACED = /^\d{1,3}([ '’\u00a0\u202f]\d{3})+([.,]\d+)?$/u;

/**
 * Reads one number.
 *
 * A comma and a point together: the last one is the decimal mark. One mark
 * alone is the decimal mark, except that "1,500" is fifteen hundred where one
 * and a half would lie outside the allowed range and fifteen hundred inside.
 * Without a unit the number is in the unit shown.
 *
 * @param {string} text
 * @param {import('./units.js').QuantityName} quantity
 * @param {import('./units.js').Unit} shownUnit
 * @param {number} min lowest allowed, in the document's unit
 * @param {number} max highest allowed, in the document's unit
 * @returns {Parsed}
 */
export function parseQuantity(text, quantity, shownUnit, min, max) {
  let rest = text.trim();
  if (rest === '') return { ok: false, why: 'empty' };
  const negative = MINUS.test(rest);
  rest = rest.replace(MINUS, '').replace(/^\+\s*/, '');
  const fraction = FRACTION.exec(rest);
  const match = fraction ?? BODY.exec(rest);
  if (!match) return { ok: false, why: 'not_a_number' };
  const convert = converter(match[match.length - 1] ?? '', quantity, shownUnit);
  if (!convert) return { ok: false, why: 'unknown_unit' };

  const numbers = fraction ? [Number(fraction[1] ?? 0) + Number(fraction[2]) / Number(fraction[3])] : readings((match[1] ?? '').trim());
  const candidates = numbers.map((n) => convert(negative ? -n : n));
  if (candidates.length === 0 || !candidates.every(Number.isFinite)) return { ok: false, why: 'not_a_number' };
  const slack = 1e-9 * Math.max(1, Math.abs(min), Math.abs(max));
  const fits = candidates.find((v) => v >= min - slack && v <= max + slack);
  if (fits !== undefined) return { ok: true, value: fits };
  return { ok: false, why: /** @type {number} */ (candidates[0]) < min ? 'too_small' : 'too_large' };
}

/**
 * @param {string} suffix
 * @param {import('./units.js').QuantityName} quantity
 * @param {import('./units.js').Unit} shownUnit
 * @returns {((n: number) => number)|null} null for a unit that does not belong here
 */
function converter(suffix, quantity, shownUnit) {
  const key = suffix.trim().toLowerCase().replace(/\.$/, '');
  if (key === '' || key === shownUnit.sign.toLowerCase()) return (n) => toStored(n, shownUnit);
  /** @type {import('./units.js').Quantity['suffixes']} */
  const suffixes = QUANTITIES[quantity].suffixes;
  if (!Object.hasOwn(suffixes, key)) return null;
  const [scale, shift = 0] = /** @type {[number, number?]} */ (suffixes[key]);
  return (n) => n * scale + shift;
}

/**
 * The values that a run of digits and marks can mean, likeliest first.
 * @param {string} digits
 * @returns {number[]}
 */
function readings(digits) {
  if (/[^\d.,]/.test(digits) && !SPACED.test(digits)) return [];
  const compact = digits.replace(/['’\u00a0\u202f ]/gu, '');
  const commas = compact.split(',').length - 1;
  const points = compact.split('.').length - 1;
  if (commas > 0 && points > 0) {
    const decimal = compact.lastIndexOf(',') > compact.lastIndexOf('.') ? ',' : '.';
    const thousands = decimal === ',' ? '.' : ',';
    return toNumber(compact.replaceAll(thousands, ''), decimal);
  }
  const mark = commas > 0 ? ',' : '.';
  const count = commas + points;
  if (count === 0) return toNumber(compact, mark);
  if (count > 1) return /^\d{1,3}([.,]\d{3})+$/.test(compact) ? toNumber(compact.replaceAll(mark, ''), mark) : [];
  const decimal = toNumber(compact, mark);
  return /^[1-9]\d{0,2}[.,]\d{3}$/.test(compact) ? [...decimal, ...toNumber(compact.replace(mark, ''), mark)] : decimal;
}

/**
 * @param {string} digits
 * @param {string} mark
 */
function toNumber(digits, mark) {
  const text = digits.replace(mark, '.');
  return /^(\d+\.?\d*|\.\d+)$/.test(text) ? [Number(text)] : [];
}
