// A driver in section, standing on its magnet's side up: cone, surround and
// motor, all drivers of a list to one scale.

import { driverSection, driverSize } from '../car-box.js';
import { svg } from '../dom.js';

/** Mm that the picture is wide and high: an 18-inch driver goes in. */
const WIDE = 490;
const HIGH = 260;

/**
 * @param {import('../job.js').Driver} driver
 * @param {string} [label] for those who cannot see it; without one it is decoration
 */
export function conePicture(driver, label) {
  const size = driverSize(driver);
  const parts = driverSection(size);
  const path = (/** @type {[number, number][]} */ points) => points.map(([u, v], i) => `${i ? 'L' : 'M'}${Math.round(WIDE / 2 + v)} ${Math.round(18 - u)}`).join('');
  return svg('svg', { class: 'cone-picture', viewBox: `0 0 ${WIDE} ${HIGH}`, ...(label ? { role: 'img', 'aria-label': label } : { 'aria-hidden': 'true' }) },
    svg('path', { class: 'cut motor', d: path(parts.basket) }), svg('path', { class: 'cut cone', d: path(parts.cone) }), svg('path', { class: 'cut cone', d: path(parts.flange) }));
}
