// The box as the drawing needs it: its size, its changes of volume, its name.
// Its sheet is that of the workshop.

import { boxSize } from '../car-box.js';
import { formatWithUnit } from '../format.js';
import { sayOf } from '../words.js';
import { airLitres } from '../workshop/box-geometry.js';

/** @typedef {import('./model.js').Model} Model */

/**
 * What the drawing's geometry needs to know of one sub.
 * @param {Model} model
 * @param {number} index
 * @returns {import('../car-box.js').BoxInput|null}
 */
export function boxInput(model, index) {
  const sub = model.job.subs[index];
  if (!sub) return null;
  // A line holds what its pieces hold.
  const box = sub.box.type === 'line' ? { ...sub.box, net_l: airLitres(sub.box) } : sub.box;
  return {
    box, driver: sub.driver, drivers: sub.series * sub.parallel, place: sub.place,
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
 * The box in few words, for its label on the drawing.
 * @param {Model} model
 * @param {number} index
 * @param {boolean} [narrow] in fewer words
 */
export function boxInBrief(model, index, narrow = false) {
  const sub = model.job.subs[index];
  if (!sub) return '';
  // The drawing has room for the family, not for the order.
  const family = sub.box.type.startsWith('bandpass') ? 'bandpass4' : sub.box.type;
  const type = sayOf('box_brief', family);
  if (sub.box.type === 'infinite_baffle') return type;
  const air = airLitres(sub.box);
  const litres = formatWithUnit(sub.box.type === 'line' ? Math.round(air) : air, 'litres', model.system);
  return narrow ? litres : `${type} ${litres}`;
}
