// What each chart shows of an evaluation, and the sentence that says it.

import { extremes, valueAt } from '../chart-path.js';
import { formatHz, formatNumber, formatWithUnit } from '../format.js';
import { unitOf } from '../units.js';
import { say, sayOf } from '../words.js';

/** @typedef {import('./model.js').Model} Model */
/** @typedef {import('../chart.js').ChartData} ChartData */

/** Air speed that is often heard, m/s: 5 % of the speed of sound, after Small (JAES 21 (1973) 438). */
const AIR_GUIDE = 17;
/** A run of one limit this much wide, in frequency, is worth a word: a sixth of an octave. */
const LEAST_RUN = 2 ** (1 / 6);
/** So many runs are told one by one. */
const MOST_RUNS = 4;

/** @param {number} v */
const db = (v) => formatNumber(v, 0);

/**
 * @param {Model} m
 * @param {boolean} free with the sub alone, without the car
 * @returns {ChartData|null}
 */
export function levelData(m, free) {
  const freq = m.curve('freq');
  const sum = m.curve(`level/sum/${m.seat}`);
  const sub = m.curve(`level/sub/${m.seat}`);
  if (!freq || !sum || !sub) return null;
  const doors = m.job.doors.fitted ? m.curve(`level/doors/${m.seat}`) : null;
  const alone = free ? m.curve('level/free') : null;
  return {
    freq, unit: 'dB', digits: 1,
    summary: say('sum_level', { at20: db(valueAt(freq, sum, 20)), at40: db(valueAt(freq, sum, 40)), at80: db(valueAt(freq, sum, 80)) }),
    series: [
      ...(alone ? [{ key: 'free', label: say('s_free'), kind: /** @type {const} */ ('free'), values: alone, quiet: true }] : []),
      { key: 'sub', label: say('s_sub'), kind: 'sub', values: sub },
      ...(doors ? [{ key: 'doors', label: say('s_doors'), kind: /** @type {const} */ ('doors'), values: doors }] : []),
      { key: 'sum', label: say('s_sum'), kind: 'sum', values: sum },
    ],
  };
}

/** @param {Model} m @returns {ChartData|null} */
export function gainData(m) {
  const freq = m.curve('freq');
  const gain = m.curve(`gain/${m.seat}`);
  if (!freq || !gain) return null;
  const cabin = m.reply?.derived?.cabin;
  const unity = cabin?.unity_hz;
  const line = m.curve('gain/asymptote') ?? (unity ? freq.map((hz) => 40 * Math.log10(unity / hz)) : null);
  return {
    freq, unit: 'dB', digits: 1,
    summary: say('sum_gain', { at30: db(valueAt(freq, gain, 30)), at60: db(valueAt(freq, gain, 60)), seat: ` ${sayOf('seat', m.seat).toLowerCase()}` }),
    series: [
      ...(line ? [{ key: 'asymptote', label: say('s_asymptote'), kind: /** @type {const} */ ('guide'), values: line, quiet: true }] : []),
      { key: 'gain', label: say('s_gain'), kind: 'sum', values: gain },
    ],
    places: [...(unity ? [{ hz: unity, label: say('place_unity', { hz: formatHz(unity) }) }] : [])],
  };
}

/** @param {Model} m @returns {ChartData|null} */
export function maxData(m) {
  const freq = m.curve('freq');
  const max = m.curve(`max/sub/${m.seat}`);
  const by = m.curve(`max_by/sub/${m.seat}`);
  if (!freq || !max || !by) return null;
  const runs = limitRuns(freq, by);
  const wide = widerRuns(runs);
  const said = wide.slice(0, MOST_RUNS).map((r, i) => (i < wide.length - 1 ? say('sum_max_to', { hz: formatHz(r.to), limit: r.label }) : r.label));
  return {
    freq, unit: 'dB', digits: 1, runs,
    summary: say('sum_max', { runs: said.join(say('sum_max_then')) + (wide.length > MOST_RUNS ? say('sum_max_more') : '') }),
    series: [{ key: 'max', label: say('s_max'), kind: 'sub', values: max }],
  };
}

/**
 * Neighbouring frequencies with the same limit, joined.
 * @param {Float64Array} freq
 * @param {Float64Array} by limit codes
 */
