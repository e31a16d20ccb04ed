// What moves along when the cabin changes its shape: places that nobody
// measured stay where they make sense. What was measured is never touched.

import { getAt, setAt } from '../pointer.js';
import { lengthOf, sectionAt, stationsOf } from './shape.js';

/** @typedef {import('../job.js').Job} Job */
/** @typedef {import('./shape.js').Change} Change */

/** Ears and speakers keep at least this far from the cabin's skin, mm. */
const CLEAR = 60;

/** @param {number} v @param {number} lo @param {number} hi */
const clamp = (v, lo, hi) => Math.round(Math.max(lo, Math.min(hi, v)));

/**
 * @param {Job} job before
 * @param {Change[]} changes about to be made to the cabin
 * @returns {Change[]} values that follow
 */
export function followers(job, changes) {
  let next = job;
  for (const [pointer, value] of changes) next = setAt(next, pointer, value);
  const before = stationsOf(job.car.cabin);
  const after = stationsOf(next.car.cabin);
  const marks = new Set(job.assumed ?? []);
  const longer = lengthOf(next.car.cabin) - lengthOf(job.car.cabin);
  const end = lengthOf(next.car.cabin);
  const rise = (/** @type {number} */ x) => sectionAt(after, x + longer).floor_mm - sectionAt(before, x).floor_mm;
  /** @type {Change[]} */
  const out = [];
  const put = (/** @type {string} */ pointer, /** @type {number} */ value) => {
    if (marks.has(pointer) && getAt(job, pointer) !== value) out.push([pointer, value]);
  };

  const { boot } = job.car;
  put('/car/boot/x_mm', Math.max(0, boot.x_mm + longer));
  if (!boot.separate) put('/car/boot/floor_mm', boot.floor_mm + rise(boot.x_mm + boot.length_mm / 2));
  job.subs.forEach((sub, i) => {
    const { x_mm: x, z_mm: z } = sub.place;
    const inBoot = boot.separate && x > boot.x_mm;
    put(`/subs/${i}/place/x_mm`, Math.max(0, x + longer));
    if (!inBoot) put(`/subs/${i}/place/z_mm`, z + rise(x));
  });
  const inside = (/** @type {string} */ at, /** @type {{x_mm: number, y_mm: number, z_mm: number}} */ p) => {
    const x = clamp(p.x_mm, CLEAR, end - CLEAR);
    const s = sectionAt(after, x);
    put(`${at}/x_mm`, x);
    put(`${at}/y_mm`, clamp(p.y_mm, CLEAR - s.width_mm / 2, s.width_mm / 2 - CLEAR));
    put(`${at}/z_mm`, clamp(p.z_mm, s.floor_mm + CLEAR, s.roof_mm - CLEAR));
  };
  job.car.seats.forEach((seat, i) => inside(`/car/seats/${i}`, seat));
  inside('/doors/place', job.doors.place);
  (job.car.openings ?? []).forEach((o, i) => {
    const x = clamp(o.x_mm, 0, end);
    const s = sectionAt(after, x);
    put(`/car/openings/${i}/x_mm`, o.kind === 'tailgate' ? end : x);
    if (o.kind === 'window') put(`/car/openings/${i}/y_mm`, Math.round(Math.sign(o.y_mm) * s.width_mm / 2));
    if (o.kind === 'sunroof' || o.kind === 'roof_off') put(`/car/openings/${i}/z_mm`, Math.round(s.roof_mm));
  });
  return out;
}
