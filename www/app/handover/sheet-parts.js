// The parts of a job sheet, each from the job and what the engine says of it.

import { el } from '../dom.js';
import { formatHz, formatNumber, formatWithUnit } from '../format.js';
import { sayOf } from '../words.js';
import { JobPicture } from '../ways/car-picture.js';
import { stillChart } from './still-chart.js';
import { say, sayWord } from './words.js';

/** @typedef {import('../job.js').Job} Job */
/** @typedef {import('../job.js').Sub} Sub */
/** @typedef {import('../job.js').Channel} Channel */
/** @typedef {import('../units.js').System} System */

/**
 * The engine's reply to `plan`.
 * @typedef {object} PlanReply
 * @property {{level: string, say: string}[]|null} findings
 * @property {BoxPlan[]|null} boxes
 * @property {{run_m: number, area_mm2: number, fuse_a: number, say: string}} [supply]
 * @property {string} [hearing]
 * @property {{headline: string, because: string, lines: string[]}} [answer]
 *
 * @typedef {object} BoxPlan
 * @property {string} [say] set instead of all else where there is no box to build
 * @property {number} width_mm
 * @property {number} height_mm
 * @property {number} depth_mm
 * @property {number} net_l
 * @property {{name: string, count: number, length_mm: number, width_mm: number, thick_mm: number, bevel_deg: [number, number], tapers?: boolean}[]} [panels]
 * @property {number} sheets
 * @property {number} waste_pct
 * @property {number} mass_kg
 * @property {string} stands
 * @property {string} passes
 * @property {string} restraint
 * @property {number} forward_n force that the fixing must hold
 * @property {number} side_n
 * @property {number} rear_n
 * @property {number[]} [port_mm]
 * @property {{say: string}[]} [findings]
 *
 * What a sheet is made from.
 * @typedef {object} SheetData
 * @property {Job} job
 * @property {PlanReply} plan
 * @property {{hz: Float64Array, level: Float64Array}} curve level of all together at the seat
 * @property {{hz: Float64Array, low: Float64Array, high: Float64Array}|null} band
 * @property {{reach_hz: {low: number, high: number}, level_db: {low: number, high: number}}|null} spread
 * @property {number[]} loads least load of each sub's amplifier, ohm
 * @property {string} seat
 * @property {System} system
 */

/** @param {string} title @param {...(Node|string|null)} children */
function part(title, ...children) {
  return el('section', {}, el('h2', {}, title), ...children);
}

/** @param {[string, string|null][]} rows those without a value are left out */
function facts(rows) {
  return el('dl', {}, ...rows.filter(([, v]) => v).map(([k, v]) => el('div', {}, el('dt', {}, k), el('dd', {}, v))));
}

/** @param {string[]} heads @param {string[][]} rows */
function table(heads, rows) {
  return el('div', { class: 'table-room' }, el('table', {}, el('thead', {}, el('tr', {}, ...heads.map((h) => el('th', { scope: 'col' }, h)))),
    el('tbody', {}, ...rows.map((r) => el('tr', {}, ...r.map((c) => el('td', {}, c)))))));
}

/** @param {SheetData} d */
export function carPart(d) {
  const picture = new JobPicture('');
  picture.draw(d.job, d.system, 680, 300);
  return el('figure', { class: 'sheet-car' }, picture.root);
}

/** @param {SheetData} d */
export function agreedPart({ job, plan, spread }) {
  const { aim } = job;
  const seat = sayOf('seat', aim.seat).toLowerCase();
  const a = plan.answer;
  return part(say('agreed'), facts([
    [say('agreed_wish'), say('agreed_wish_value', { level: formatNumber(aim.level_db, 0), hz: formatHz(aim.lowest_hz), seat })],
    [say('agreed_boot'), aim.boot_pct ? say('agreed_boot_value', { pct: formatNumber(aim.boot_pct, 0) }) : null],
    [say('promised'), a ? `${a.headline} ${a.because}` : null],
    [say('sure'), spread ? sureWords(spread) : null],
  ]));
}

/** A tone below this is felt more than heard: the lower end of ISO 226. */
const LOWEST_HEARD = 20;

/** @param {NonNullable<SheetData['spread']>} spread */
function sureWords({ reach_hz: reach, level_db: level }) {
  const heard = (/** @type {number} */ hz) => Math.max(hz, LOWEST_HEARD);
  const span = reach.high < LOWEST_HEARD ? say('sure_below', { hz: formatHz(LOWEST_HEARD) }) : say('sure_reach', { low: formatHz(heard(reach.low)), high: formatHz(heard(reach.high)) });
  return say('sure_value', { reach: span, least: formatNumber(level.low, 0), most: formatNumber(level.high, 0) });
}