export function limitRuns(freq, by) {
  /** @type {{from: number, to: number, label: string, code: number}[]} */
  const runs = [];
  for (let i = 0; i < freq.length; i += 1) {
    const hz = /** @type {number} */ (freq[i]);
    const code = Math.round(by[i] ?? 0);
    const last = runs[runs.length - 1];
    if (last && last.code === code) last.to = hz;
    else {
      if (last) last.to = hz;
      runs.push({ from: hz, to: hz, code, label: sayOf('limit', code) });
    }
  }
  return runs;
}

/**
 * The runs that are worth a word: one narrower than a sixth of an octave goes
 * to the run before it, or after it where it is the first.
 * @param {ReturnType<typeof limitRuns>} runs
 */
export function widerRuns(runs) {
  /** @type {ReturnType<typeof limitRuns>} */
  const wide = [];
  for (const run of runs) {
    const last = wide[wide.length - 1];
    const narrow = run.to < run.from * LEAST_RUN;
    if (last && (narrow || last.code === run.code)) last.to = run.to;
    else if (!narrow) wide.push({ ...run, from: last ? last.to : /** @type {number} */ (runs[0]?.from) });
  }
  return wide.length ? wide : runs.slice(0, 1);
}

/** @param {Model} m @returns {ChartData|null} */
export function travelData(m) {
  const freq = m.curve('freq');
  const travel = m.curve(`travel/sub/${m.sub}`);
  if (!freq || !travel) return null;
  const u = unitOf('fine_mm', m.system);
  const xmax = m.job.subs[m.sub]?.driver.xmax_mm;
  const e = extremes(travel);
  let verdict = '';
  if (xmax) {
    let i = travel.length - 1;
    while (i >= 0 && /** @type {number} */ (travel[i]) <= xmax) i -= 1;
    verdict = i < 0 ? say('travel_under') : say('travel_over', { hz: formatHz(freq[i] ?? 0) });
  }
  return {
    freq, unit: u.sign, digits: u.digits, scale: u.scale,
    summary: say('sum_travel', { v: formatWithUnit(e.high, 'fine_mm', m.system), hz: formatHz(freq[e.highAt] ?? 0), verdict }),
    series: [{ key: 'travel', label: say('s_travel'), kind: 'sub', values: travel }],
    marks: xmax ? [{ value: xmax * u.scale, label: say('mark_xmax', { v: formatWithUnit(xmax, 'fine_mm', m.system) }) }] : [],
  };
}

/** @param {Model} m @returns {ChartData|null} */
export function airData(m) {
  const freq = m.curve('freq');
  const speed = m.curve(`air_speed/sub/${m.sub}`);
  if (!freq || !speed) return null;
  const u = unitOf('air_speed', m.system);
  const e = extremes(speed);
  return {
    freq, unit: u.sign, digits: u.digits, scale: u.scale,
    summary: say('sum_air', { v: formatWithUnit(e.high, 'air_speed', m.system), hz: formatHz(freq[e.highAt] ?? 0) }),
    series: [{ key: 'air', label: say('s_air'), kind: 'sub', values: speed }],
    marks: [{ value: AIR_GUIDE * u.scale, label: say('mark_air', { v: formatWithUnit(AIR_GUIDE, 'air_speed', m.system) }) }],
  };
}

/** @param {Model} m @returns {ChartData|null} */
export function loadData(m) {
  const freq = m.curve('freq');
  const load = m.curve(`load/sub/${m.sub}`);
  if (!freq || !load) return null;
  const least = m.job.subs[m.sub]?.channel.amplifier.min_ohm;
  const e = extremes(load);
  return {
    freq, unit: 'Ω', digits: 1,
    summary: say('sum_load', { v: formatWithUnit(e.low, 'ohms', m.system), hz: formatHz(freq[e.lowAt] ?? 0), verdict: least ? say(e.low < least ? 'load_under' : 'load_fine') : '' }),
    series: [{ key: 'load', label: say('s_load'), kind: 'sum', values: load }],
    marks: least ? [{ value: least, label: say('mark_min_ohm', { v: formatWithUnit(least, 'ohms', m.system) }) }] : [],
  };
}

/** @param {Model} m @returns {ChartData|null} */
export function delayData(m) {
  const freq = m.curve('freq');
  const delay = m.curve(`delay/sum/${m.seat}`);
  if (!freq || !delay) return null;
  const e = extremes(delay);
  return {
    freq, unit: 'ms', digits: 1, summary: say('sum_delay', { v: formatWithUnit(e.high, 'milliseconds', m.system), hz: formatHz(freq[e.highAt] ?? 0) }),
    series: [{ key: 'delay', label: say('s_delay'), kind: 'sum', values: delay }],
  };
}
