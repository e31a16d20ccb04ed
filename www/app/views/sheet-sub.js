// The sub: what its data sheet states, and how many are wired how.

import { formatNumber, formatWithUnit } from '../format.js';
import { say } from '../words.js';
import { factField, group, numberField, textField } from './fields.js';

/** @typedef {import('./model.js').Model} Model */
/** @typedef {import('../store.js').Store} Store */

/**
 * The small-signal values of any driver. What the engine derives is shown
 * where the data sheet states nothing.
 * @param {Store} store
 * @param {string} at pointer of the driver
 * @param {(m: Model) => Record<string, number>|undefined} derived
 */
export function driverFields(store, at, derived) {
  /** @param {string} key @param {Parameters<typeof say>[0]} label @param {import('../units.js').QuantityName} quantity @param {number} min @param {number} max */
  const value = (key, label, quantity, min, max) => numberField(store, {
    pointer: `${at}/${key}`, label: say(label), quantity, min, max, optional: true, derived: (m) => derived(m)?.[key],
  });
  return {
    main: [
      value('size_in', 'size', 'inches', 2, 36),
      value('xmax_mm', 'xmax', 'fine_mm', 0.3, 100),
      value('power_w', 'power', 'watts', 1, 20000),
    ],
    small: [
      value('fs_hz', 'fs', 'fine_hz', 5, 500),
      value('qes', 'qes', 'plain', 0.05, 10),
      value('qms', 'qms', 'plain', 0.3, 50),
      value('qts', 'qts', 'plain', 0.05, 10),
      value('vas_l', 'vas', 'litres', 0.1, 2000),
      value('sd_cm2', 'sd', 'cm2', 5, 5000),
      value('re_ohm', 're', 'ohms', 0.1, 100),
      value('le_mh', 'le', 'millihenries', 0, 50),
      value('bl_tm', 'bl', 'tesla_metres', 0.3, 150),
      value('mms_g', 'mms', 'grams', 0.5, 3000),
    ],
    body: [
      value('depth_mm', 'driver_depth', 'mm', 10, 700),
      value('volume_l', 'driver_volume', 'litres', 0, 50),
    ],
  };
}

/**
 * @param {Store} store
 * @param {Model} _model
 * @param {number} index
 * @returns {import('./fields.js').Field[]}
 */
export function subSheet(store, _model, index) {
  const at = `/subs/${index}`;
  const driver = driverFields(store, `${at}/driver`, (m) => m.driverDerived(index));
  return [
    group('', [
      textField(store, { pointer: `${at}/driver/name`, label: say('driver_name'), longest: 120 }),
      factField('', (m) => (m.job.subs[index]?.driver.typical ? say('typical') : '')),
      ...driver.main,
      numberField(store, { pointer: `${at}/series`, label: say('series'), quantity: 'whole', min: 1, max: 16, whole: true }),
      numberField(store, { pointer: `${at}/parallel`, label: say('parallel'), quantity: 'whole', min: 1, max: 16, whole: true }),
      factField(say('load_min'), (m) => { const v = m.subDerived(index)?.load_min_ohm; return v ? formatWithUnit(v, 'ohms', m.system) : ''; }),
    ]),
    group(say('stated'), driver.small),
    group(say('more'), driver.body, { folded: true }),
  ];
}

/**
 * @param {Model} model
 * @param {number} index
 */
export function subInBrief(model, index) {
  const sub = model.job.subs[index];
  if (!sub) return '';
  const count = sub.series * sub.parallel;
  const size = sub.driver.size_in ? `${formatNumber(sub.driver.size_in, 1)} in` : sub.driver.name;
  return count > 1 ? `${count} × ${size}` : size;
}
