// Small things that several groups of the box's sheet need.

import { el, setText } from '../dom.js';

/**
 * @typedef {import('../views/model.js').Model} Model
 * @typedef {import('../views/fields.js').Field} Field
 */

/**
 * What the section of a box needs to know.
 * @param {Model} model
 * @param {number} index
 * @returns {import('./box-geometry.js').SectionInput|null}
 */
export function sectionInput(model, index) {
  const sub = model.job.subs[index];
  if (!sub) return null;
  const lengths = model.stale ? undefined : model.subDerived(index)?.port_length_mm;
  return { box: sub.box, driver: sub.driver, drivers: sub.series * sub.parallel, place: sub.place, boot: model.job.car.boot, portLengths: lengths };
}

/** @param {string} words @returns {Field} */
export function told(words) {
  return { root: el('p', { class: 'told', hidden: words === '' }, words), update() {} };
}

/** A sentence that shows while there is something wrong. @param {(m: Model) => string} read @returns {Field} */
export function warning(read) {
  const text = el('p', { class: 'warning' });
  const root = el('div', { class: 'notes', hidden: true }, text);
  return {
    root,
    update(m) {
      const words = read(m);
      root.hidden = words === '';
      setText(text, words);
    },
  };
}
