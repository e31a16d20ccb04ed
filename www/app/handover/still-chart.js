// A level chart for paper: curve, band and axes in one still drawing.

import { svg } from '../dom.js';
import { formatNumber } from '../format.js';

const TICKS = [10, 20, 30, 50, 100, 200];

/**
 * @typedef {object} StillCurve
 * @property {ArrayLike<number>} hz
 * @property {ArrayLike<number>} values dB
 * @property {string} kind class of the line
 * @property {string} label
 */

/**
 * @param {StillCurve[]} curves
 * @param {{hz: ArrayLike<number>, low: ArrayLike<number>, high: ArrayLike<number>}|null} band
 * @param {string} spoken what a screen reader says of it
 */
export function stillChart(curves, band, spoken) {
  const width = 680;
  const height = 250;
  const left = 40;
  const right = width - 12;
  const top = 14;
  const foot = height - 26;
  const all = curves.flatMap((c) => Array.from(c.values).filter((_, i) => /** @type {number} */ (c.hz[i]) <= 300));
  const last = Math.max(...curves.map((c) => /** @type {number} */ (c.hz[c.hz.length - 1])));
  const high = Math.ceil((Math.max(...all) + 2) / 10) * 10;
  const low = high - 60;
  const x = (/** @type {number} */ hz) => left + (Math.log(hz / 10) / Math.log(last / 10)) * (right - left);
  const y = (/** @type {number} */ db) => foot - ((Math.min(Math.max(db, low), high) - low) / (high - low)) * (foot - top);
  const point = (/** @type {number} */ hz, /** @type {number} */ db) => `${x(hz).toFixed(1)} ${y(db).toFixed(1)}`;
  const line = (/** @type {ArrayLike<number>} */ hz, /** @type {ArrayLike<number>} */ values) => Array.from(hz, (f, i) => point(f, /** @type {number} */ (values[i])));
  const marks = [];
  for (let db = low; db <= high; db += 10) {
    marks.push(svg('path', { class: 'still-grid', d: `M${left} ${y(db)}H${right}` }), svg('text', { class: 'still-tick', x: left - 6, y: y(db) + 4, 'text-anchor': 'end' }, formatNumber(db, 0)));
  }
  for (const hz of TICKS) {
    marks.push(svg('path', { class: 'still-grid', d: `M${x(hz)} ${top}V${foot}` }), svg('text', { class: 'still-tick', x: x(hz), y: height - 8, 'text-anchor': 'middle' }, hz === 200 ? '200 Hz' : String(hz)));
  }
  const shape = band ? svg('path', { class: 'still-band', d: `M${line(band.hz, band.low).join('L')}L${line(band.hz, band.high).reverse().join('L')}Z` }) : null;
  return svg('svg', { class: 'still-chart', viewBox: `0 0 ${width} ${height}`, role: 'img', 'aria-label': spoken }, ...marks, shape,
    ...curves.map((c) => svg('path', { class: `still-curve ${c.kind}`, d: `M${line(c.hz, c.values).join('L')}` })),
    svg('text', { class: 'still-tick', x: left + 4, y: top + 10 }, 'dB'),
    ...curves.map((c, i) => svg('g', {}, svg('path', { class: `still-curve ${c.kind}`, d: `M${right - 150} ${top + 14 + 16 * i}h26` }), svg('text', { class: 'still-tick', x: right - 118, y: top + 18 + 16 * i }, c.label))));
}
