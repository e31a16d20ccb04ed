// The outside of a box of which nobody has said how large it should be: from
// the air it has to hold, the cone it has to carry and the boot it stands in.

import { displacedLitres, driverSize } from '../car-box.js';
import { airLitres, portArea } from './box-geometry.js';

/**
 * @typedef {import('../job.js').Job} Job
 */

const MM3_PER_L = 1e6;
/** Board left round a driver's rim, both sides together, mm (common practice, no source). */
const ROUND_RIM = 30;

/**
 * About how long a port will be, so that there is room for it before the engine
 * has worked it out: the mass of air that resonates with the box's at its
 * tuning, less its free air at both ends (Kinsler and others, Fundamentals of
 * Acoustics, 2000, 10.8).
 * @param {import('../job.js').Box} box
 * @returns {number|undefined} mm
 */
function portLength({ port, net_l: litres }) {
  if (!port || port.length_mm || !port.tuning_hz || !(litres > 0)) return port?.length_mm ?? undefined;
  const area = portArea(port) * 1e-4;
  const length = area / (litres * 1e-3) * (343 / (2 * Math.PI * port.tuning_hz)) ** 2 - 1.46 * Math.sqrt(area / Math.max(1, port.count) / Math.PI);
  return Math.max(0, length) * 1e3;
}

/**
 * Width, height and depth of a box that looks like one: about as deep as a cube
 * of its volume allows, high enough for its cone, and as wide as that leaves;
 * never wider than the boot while it can be deeper instead. The height is
 * rounded last, so that it holds what it has to.
 * @param {Job} job
 * @param {number} index of the sub
 * @returns {{width: number, height: number, depth: number}} whole mm
 */
export function usualOutside(job, index) {
  const sub = /** @type {import('../job.js').Sub} */ (job.subs[index]);
  const { boot } = job.car;
  const { box, place } = sub;
  const drivers = Math.max(1, sub.series * sub.parallel);
  const t = 2 * box.panel_mm;
  const air = airLitres(box) + displacedLitres({ box: { ...box, net_l: 0, front_l: 0 }, driver: sub.driver, drivers, place, boot, portLengthMM: portLength(box) });
  const volume = Math.max(1, air) * MM3_PER_L;
  const { outside: rim, depth: behind } = driverSize(sub.driver);
  const cube = Math.cbrt(volume);
  const level = place.fires === 'up' || place.fires === 'down';
  const face = rim + ROUND_RIM - t;
  const within = (/** @type {number} */ v, /** @type {number} */ low, /** @type {number} */ high) => Math.max(low, Math.min(v, Math.max(low, high)));
  // What the cone needs comes before what the boot offers: a box that is too
  // large for the boot is said to be so.
  const deepest = boot.length_mm - 20 - t;
  let depth = within(cube * 0.85, level ? face : behind * 1.15, deepest);
  const high = within(cube, level ? behind * 1.15 : face, boot.height_mm - 20 - t);
  const widest = boot.width_mm - 60 - t;
  const wide = within(volume / (high * depth), face, widest);
  if (wide * high * depth < volume) depth = within(volume / (high * wide), depth, deepest);
  const whole = { width: Math.round(wide + t), depth: Math.round(depth + t) };
  return { ...whole, height: Math.round(volume / ((whole.width - t) * (whole.depth - t)) + t) };
}
