// Outlines of the car's rooms where a plane cuts them, mm: what a picture of
// the pressure is clipped to.

import { sectionAt, stationsOf } from './shape.js';

/** @typedef {import('../job.js').Car} Car */
/** @typedef {import('../job.js').Station} Station */
/** @typedef {[x: number, v: number][]} Outline */

const STEP_MM = 20;

/**
 * @param {Car} car
 * @param {string} room cabin or boot
 * @param {'side'|'above'} way
 * @param {number} at distance from the centre line, or height, mm
 * @returns {Outline}
 */
export function cutOutline(car, room, way, at) {
  const stations = room === 'boot' ? bootStations(car) : stationsOf(car.cabin);
  const end = /** @type {Station} */ (stations.at(-1)).x_mm;
  const start = /** @type {Station} */ (stations[0]).x_mm;
  const xs = new Set(stations.map((s) => s.x_mm));
  for (let x = start; x < end; x += STEP_MM) xs.add(x);
  const inside = [...xs].sort((a, b) => a - b).map((x) => sectionAt(stations, x))
    .filter((s) => (way === 'side' ? Math.abs(at) <= s.width_mm / 2 : at >= s.floor_mm && at <= s.roof_mm));
  /** @type {Outline} */
  const upper = inside.map((s) => [s.x_mm, way === 'side' ? s.roof_mm : s.width_mm / 2]);
  /** @type {Outline} */
  const lower = inside.map((s) => [s.x_mm, way === 'side' ? s.floor_mm : -s.width_mm / 2]);
  return [...upper, ...lower.reverse()];
}

/** A separate boot as two stations. @param {Car} car @returns {Station[]} */
function bootStations({ boot }) {
  const end = { floor_mm: boot.floor_mm, roof_mm: boot.floor_mm + boot.height_mm, width_mm: boot.width_mm };
  return [{ x_mm: boot.x_mm, ...end }, { x_mm: boot.x_mm + boot.length_mm, ...end }];
}
