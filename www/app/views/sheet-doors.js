// The door speakers that the sub must join.

import { formatNumber } from '../format.js';
import { say } from '../words.js';
import { choiceField, group, numberField, textField } from './fields.js';
import { driverFields } from './sheet-sub.js';

/** @typedef {import('./model.js').Model} Model */

/**
 * @param {import('../store.js').Store} store
 * @returns {import('./fields.js').Field[]}
 */
export function doorsSheet(store) {
  const driver = driverFields(store, '/doors/driver', () => undefined);
  const fitted = (/** @type {Model} */ m) => m.job.doors.fitted;
  return [
    group('', [
      choiceField(store, { pointer: '/doors/fitted', label: say('doors_fitted'), choices: [[true, say('fitted')], [false, say('none')]] }),
    ]),
    group('', [
      textField(store, { pointer: '/doors/driver/name', label: say('driver_name'), longest: 120 }),
      ...driver.main,
      numberField(store, { pointer: '/doors/volume_l', label: say('door_volume'), quantity: 'litres' }),
      numberField(store, { pointer: '/doors/leak_cm2', label: say('door_leak'), quantity: 'cm2', slide: [0, 300] }),
    ], { when: fitted }),
    group(say('stated'), driver.small, { folded: true, when: fitted }),
    group(say('door_place'), [
      numberField(store, { pointer: '/doors/place/x_mm', label: say('place_x'), quantity: 'mm' }),
      numberField(store, { pointer: '/doors/place/z_mm', label: say('place_z'), quantity: 'mm' }),
    ], { folded: true, when: fitted }),
  ];
}

/** @param {Model} model */
export function doorsInBrief(model) {
  const { doors } = model.job;
  if (!doors.fitted) return say('none');
  return doors.driver.size_in ? `${formatNumber(doors.driver.size_in, 1)} in` : doors.driver.name;
}
