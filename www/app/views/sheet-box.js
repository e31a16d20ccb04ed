// The box: type, volume, port, outside size, where it stands.

import { boxSize } from '../car-box.js';
import { formatHz, formatNumber, formatValue, formatWithUnit } from '../format.js';
import { say } from '../words.js';
import { choiceField, factField, group, numberField, onlyWhen } from './fields.js';

/** @typedef {import('./model.js').Model} Model */
/** @typedef {import('../store.js').Store} Store */

/** Types offered; another one that a job holds is shown beside them. */
const TYPES = ['sealed', 'vented', 'infinite_baffle'];

/**
 * What the drawing's geometry needs to know of one sub.
 * @param {Model} model
 * @param {number} index
 * @returns {import('../car-box.js').BoxInput|null}
 */
export function boxInput(model, index) {
  const sub = model.job.subs[index];
  if (!sub) return null;
  return {
    box: sub.box, driver: sub.driver, drivers: sub.series * sub.parallel, place: sub.place,
    boot: model.job.car.boot, portLengthMM: model.subDerived(index)?.port_length_mm?.[0],
  };
}

/**
 * The changes that give a box another net volume and the outside height that
 * goes with it.
 * @param {Model} model
 * @param {number} index
 * @param {number} litres
 * @returns {[string, any][]}
 */
export function netVolumeChanges(model, index, litres) {
  const at = `/subs/${index}/box`;
  const input = boxInput(model, index);
  /** @type {[string, any][]} */
  const changes = [[`${at}/net_l`, litres]];
  if (input && input.box.height_mm > 0) {
    changes.push([`${at}/height_mm`, Math.round(boxSize({ ...input, box: { ...input.box, net_l: litres } }).height)]);
  }
  return changes;
}

/**
 * A port to begin with: area about a tenth of the cone's, tuned to 35 Hz.
 * Common practice, no source.
 * @param {Model} model
 * @param {number} index
 */
function firstPort(model, index) {
  const area = model.job.subs[index]?.driver.sd_cm2 ?? 330;
  return { shape: 'round', count: 1, diameter_mm: Math.round(Math.sqrt(area * 10 * 4 / Math.PI * 2) / 5) * 5, tuning_hz: 35, ends: 'flanged_free', qp: 0 };
}

/**
 * @param {Store} store
 * @param {Model} model
 * @param {number} index
 * @returns {import('./fields.js').Field[]}
 */