/** @param {SheetData} d */
export function responsePart({ curve, band, seat }) {
  const title = say('response', { seat: sayOf('seat', seat).toLowerCase() });
  return el('section', { class: 'keep' }, el('h2', {}, title),
    stillChart([{ hz: curve.hz, values: curve.level, kind: 'sum', label: sayOf('s', 'sum') }], band, title),
    band ? el('p', { class: 'soft' }, say('response_band')) : null);
}

/** @param {SheetData} d */
export function systemPart({ job, plan, loads, system }) {
  const size = (/** @type {number} */ mm) => formatWithUnit(mm, 'mm', system);
  const blocks = job.subs.map((sub, i) => {
    const box = plan.boxes?.[i];
    const name = job.subs.length > 1 ? say('sub_n', { n: i + 1 }) : say('sub');
    const count = Math.max(1, sub.series) * Math.max(1, sub.parallel);
    return el('div', { class: 'keep' }, el('h3', {}, name), facts([
      [say('box'), `${sayOf('box', sub.box.type)}${box?.say ? `. ${box.say}` : ''}`],
      [say('box_net'), sub.box.type === 'infinite_baffle' ? null : formatWithUnit(sub.box.net_l + (sub.box.front_l ?? 0), 'litres', system)],
      [say('box_outside'), box && !box.say ? [box.width_mm, box.height_mm, box.depth_mm].map(size).join(' × ') : null],
      [say('box_port'), portWords(sub, box?.port_mm ?? [], system)],
      [say('driver'), count > 1 ? say('driver_many', { n: count, name: sub.driver.name }) : sub.driver.name],
      [say('wiring'), `${count > 1 ? say('wiring_value', { series: sub.series, parallel: sub.parallel }) : say('wiring_one')}; ${say('load_value', { ohm: formatWithUnit(loads[i] ?? 0, 'ohms', system) })}`],
      [say('amplifier'), amplifierWords(sub.channel, system)],
    ]));
  });
  const doors = job.doors.fitted ? el('div', { class: 'keep' }, el('h3', {}, say('doors')), facts([
    [say('driver'), job.doors.driver.name], [say('amplifier'), amplifierWords(job.doors.channel, system)],
  ])) : null;
  return part(say('system'), ...blocks, doors);
}

/** @param {Channel} c @param {System} system */
function amplifierWords({ amplifier: a }, system) {
  return say('amplifier_value', { w: formatWithUnit(a.rated_w, 'watts', system), ohm: formatWithUnit(a.rated_ohm, 'ohms', system) });
}

/** @param {Sub} sub @param {number[]} lengths mm @param {System} system */
function portWords(sub, lengths, system) {
  const { box } = sub;
  const ports = [box.port, box.front].filter((p) => p !== undefined && p !== null);
  const used = { vented: ports.slice(0, 1), bandpass4: box.front ? [box.front] : [], bandpass6_series: ports, bandpass6_parallel: ports }[box.type] ?? [];
  const size = (/** @type {number} */ mm) => formatWithUnit(mm, 'mm', system);
  const words = used.map((p, i) => {
    const l = size(lengths[i] ?? p.length_mm ?? 0);
    const what = p.shape === 'slot'
      ? say('port_slot', { n: p.count, w: size(p.width_mm ?? 0), h: size(p.height_mm ?? 0), l })
      : say('port_round', { n: p.count, d: size(p.diameter_mm ?? 0), l });
    return p.tuning_hz ? `${what}, ${say('tuned', { hz: formatHz(p.tuning_hz) })}` : what;
  });
  return words.join('; ') || null;
}

/** @param {SheetData} d */
export function settingsPart({ job }) {
  const rows = job.subs.map((s, i) => channelRow(job.subs.length > 1 ? say('sub_n', { n: i + 1 }) : say('sub'), s.channel));
  if (job.doors.fitted) rows.push(channelRow(say('each_door'), job.doors.channel));
  return el('section', { class: 'keep' }, el('h2', {}, say('settings')),
    table([say('channel'), say('crossover'), say('delay'), say('polarity'), say('level'), say('equaliser')], rows));
}

