// Which of several subs the sheets are about; adding another, taking one away.

import { el } from '../dom.js';
import { say } from '../words.js';

/** @typedef {import('../job.js').Job} Job */
/** @typedef {import('../job.js').Sub} Sub */

/** As many as the document holds. */
const MOST = 8;
/** Room between two boxes side by side, mm. */
const BESIDE = 60;

/**
 * Another sub like one there is, standing beside it where the boot is wide
 * enough, else on the same spot for the reader to move.
 * @param {Job} job
 * @param {number} index
 * @returns {Sub}
 */
export function anotherSub(job, index) {
  const like = /** @type {Sub} */ (job.subs[index]);
  const taken = new Set(job.subs.map((s) => s.id));
  let n = job.subs.length + 1;
  while (taken.has(`sub${n}`)) n += 1;
  const step = (like.box.width_mm || 450) + BESIDE;
  const half = job.car.boot.width_mm / 2 - (like.box.width_mm || 450) / 2;
  const y = [like.place.y_mm + step, like.place.y_mm - step].find((v) => Math.abs(v) <= Math.max(half, 0) + 1);
  return { ...structuredClone(like), id: `sub${n}`, place: { ...like.place, y_mm: y ?? like.place.y_mm } };
}

/**
 * @param {import('../store.js').Store} store
 * @param {number} index the sub that is shown
 * @param {(index: number) => void} choose
 */
export function subPicker(store, index, choose) {
  const { job } = store;
  const many = job.subs.length > 1;
  return el('div', { class: 'sub-picker' },
    many ? el('div', { class: 'segments', role: 'group', 'aria-label': say('sub_which') }, ...job.subs.map((_, i) => el('button', {
      type: 'button', class: 'segment-button', 'aria-pressed': i === index ? 'true' : 'false', onclick: () => choose(i),
    }, say('sub_n', { n: i + 1 })))) : null,
    job.subs.length < MOST ? el('button', {
      type: 'button', class: 'quiet', onclick: () => {
        const next = store.job.subs.length;
        store.set('/subs/-', anotherSub(store.job, index), { label: say('sub_add') });
        choose(next);
      },
    }, say('sub_add')) : null,
    many ? el('button', {
      type: 'button', class: 'quiet', onclick: () => {
        store.set(`/subs/${index}`, undefined, { label: say('sub_remove') });
        choose(Math.max(0, index - 1));
      },
    }, say('sub_remove')) : null);
}
