// A driver typed in by hand: its name and whatever its maker states.

import { el, freshId } from '../dom.js';
import { DRIVER_KEYS } from './driver-keys.js';
import { NumberEntry } from './entry.js';
import { say, sayOf } from './words.js';

/** @typedef {import('../job.js').Driver} Driver */

export class DriverForm {
  /**
   * @param {(driver: Driver) => void} onDone
   * @param {() => void} onCancel
   */
  constructor(onDone, onCancel) {
    const id = freshId('driver');
    this.name = el('input', { id, type: 'text', maxlength: 120, autocomplete: 'off' });
    this.entries = DRIVER_KEYS.map(([key, quantity, min, max]) => ({ key, entry: new NumberEntry({ label: sayOf('key', key), quantity, min, max, optional: true }) }));
    this.title = el('h3', { tabindex: -1 });
    /** What the form does not show stays as it was. @type {Driver} */
    this.before = { name: '' };
    this.root = el('div', { class: 'driver-form', hidden: true }, this.title, el('p', { class: 'told' }, say('edit_needs')),
      el('div', { class: 'field text' }, el('label', { for: id }, say('key_name')), el('span', { class: 'entry' }, this.name)),
      el('div', { class: 'two-columns' }, ...this.entries.map((e) => e.entry.root)),
      el('div', { class: 'tools' }, el('button', { type: 'button', onclick: () => { if (this.entries.every((e) => e.entry.ok)) onDone(this.#read()); } }, say('edit_done')), el('button', { type: 'button', onclick: onCancel }, say('edit_cancel'))));
  }

  /** @param {Driver} driver @param {string} title @param {import('../units.js').System} system */
  show(driver, title, system) {
    this.before = driver;
    this.title.textContent = title;
    this.name.value = driver.name;
    for (const { key, entry } of this.entries) {
      const v = /** @type {Record<string, any>} */ (driver)[key];
      entry.show(typeof v === 'number' && v > 0 ? v : undefined, system);
    }
    this.root.hidden = false;
    this.title.focus();
  }

  /** @returns {Driver} */
  #read() {
    /** @type {Record<string, any>} */
    const out = { ...this.before, name: this.name.value.trim() || say('edit_new') };
    delete out.typical;
    for (const { key, entry } of this.entries) {
      if (entry.value === undefined) delete out[key];
      else out[key] = key === 'coils' ? Math.round(entry.value) : entry.value;
    }
    return /** @type {Driver} */ (out);
  }
}
