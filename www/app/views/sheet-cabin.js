// The cabin in brief, and where its sheet is made.

import { formatWithUnit } from '../format.js';
import { sayOf } from '../words.js';

export { carSheet as cabinSheet } from '../cabin/sheet.js';

/** @typedef {import('./model.js').Model} Model */

/** @param {Model} model */
export function cabinInBrief(model) {
  const v = model.reply?.derived?.cabin?.volume_m3;
  return v ? formatWithUnit(v, 'air_m3', model.system) : sayOf('body', model.job.car.body);
}
