// A value with its band on a short scale, alike for every choice, so that they
// can be compared by eye down the page.

import { svg } from '../dom.js';

const WIDTH = 300;
const HEIGHT = 26;
const MID = 14;

/**
 * @typedef {object} Scale
 * @property {number} from value at the left end
 * @property {number} to value at the right end; may be the smaller
 * @property {boolean} [log] in ratios
 */

/**
 * Share of the way along a scale, 0 to 1.
 * @param {Scale} s
 * @param {number} value
 */
export function along(s, value) {
  const t = s.log ? Math.log(value / s.from) / Math.log(s.to / s.from) : (value - s.from) / (s.to - s.from);
  return Math.max(0, Math.min(1, t));
}

/**
 * @param {Scale} scale
 * @param {number} value
 * @param {{low: number, high: number}|undefined} band absent while it is not known
 * @param {number} [asked]
 */
export function bandStrip(scale, value, band, asked) {
  const at = (/** @type {number} */ v) => Math.round((8 + along(scale, v) * (WIDTH - 16)) * 10) / 10;
  const ends = band ? [at(band.low), at(band.high)].sort((a, b) => a - b) : undefined;
  return svg('svg', { class: 'strip', viewBox: `0 0 ${WIDTH} ${HEIGHT}`, 'aria-hidden': 'true', focusable: 'false' },
    svg('line', { class: 'strip-line', x1: 2, x2: WIDTH - 2, y1: MID, y2: MID }),
    ends ? svg('rect', { class: 'strip-band', x: ends[0], y: MID - 6, width: Math.max(2, (ends[1] ?? 0) - (ends[0] ?? 0)), height: 12 }) : null,
    asked ? svg('path', { class: 'strip-asked', d: `M${at(asked)} ${MID - 11}V${MID + 11}` }) : null,
    svg('circle', { class: 'strip-dot', cx: at(value), cy: MID, r: 5 }));
}
