// What a box begins with when its type is chosen: for each type the fields it
// reads, and values for those that the job does not have yet. They are assumed
// until somebody changes them. Sizes follow from the driver by rules of the
// trade (common practice, no source).

import { getAt, setAt } from '../pointer.js';
import { lineLitres } from './box-geometry.js';

/**
 * @typedef {import('../job.js').Job} Job
 * @typedef {import('../job.js').Driver} Driver
 */

/** Box types in the order they are offered, each with the fields it reads. */
export const BOX_TYPES = /** @type {const} */ ({
  sealed: ['net_l', 'lining', 'ql', 'qa', 'isobaric'],
  vented: ['net_l', 'lining', 'ql', 'qa', 'port', 'isobaric'],
  passive_radiator: ['net_l', 'lining', 'ql', 'qa', 'passive', 'isobaric'],
  bandpass4: ['net_l', 'front_l', 'lining', 'ql', 'qa', 'front', 'isobaric'],
  bandpass6_series: ['net_l', 'front_l', 'lining', 'ql', 'qa', 'port', 'front', 'isobaric'],
  bandpass6_parallel: ['net_l', 'front_l', 'lining', 'ql', 'qa', 'port', 'front', 'isobaric'],
  infinite_baffle: ['isobaric'],
  line: ['line', 'tap_mm', 'isobaric'],
  aperiodic: ['net_l', 'lining', 'ql', 'qa', 'vent', 'isobaric'],
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
    // A line is big: across the whole boot, as high as it then has to be.
    const wide = Math.round(Math.max(sub.box.width_mm, job.car.boot.width_mm - 60));
    const deep = Math.max(sub.box.depth_mm, 300) - 2 * sub.box.panel_mm;
    const air = lineLitres([{ length_mm: length, start_cm2: sd * 1.3, end_cm2: sd, stuffing: 0 }]);
    begun.push([`${at}/width_mm`, wide], [`${at}/height_mm`, Math.round(air * 1e6 / ((wide - 2 * sub.box.panel_mm) * deep) + 2 * sub.box.panel_mm)]);
  }
  if (reads(type, 'vent') && !sub.box.vent) {
    begun.push([`${at}/vent/area_cm2`, Math.round(sd * 0.15)], [`${at}/vent/resistance_pa_s_m`, 600]);
  }
  let next = setAt(job, `${at}/type`, type);
  for (const [pointer, value] of begun) next = setAt(next, pointer, value);
  const leaves = begun.flatMap(([pointer, value]) => leavesOf(pointer, value));
  return { ...next, assumed: [...(job.assumed ?? []).filter((p) => p !== `${at}/type` && !leaves.includes(p)), ...leaves] };
}

/** An area of an eighth of the cone's (common practice, no source). @param {number} sd cm2 @param {number} hz */
function startPort(sd, hz) {
  return { shape: 'round', count: 1, diameter_mm: Math.round(Math.sqrt(sd * 12 * 4 / Math.PI) / 5) * 5, tuning_hz: hz, ends: 'flanged_free', qp: 0 };
}

/** Pointers of the single values in a value. @param {string} pointer @param {any} value @returns {string[]} */
function leavesOf(pointer, value) {
  if (value === null || typeof value !== 'object') return [pointer];
  return Object.entries(value).flatMap(([key, v]) => leavesOf(`${pointer}/${key}`, v));
}
