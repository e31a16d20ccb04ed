// Wiring: how many drivers with which coils, every even way to join them with
// its load, and the choice of one by touching it.

import { el, setText } from '../dom.js';
import { formatWithUnit } from '../format.js';
import { NumberEntry } from './entry.js';
import { wiringPicture } from './wiring-picture.js';
import { rewired, statedCoils, wirings } from './wirings.js';
import { say } from './words.js';

/**
 * @typedef {import('../views/model.js').Model} Model
 * @typedef {import('./wirings.js').Wiring} Wiring
 */

export class WiringPart {
  /** @param {import('../store.js').Store} store */
  constructor(store) {
    this.store = store;
    this.index = 0;
    /** @type {Model|null} */
    this.model = null;
    const at = () => `/subs/${this.index}`;
    this.count = new NumberEntry({
      label: say('wiring_count'), quantity: 'whole', min: 1, max: 8,
      onChange: (v) => { store.setAll([[`${at()}/series`, 1], [`${at()}/parallel`, Math.round(v ?? 1)]], { label: say('wiring_count') }); },
    });
    this.coils = new NumberEntry({ label: say('wiring_coils'), quantity: 'whole', min: 1, max: 4, onChange: (v) => { store.set(`${at()}/driver/coils`, Math.round(v ?? 1), { label: say('wiring_coils') }); } });
    this.ohm = new NumberEntry({ label: say('wiring_coil'), quantity: 'ohms', min: 0.3, max: 64, optional: true, onChange: (v) => { store.set(`${at()}/driver/coil_ohm`, v, { label: say('wiring_coil') }); } });
    this.list = el('div', { class: 'wirings', role: 'group', 'aria-label': say('tab_wiring') });
    this.said = el('p', { class: 'told', role: 'status' });
    this.root = el('div', {}, el('p', { class: 'told' }, say('wiring_lead')), this.count.root, this.coils.root, this.ohm.root, this.said, this.list);
    this.made = '';
  }

  /** @param {Model} model @param {number} index */
  update(model, index) {
    this.model = model;
    this.index = index;
    const sub = model.job.subs[index];
    if (!sub) return;
    const { system } = model;
    const drivers = sub.series * sub.parallel;
    const coils = Math.max(1, sub.driver.coils ?? 1);
    this.count.show(drivers, system);
    this.coils.show(coils, system);
    this.ohm.show(sub.driver.coil_ohm ?? undefined, system);
    const ohm = sub.driver.coil_ohm ?? 0;
    const stated = statedCoils(sub.driver);
    const least = sub.channel.amplifier.min_ohm;
    const load = model.subDerived(index)?.load_min_ohm;
    const re = formatWithUnit(sub.driver.re_ohm ?? 0, 'ohms', system);
    setText(this.said, !(ohm > 0) ? say('wiring_unknown') : stated === undefined ? say('wiring_unclear', { re }) : load ? say(coils > 1 ? 'wiring_stated' : 'wiring_met', {
      re, how: coilWords(coils, stated), load: formatWithUnit(load, 'ohms', system),
    }) : '');
    const key = JSON.stringify([drivers, coils, ohm, stated, sub.series, least, system]);
    if (key === this.made) return;
    this.made = key;
    const focused = document.activeElement instanceof HTMLElement && this.list.contains(document.activeElement) ? document.activeElement.dataset.way : undefined;
    this.list.replaceChildren(...(ohm > 0 ? wirings(drivers, coils, ohm) : []).map((w) => {
      const now = w.series === sub.series && (coils === 1 || w.coilSeries === stated);
      const words = wiringWords(w, drivers, coils);
      const nominal = say('wiring_load', { ohm: formatWithUnit(w.ohm, 'ohms', system) });
      const low = least > 0 && w.ohm < least * 0.99 ? say('wiring_low', { min: formatWithUnit(least, 'ohms', system) }) : '';
      return el('button', { type: 'button', class: low ? 'wiring low' : 'wiring', 'aria-pressed': now ? 'true' : 'false', 'data-way': `${w.coilSeries}/${w.series}`, onclick: () => this.#take(w, words) },
        wiringPicture(w, say('wiring_picture', { say: words })), el('b', {}, nominal), el('span', {}, [words, low, now ? say('wiring_now') : ''].filter(Boolean).join(', ')));
    }));
    for (const b of this.list.children) if (b instanceof HTMLElement && b.dataset.way === focused) b.focus();
  }

  /** @param {Wiring} w @param {string} words */
  #take(w, words) {
    const sub = this.store.job.subs[this.index];
    if (!sub) return;
    const at = `/subs/${this.index}`;
    const from = statedCoils(sub.driver);
    const driver = from === undefined ? sub.driver : rewired(sub.driver, from, w.coilSeries);
    this.store.setAll([[`${at}/series`, w.series], [`${at}/parallel`, w.parallel], ...(driver === sub.driver ? [] : [/** @type {[string, any]} */ ([`${at}/driver`, driver])])], { label: say('wiring_taken', { say: words }) });
  }
}

/** @param {number} coils @param {number} series */
function coilWords(coils, series) {
  if (series === coils) return say('wiring_coils_series');
  return series === 1 ? say('wiring_coils_parallel') : say('wiring_coils_mixed', { p: coils / series, s: series });
}

/** @param {Wiring} w @param {number} drivers @param {number} coils */
export function wiringWords(w, drivers, coils) {
  const said = [];
  if (coils > 1) said.push(coilWords(coils, w.coilSeries));
  if (drivers === 1) said.push(say('wiring_one'));
  else if (w.parallel === 1) said.push(say('wiring_series'));
  else said.push(w.series === 1 ? say('wiring_parallel') : say('wiring_mixed', { p: w.parallel, s: w.series }));
  return said.join(', ');
}
