// The number on the cabin's dimension line, which is itself the control.

import { el, setAttr, setText } from '../dom.js';
import { formatValue } from '../format.js';
import { parseQuantity } from '../parse.js';
import { getAt } from '../pointer.js';
import { unitOf } from '../units.js';
import { say } from '../words.js';
import { limitOf } from './limits.js';

/** @typedef {import('./model.js').Model} Model */

export class DimensionField {
  /** @param {import('../store.js').Store} store */
  constructor(store) {
    this.store = store;
    /** @type {Model|null} */
    this.model = null;
    this.input = el('input', { type: 'text', inputmode: 'decimal', class: 'dimension-entry', autocomplete: 'off', 'aria-label': `${say('part_cabin')}, ${say('cabin_length').toLowerCase()}` });
    this.unit = el('span', { class: 'unit', 'aria-hidden': 'true' });
    this.root = el('span', { class: 'dimension-number' }, this.input, this.unit);
    this.input.addEventListener('focus', () => this.input.select());
    this.input.addEventListener('change', () => this.#typed());
  }

  /** Pointer of the cabin's length: its own, or that of the last section. @param {Model} model */
  static pointer(model) {
    const { cabin } = model.job.car;
    return cabin.shape === 'stations' && cabin.stations?.length ? `/car/cabin/stations/${cabin.stations.length - 1}/x_mm` : '/car/cabin/length_mm';
  }

  /**
   * @param {Model} model
   * @param {number} x middle, px
   * @param {number} y px
   */
  place(model, x, y) {
    this.model = model;
    const pointer = DimensionField.pointer(model);
    if (document.activeElement !== this.input) this.input.value = formatValue(Number(getAt(model.job, pointer)), 'mm', model.system);
    this.input.style.setProperty('width', `${Math.max(3, this.input.value.length)}ch`);
    setText(this.unit, unitOf('mm', model.system).sign);
    this.root.classList.toggle('assumed-value', model.isAssumed(pointer));
    setAttr(this.root, 'title', model.isAssumed(pointer) ? say('assumed_help') : null);
    this.root.style.setProperty('transform', `translate(${Math.round(x)}px, ${Math.round(y)}px) translate(-50%, -50%)`);
  }

  #typed() {
    const { model } = this;
    if (!model) return;
    const pointer = DimensionField.pointer(model);
    const { min, max } = limitOf(pointer);
    const parsed = parseQuantity(this.input.value, 'mm', unitOf('mm', model.system), min, max);
    if (parsed.ok) this.store.set(pointer, parsed.value, { label: say('cabin_length') });
    this.input.value = formatValue(parsed.ok ? parsed.value : Number(getAt(model.job, pointer)), 'mm', model.system);
  }
}
