// The Q values with a cheap meter: the steps, five readings, and what follows.

import { el, setText } from '../dom.js';
import { formatHz, formatNumber } from '../format.js';
import { qByHand } from './by-hand.js';
import { NumberEntry } from './entry.js';
import { say } from './words.js';

/** @typedef {import('../job.js').Driver} Driver */

const STEPS = /** @type {const} */ (['hand_1', 'hand_2', 'hand_3', 'hand_4', 'hand_5', 'hand_6']);

export class HandPart {
  /** @param {{take: (driver: Driver) => void, inJob: () => Driver|undefined}} how */
  constructor(how) {
    this.how = how;
    const entry = (/** @type {Parameters<typeof say>[0]} */ label, /** @type {import('../units.js').QuantityName} */ quantity, /** @type {number} */ max) => new NumberEntry({ label: say(label), quantity, min: 0.05, max, optional: true, onChange: () => this.#show() });
    this.readings = [entry('hand_re', 'ohms', 100), entry('hand_fs', 'fine_hz', 500), entry('hand_zmax', 'ohms', 1000), entry('hand_f1', 'fine_hz', 500), entry('hand_f2', 'fine_hz', 1000)];
    this.said = el('output', { class: 'hand-result' });
    this.use = el('button', { type: 'button', class: 'go', hidden: true, onclick: () => this.#take() }, say('hand_take'));
    this.root = el('details', { class: 'group' }, el('summary', {}, say('hand_title')), el('p', { class: 'told' }, say('hand_lead')),
      el('ol', { class: 'steps-by-hand' }, ...STEPS.map((k) => el('li', {}, say(k)))),
      el('div', { class: 'two-columns' }, ...this.readings.map((e) => e.root)), this.said, el('p', { class: 'told' }, say('hand_formula')), this.use, el('p', { class: 'caution' }, say('hand_caution')));
  }

  /** Undefined until all readings are there, null where they do not go together. */
  #q() {
    const [re, fs, zmax, f1, f2] = this.readings.map((e) => e.value);
    return re && fs && zmax && f1 && f2 ? qByHand({ re, fs, zmax, f1, f2 }) : undefined;
  }

  #show() {
    const q = this.#q();
    this.use.hidden = !q;
    setText(this.said, q === undefined ? '' : q === null ? say('hand_wrong')
      : `${say('hand_result', { qms: formatNumber(q.qms, 2), qes: formatNumber(q.qes, 3), qts: formatNumber(q.qts, 3) })} ${say('hand_check', { hz: formatHz(q.middle) })}`);
  }

  #take() {
    const [re, fs] = this.readings.map((e) => e.value);
    const q = this.#q();
    const now = this.how.inJob();
    if (!q || !now) return;
    // What followed from the old values would contradict the new ones.
    this.how.take({ ...now, re_ohm: re, fs_hz: fs, qms: Number(q.qms.toPrecision(4)), qes: Number(q.qes.toPrecision(4)), qts: undefined, bl_tm: undefined, rms_kg_s: undefined, cms_mm_n: undefined });
  }
}
