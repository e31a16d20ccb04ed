// The boot: part of the cabin or a room of its own, and what joins the two.

import { choiceField, group, numberField, onlyWhen } from '../views/fields.js';
import { say as sayShared } from '../words.js';
import { say, sayOf } from './words.js';

/** @typedef {import('../store.js').Store} Store */
/** @typedef {import('../views/fields.js').Field} Field */

/** Free area into the cabin, cm², and mass of the seat back, kg/m². Common practice, no source. */
const HATCH = [0, 300, 600, 1500];
const SEAT_BACK = [6, 12, 20];

/** @param {Store} store @returns {Field[]} */
export function bootFields(store) {
  const mm = (/** @type {string} */ key, /** @type {string} */ label) => numberField(store, { pointer: `/car/boot/${key}`, label, within: say('boot'), quantity: 'mm' });
  const separate = (/** @type {import('../views/model.js').Model} */ m) => m.job.car.boot.separate;
  const own = (/** @type {Field} */ f) => onlyWhen(f, separate);
  return [
    group(say('boot'), [
      choiceField(store, {
        pointer: '/car/boot/separate', label: say('boot_kind'), choices: [[false, say('boot_joined')], [true, say('boot_separate')]],
        // A boot that becomes a room needs a way in for the sound.
        change: (value, m) => [['/car/boot/separate', value], ...(value && !m.job.car.boot.hatch_cm2 ? [/** @type {[string, any]} */ (['/car/boot/hatch_cm2', 300])] : []),
          ...(value && !m.job.car.boot.seat_back_kg_m2 ? [/** @type {[string, any]} */ (['/car/boot/seat_back_kg_m2', 12])] : [])],
      }),
      own(choiceField(store, { pointer: '/car/boot/seats_folded', label: say('folded'), choices: [[false, say('folded_no')], [true, say('folded_yes')]], read: (m) => m.job.car.boot.seats_folded ?? false })),
      own(choiceField(store, { pointer: '/car/boot/hatch_cm2', label: say('hatch'), choices: HATCH.map((v) => [v, sayOf('hatch', v)]), read: (m) => m.job.car.boot.hatch_cm2 ?? 0 })),
      own(numberField(store, { pointer: '/car/boot/hatch_cm2', label: say('hatch_area'), within: say('boot'), quantity: 'cm2', slide: [0, 3000] })),
      own(choiceField(store, { pointer: '/car/boot/seat_back_kg_m2', label: say('seat_back'), choices: SEAT_BACK.map((v) => [v, sayOf('seat_back', v)]) })),
      own(numberField(store, { pointer: '/car/boot/seat_back_kg_m2', label: `${say('seat_back_mass')}, ${say('kg_m2')}`, within: say('seat_back'), quantity: 'plain', slide: [2, 40], log: true })),
    ]),
    group(say('boot_size'), [
      mm('x_mm', sayShared('boot_x')), mm('length_mm', sayShared('boot_length')), mm('width_mm', sayShared('boot_width')),
      mm('height_mm', sayShared('boot_height')), mm('floor_mm', sayShared('boot_floor')),
      numberField(store, { pointer: '/car/boot/seat_slope_deg', label: sayShared('boot_slope'), quantity: 'degrees' }),
    ], { folded: true }),
  ];
}