export function boxSheet(store, model, index) {
  const at = `/subs/${index}/box`;
  const place = `/subs/${index}/place`;
  const type = (/** @type {Model} */ m) => m.job.subs[index]?.box.type ?? '';
  const vented = (/** @type {Model} */ m) => type(m) === 'vented';
  const round = (/** @type {Model} */ m) => m.job.subs[index]?.box.port?.shape === 'round';
  const now = type(model);
  const types = TYPES.includes(now) ? TYPES : [...TYPES, now];
  const alsoHeight = (/** @type {string} */ key) => (/** @type {number} */ value, /** @type {Model} */ m) => {
    const input = boxInput(m, index);
    return /** @type {[string, any][]} */ (input && input.box.height_mm > 0
      ? [[`${at}/height_mm`, Math.round(boxSize({ ...input, box: { ...input.box, [key]: value } }).height)]] : []);
  };

  return [
    group('', [
      choiceField(store, {
        pointer: `${at}/type`, label: say('box_type'),
        choices: types.map((t) => [t, say(/** @type {any} */ (`box_${t}`))]),
        change: (value, m) => {
          /** @type {[string, any][]} */
          const changes = [[`${at}/type`, value]];
          if (value === 'vented' && !m.job.subs[index]?.box.port) changes.push([`${at}/port`, firstPort(m, index)]);
          if (value === 'vented' && !m.job.subs[index]?.box.ql) changes.push([`${at}/ql`, 7]);
          return changes;
        },
      }),
      onlyWhen(numberField(store, {
        pointer: `${at}/net_l`, label: say('net_volume'), quantity: 'litres', slide: [5, 150], log: true,
        also: (value, m) => netVolumeChanges(m, index, value).slice(1),
      }), (m) => type(m) !== 'infinite_baffle'),
      onlyWhen(numberField(store, { pointer: `${at}/port/tuning_hz`, label: say('tuning'), quantity: 'fine_hz', slide: [18, 70], log: true }), vented),
      factField(say('resonance'), (m) => { const d = m.subDerived(index); return d?.system_hz ? formatHz(d.system_hz) : ''; }),
      factField(say('q_total'), (m) => { const d = m.subDerived(index); return d?.qtc ? formatNumber(d.qtc, 2) : ''; }),
    ]),
    group(say('port_shape'), [
      choiceField(store, {
        pointer: `${at}/port/shape`, label: say('shape'), choices: [['round', say('port_round')], ['slot', say('port_slot')]],
        change: (value, m) => {
          const port = m.job.subs[index]?.box.port;
          const d = port?.diameter_mm || 100;
          return [[`${at}/port`, { ...port, shape: value, diameter_mm: d, width_mm: port?.width_mm || Math.round(d * 2.4), height_mm: port?.height_mm || Math.round(d / 3) }]];
        },
      }),
      onlyWhen(numberField(store, { pointer: `${at}/port/diameter_mm`, label: say('port_diameter'), quantity: 'wood_mm', slide: [40, 250] }), round),
      onlyWhen(numberField(store, { pointer: `${at}/port/width_mm`, label: say('port_width'), quantity: 'wood_mm' }), (m) => !round(m)),
      onlyWhen(numberField(store, { pointer: `${at}/port/height_mm`, label: say('port_height'), quantity: 'wood_mm' }), (m) => !round(m)),
      numberField(store, { pointer: `${at}/port/count`, label: say('port_count'), quantity: 'whole' }),
      factField(say('port_length'), (m) => {
        const mm = m.subDerived(index)?.port_length_mm?.[0];
        return mm ? `${formatWithUnit(mm, 'mm', m.system)}, ${say('port_computed')}` : '';
      }),
    ], { when: vented }),
    group(say('outside'), [
      factField(say('outside_whd'), (m) => {
        const input = boxInput(m, index);
        if (!input) return '';
        const s = boxSize(input);
        const [w, h, d] = [formatValue(s.width, 'wood_mm', m.system), formatValue(s.height, 'wood_mm', m.system), formatWithUnit(s.depth, 'wood_mm', m.system)];
        return say('outside_value', { w, h, d });
      }),
      numberField(store, { pointer: `${at}/width_mm`, label: say('box_width'), quantity: 'wood_mm', also: alsoHeight('width_mm') }),
      numberField(store, { pointer: `${at}/depth_mm`, label: say('box_depth'), quantity: 'wood_mm', also: alsoHeight('depth_mm') }),
      numberField(store, { pointer: `${at}/panel_mm`, label: say('panel'), quantity: 'wood_mm', also: alsoHeight('panel_mm') }),
    ], { when: (m) => type(m) !== 'infinite_baffle' }),
    group(say('more'), [
      choiceField(store, { pointer: `${place}/fires`, label: say('fires'), list: true, choices: ['rear', 'up', 'front', 'down', 'left', 'right'].map((f) => [f, say(/** @type {any} */ (`fires_${f}`))]) }),
      numberField(store, { pointer: `${place}/x_mm`, label: say('place_x'), quantity: 'mm' }),
      numberField(store, { pointer: `${place}/y_mm`, label: say('place_y'), quantity: 'mm' }),
      numberField(store, { pointer: `${place}/z_mm`, label: say('place_z'), quantity: 'mm' }),
      choiceField(store, { pointer: `${at}/lining`, label: say('lining'), list: true, choices: liningChoices(model, index) }),
      numberField(store, { pointer: `${at}/ql`, label: say('box_ql'), quantity: 'plain' }),
    ], { folded: true }),
    group('', [], { note: say('caution_box') }),
  ];
}

/**
 * The usual linings, and the one of the job where it is another.
 * @param {Model} model
 * @param {number} index
 * @returns {[number, string][]}
 */
function liningChoices(model, index) {
  /** @type {[number, string][]} */
  const usual = [[0, say('lining_none')], [0.3, say('lining_some')], [0.7, say('lining_full')]];
  const own = model.job.subs[index]?.box.lining ?? 0;
  return usual.some(([v]) => v === own) ? usual : [...usual, [own, formatNumber(own, 2)]];
}

/**
 * The box in few words, for its label on the drawing.
 * @param {Model} model
 * @param {number} index
 * @param {boolean} [narrow] in fewer words
 */
export function boxInBrief(model, index, narrow = false) {
  const sub = model.job.subs[index];
  if (!sub) return '';
  const type = say(/** @type {any} */ (`box_${sub.box.type}`));
  if (sub.box.type === 'infinite_baffle') return type;
  const litres = formatWithUnit(sub.box.net_l, 'litres', model.system);
  return narrow ? litres : `${type} ${litres}`;
}

