// What can stand open, and what it is in numbers: area and place from the car's
// own shape. The sizes of first guess are common practice, no source.

import { lengthOf, sectionAt, stationsOf } from './shape.js';

/** @typedef {import('../job.js').Opening} Opening */
/** @typedef {import('../job.js').Car} Car */

/** A hand's width down, mm, over the length of pane that goes down. */
export const HAND_MM = 100;
const PANE_MM = 700;
const SUNROOF_CM2 = 1500;

/** Each kind the page offers; right and left as seen facing forward. @typedef {'window_right'|'window_left'|'sunroof'|'tailgate'|'roof_off'} OpeningChoice */

/** @type {OpeningChoice[]} */
export const OPENING_CHOICES = ['window_right', 'window_left', 'sunroof', 'tailgate', 'roof_off'];

/** @param {Opening} o @returns {OpeningChoice} */
export function choiceOf(o) {
  if (o.kind === 'window') return o.y_mm < 0 ? 'window_left' : 'window_right';
  return /** @type {OpeningChoice} */ (o.kind);
}

/**
 * The opening as it would stand in this car.
 * @param {Car} car
 * @param {OpeningChoice} choice
 * @returns {Opening}
 */
export function openingFor(car, choice) {
  const stations = stationsOf(car.cabin);
  const end = lengthOf(car.cabin);
  const wheel = car.seats.find((s) => s.id === 'wheel') ?? car.seats[0];
  const x = Math.min(end, Math.max(0, wheel?.x_mm ?? end / 2));
  const here = sectionAt(stations, x);
  const whole = (/** @type {Opening} */ o) => ({ ...o, area_cm2: Math.round(o.area_cm2), x_mm: Math.round(o.x_mm), y_mm: Math.round(o.y_mm), z_mm: Math.round(o.z_mm) });
  switch (choice) {
    case 'window_right':
    case 'window_left': {
      const side = choice === 'window_left' ? -1 : 1;
      return whole({ kind: 'window', area_cm2: HAND_MM * PANE_MM / 100, x_mm: x, y_mm: side * here.width_mm / 2, z_mm: here.floor_mm + (here.roof_mm - here.floor_mm) * 0.85 });
    }
    case 'sunroof':
      return whole({ kind: 'sunroof', area_cm2: SUNROOF_CM2, x_mm: x, y_mm: 0, z_mm: here.roof_mm });
    case 'tailgate': {
      const tail = sectionAt(stations, end);
      const { opening_width_mm: w, opening_height_mm: h } = car.boot;
      const across = Math.min(w || tail.width_mm, tail.width_mm);
      const up = Math.min(h || Infinity, tail.roof_mm - tail.floor_mm);
      return whole({ kind: 'tailgate', area_cm2: Math.max(100, across * up / 100), x_mm: end, y_mm: 0, z_mm: (tail.floor_mm + tail.roof_mm) / 2 });
    }
    default: {
      const mid = sectionAt(stations, end / 2);
      return whole({ kind: 'roof_off', area_cm2: Math.min(60000, Math.max(1000, end * mid.width_mm * 0.6 / 100)), x_mm: end / 2, y_mm: 0, z_mm: mid.roof_mm });
    }
  }
}
