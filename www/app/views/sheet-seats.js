// The seats: who is on board, where the ears are, what is wished for.

import { say, sayOf } from '../words.js';
import { choiceField, group, numberField } from './fields.js';

/** @typedef {import('./model.js').Model} Model */

/**
 * @param {import('../store.js').Store} store
 * @param {Model} model
 * @returns {import('./fields.js').Field[]}
 */
export function seatsSheet(store, model) {
  const seats = model.job.car.seats;
  return [
    group(say('aim'), [
      choiceField(store, { pointer: '/aim/seat', label: say('seat_counts'), list: true, choices: seats.map((s) => [s.id, sayOf('seat', s.id)]) }),
      numberField(store, { pointer: '/aim/lowest_hz', label: say('aim_lowest'), quantity: 'hz', slide: [16, 80], log: true }),
      numberField(store, { pointer: '/aim/level_db', label: say('aim_level'), quantity: 'decibels', slide: [80, 135] }),
    ], { note: say('caution_hearing') }),
    group(say('on_board'), seats.map((s, i) => choiceField(store, {
      pointer: `/car/seats/${i}/occupied`, label: sayOf('seat', s.id), choices: [[true, say('occupied')], [false, say('empty')]],
    }))),
    ...seats.map((s, i) => group(sayOf('seat', s.id), [
      numberField(store, { pointer: `/car/seats/${i}/x_mm`, label: say('seat_x'), quantity: 'mm' }),
      numberField(store, { pointer: `/car/seats/${i}/z_mm`, label: say('seat_z'), quantity: 'mm' }),
      numberField(store, { pointer: `/car/seats/${i}/y_mm`, label: say('seat_y'), quantity: 'mm' }),
    ], { folded: true })),
  ];
}

/** @param {Model} model @param {boolean} [narrow] in fewer words */
export function seatsInBrief(model, narrow = false) {
  return sayOf(narrow ? 'seat_short' : 'seat', model.seat);
}
