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
  /** @param {string} key @param {Parameters<typeof say>[0]} label @param {import('../units.js').QuantityName} quantity */
  const value = (key, label, quantity) => numberField(store, {
    pointer: `${at}/${key}`, label: say(label), quantity, optional: true, derived: (m) => derived(m)?.[key],
  });
  return {
    main: [
      value('size_in', 'size', 'inches'),
      value('xmax_mm', 'xmax', 'fine_mm'),
      value('power_w', 'power', 'watts'),
    ],
    small: [
      value('fs_hz', 'fs', 'fine_hz'),
      value('qes', 'qes', 'plain'),
      value('qms', 'qms', 'plain'),
      value('qts', 'qts', 'plain'),
      value('vas_l', 'vas', 'litres'),
      value('sd_cm2', 'sd', 'cm2'),
      value('re_ohm', 're', 'ohms'),
      value('le_mh', 'le', 'millihenries'),
      value('bl_tm', 'bl', 'tesla_metres'),
      value('mms_g', 'mms', 'grams'),
    ],
    body: [
      value('depth_mm', 'driver_depth', 'mm'),
      value('volume_l', 'driver_volume', 'litres'),
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
      numberField(store, { pointer: `${at}/series`, label: say('series'), quantity: 'whole' }),
      numberField(store, { pointer: `${at}/parallel`, label: say('parallel'), quantity: 'whole' }),
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