/** @param {string} name @param {Channel} c */
function channelRow(name, c) {
  const on = (c.filters ?? []).filter((f) => !f.off);
  const passes = on.filter((f) => f.kind === 'lowpass' || f.kind === 'highpass')
    .map((f) => `${sayWord(f.kind)} ${formatHz(f.freq_hz)}, ${say('slope', { db: 6 * (f.order ?? 0) })}, ${sayWord(f.shape ?? '')}`);
  const bands = on.filter((f) => f.kind !== 'lowpass' && f.kind !== 'highpass')
    .map((f) => say('eq_value', { kind: sayWord(f.kind), hz: formatHz(f.freq_hz), gain: formatNumber(f.gain_db ?? 0, 1), q: formatNumber(f.q ?? 0, 2) }));
  return [name, passes.join('; ') || say('none'), `${formatNumber(c.delay_ms, 2)} ms`, say(c.inverted ? 'inverted' : 'normal'), `${formatNumber(c.gain_db, 1)} dB`, bands.join('; ') || say('none')];
}

/** @param {SheetData} d */
export function workshopPart({ job, plan, system }) {
  const size = (/** @type {number} */ mm) => formatWithUnit(mm, 'wood_mm', system);
  const blocks = (plan.boxes ?? []).filter((b) => !b.say).map((b, i) => {
    const hole = job.subs[i]?.driver.cut_out_mm;
    const rows = (b.panels ?? []).map((p) => [p.name, String(p.count), `${size(p.length_mm)} × ${size(p.width_mm)} × ${size(p.thick_mm)}`,
      p.tapers ? say('tapers') : p.bevel_deg[0] || p.bevel_deg[1] ? say('bevel_value', { a: formatNumber(p.bevel_deg[0], 1), b: formatNumber(p.bevel_deg[1], 1) }) : say('square')]);
    return el('div', {}, el('h3', {}, job.subs.length > 1 ? `${say('cut_list')}, ${say('sub_n', { n: i + 1 })}` : say('cut_list')),
      table([say('panel'), say('pieces'), say('size'), say('bevel')], rows),
      el('p', {}, say('cut_note', { hole: hole ? size(hole) : say('cut_hole_unknown') })),
      facts([
        [say('sheets'), say('sheets_value', { n: b.sheets, waste: formatNumber(b.waste_pct, 0) })],
        [say('mass'), say('mass_value', { kg: formatNumber(b.mass_kg, 1) })],
        [say('in_boot'), b.stands], [say('through'), b.passes],
        [say('fix'), `${say('fix_forces', { forward: newtons(b.forward_n), side: newtons(b.side_n), rear: newtons(b.rear_n) })} ${b.restraint}`],
      ]),
      ...(b.findings ?? []).map((f) => el('p', { class: 'warn' }, f.say)));
  });
  return part(say('workshop'), ...blocks, plan.supply ? facts([[say('supply'), plan.supply.say]]) : null);
}

export function carePart() {
  return el('section', { class: 'keep' }, el('h2', {}, say('out')), el('p', {}, say('out_text')), el('h2', {}, say('care')), el('p', {}, say('care_text')));
}

/** @param {number} n */
const newtons = (n) => `${formatNumber(Math.ceil(n / 10) * 10, 0)}\u00a0N`;

const PARTS = /** @type {const} */ (['car', 'subs', 'doors', 'air', 'aim', 'tolerance']);

/** @param {SheetData} d */
export function assumptionsPart({ job }) {
  const assumed = job.assumed ?? [];
  if (!assumed.length) return part(say('assumptions'), el('p', {}, say('assumptions_none')));
  const rows = PARTS.flatMap((p) => {
    const n = assumed.filter((a) => a.startsWith(`/${p}/`)).length;
    return n ? [say('assumption_part', { part: say(`part_${p}`), n, of: Math.max(n, leaves(job[p])) })] : [];
  });
  return part(say('assumptions'), el('p', {}, say('assumptions_lead')), el('ul', {}, ...rows.map((r) => el('li', {}, r))));
}

/** Numbers and words that stand under a value. @param {unknown} value @returns {number} */
function leaves(value) {
  if (value === null || value === undefined) return 0;
  if (typeof value !== 'object') return 1;
  return Object.entries(value).reduce((sum, [key, v]) => sum + (key === 'id' || key === 'name' || key === 'typical' ? 0 : leaves(v)), 0);
}

/** @param {SheetData} d */
export function cautionsPart({ plan }) {
  const box = plan.boxes?.find((b) => !b.say);
  return el('section', { class: 'cautions keep' }, el('h2', {}, say('cautions')), el('ul', {},
    plan.hearing ? el('li', {}, plan.hearing) : null,
    box ? el('li', {}, `${say('caution_box')} ${box.restraint}`) : null, el('li', {}, say('caution_wiring'))));
}
