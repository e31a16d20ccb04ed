// What a box begins with when its type is chosen: for each type the fields it
// reads, and values for those that the job does not have yet. They are assumed
// until somebody changes them. Sizes follow from the driver by rules of the
// trade (common practice, no source).

import { boxSize } from '../car-box.js';
import { getAt, setAt } from '../pointer.js';
import { airLitres, lineLitres } from './box-geometry.js';
import { usualOutside } from './box-outside.js';

/**
 * @typedef {import('../job.js').Job} Job
 * @typedef {import('../job.js').Driver} Driver
 */

/** Box types in the order they are offered, each with the fields it reads. */
export const BOX_TYPES = /** @type {const} */ ({
  sealed: ['net_l', 'lining', 'ql', 'qa', 'isobaric', 'between_l'],
  vented: ['net_l', 'lining', 'ql', 'qa', 'port', 'isobaric', 'between_l'],
  passive_radiator: ['net_l', 'lining', 'ql', 'qa', 'passive', 'isobaric', 'between_l'],
  bandpass4: ['net_l', 'front_l', 'lining', 'ql', 'qa', 'front', 'isobaric', 'between_l'],
  bandpass6_series: ['net_l', 'front_l', 'lining', 'ql', 'qa', 'port', 'front', 'isobaric', 'between_l'],
  bandpass6_parallel: ['net_l', 'front_l', 'lining', 'ql', 'qa', 'port', 'front', 'isobaric', 'between_l'],
  infinite_baffle: ['isobaric', 'between_l'],
  line: ['line', 'tap_mm', 'isobaric', 'between_l'],
  aperiodic: ['net_l', 'lining', 'ql', 'qa', 'vent', 'isobaric', 'between_l'],
});

/** @typedef {keyof typeof BOX_TYPES} BoxType */

/**
 * Whether a type reads a field.
 * @param {string} type
 * @param {string} field
 */
export function reads(type, field) {
  return Object.hasOwn(BOX_TYPES, type) && /** @type {readonly string[]} */ (BOX_TYPES[/** @type {BoxType} */ (type)]).includes(field);
}

/**
 * The job with another type of box. What the new type reads and the job has
 * stays; what is missing is begun, and marked assumed.
 * @param {Job} job
 * @param {number} index of the sub
 * @param {BoxType} type
 * @param {{fs?: number, sd?: number, mms?: number, xmax?: number}} known what the engine derived, in the document's units
 * @returns {Job}
 */
export function withType(job, index, type, known) {
  const at = `/subs/${index}/box`;
  const sub = job.subs[index];
  if (!sub) return job;
  const cones = Math.max(1, sub.series * sub.parallel);
  const fs = known.fs ?? sub.driver.fs_hz ?? 35;
  const sd = (known.sd ?? sub.driver.sd_cm2 ?? 330) * cones;
  /** @type {[string, any][]} */
  const begun = [];
  const begin = (/** @type {string} */ pointer, /** @type {any} */ value) => {
    if (!getAt(job, pointer)) begun.push([pointer, value]);
  };
  const litres = sub.box.net_l || (sub.box.line ? Math.round(lineLitres(sub.box.line)) : 0) || Math.round(sd * 0.08);
  if (reads(type, 'net_l')) begin(`${at}/net_l`, litres);
  if (reads(type, 'front_l')) begin(`${at}/front_l`, Math.round(litres * (type === 'bandpass4' ? 0.8 : 0.6)));
  for (const name of /** @type {const} */ (['port', 'front'])) {
    if (!reads(type, name) || sub.box[name]) continue;
    const high = name === 'front' ? 1.6 : 1;
    for (const [key, value] of Object.entries(startPort(sd, Math.min(90, Math.max(22, Math.round(fs * high)))))) begun.push([`${at}/${name}/${key}`, value]);
  }
  if (reads(type, 'port') && !sub.box.ql) begun.push([`${at}/ql`, 7]);
  if (reads(type, 'passive') && !sub.box.passive) {
    const mass = Math.round((known.mms ?? sub.driver.mms_g ?? 120) * 1.4);
    // Twice the cone's volume displacement: it moves more than the cone does.
    const start = { count: 2, sd_cm2: Math.round(sd), mass_g: mass, added_g: mass, free_hz: Math.round(fs * 0.65), qmp: 7, xmax_mm: Math.round((known.xmax ?? sub.driver.xmax_mm ?? 12) * 1.2) };
    for (const [key, value] of Object.entries(start)) begun.push([`${at}/passive/${key}`, value]);
  }
  if (type === 'line' && !sub.box.line?.length) {
    const length = Math.round(343 / 4 / fs * 1000 / 10) * 10;
    begun.push([`${at}/line`, [{ length_mm: length, start_cm2: Math.round(sd * 1.3), end_cm2: Math.round(sd), stuffing: 0 }]]);
    begun.push([`${at}/tap_mm`, Math.round(length / 5)]);
  }
  if (reads(type, 'vent') && !sub.box.vent) {
    begun.push([`${at}/vent/area_cm2`, Math.round(sd * 0.15)], [`${at}/vent/resistance_pa_s_m`, 600]);
  }
  let next = setAt(job, `${at}/type`, type);
  for (const [pointer, value] of begun) next = setAt(next, pointer, value);
  const leaves = begun.flatMap(([pointer, value]) => leavesOf(pointer, value));
  for (const [pointer, value] of outsideFor(next, index)) {
    next = setAt(next, pointer, value);
    leaves.push(pointer);
  }
  return { ...next, assumed: [...(job.assumed ?? []).filter((p) => p !== `${at}/type` && !leaves.includes(p)), ...leaves] };
}

/**
 * The outside sizes that go with the air in a box, where nobody has stated
 * them: all three, or the height alone where width or depth are the reader's.
 * @param {Job} job
 * @param {number} index
 * @returns {[string, number][]}
 */
function outsideFor(job, index) {
  const at = `/subs/${index}/box`;
  const sub = job.subs[index];
  if (!sub) return [];
  const { box } = sub;
  if (box.type === 'infinite_baffle') return [];
  const stated = (/** @type {'width_mm'|'depth_mm'|'height_mm'} */ key) => box[key] > 0 && !job.assumed?.includes(`${at}/${key}`);
  if (stated('width_mm') || stated('depth_mm')) {
    const input = { box: { ...box, net_l: airLitres(box), front_l: 0 }, driver: sub.driver, drivers: sub.series * sub.parallel, place: sub.place, boot: job.car.boot };
    return box.height_mm > 0 ? [[`${at}/height_mm`, Math.round(boxSize(input).height)]] : [];
  }
  const { width, height, depth } = usualOutside(job, index);
  return [[`${at}/width_mm`, width], [`${at}/height_mm`, height], [`${at}/depth_mm`, depth]];
}

/** Tubes that can be had, inner diameter in mm (common practice, no source). */
const TUBES = [50, 63, 75, 100, 125, 150];
/** The most of them that a box begins with. */
const MOST_TUBES = 4;

/**
 * Tubes of about a quarter of the cone's area together (common practice, no
 * source): the fewest that come within a quarter of that, else the nearest.
 * @param {number} sd cm2, all cones
 * @returns {{count: number, diameter_mm: number}}
 */
export function startTubes(sd) {
  const wanted = sd * 100 / 4;
  let best = { count: 1, diameter_mm: 50, off: Infinity };
  for (let count = 1; count <= MOST_TUBES && best.off > Math.log(1.25); count += 1) {
    for (const d of TUBES) {
      const off = Math.abs(Math.log(count * Math.PI / 4 * d * d / wanted));
      if (off < best.off) best = { count, diameter_mm: d, off };
    }
  }
  return { count: best.count, diameter_mm: best.diameter_mm };
}

/** @param {number} sd cm2 @param {number} hz */
function startPort(sd, hz) {
  return { shape: 'round', ...startTubes(sd), tuning_hz: hz, ends: 'flanged_free', qp: 0 };
}

/** Pointers of the single values in a value. @param {string} pointer @param {any} value @returns {string[]} */
function leavesOf(pointer, value) {
  if (value === null || typeof value !== 'object') return [pointer];
  return Object.entries(value).flatMap(([key, v]) => leavesOf(`${pointer}/${key}`, v));
}
