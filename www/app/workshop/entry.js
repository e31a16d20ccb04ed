// A number that belongs to a question and not to the job: a bound, a reading,
// a count. It looks and reads like the fields of a sheet.

import { el, freshId, setAttr, setText } from '../dom.js';
import { formatValue, formatWithUnit } from '../format.js';
import { parseQuantity } from '../parse.js';
import { unitOf } from '../units.js';
import { say } from './words.js';

/**
 * @typedef {object} EntryOptions
 * @property {string} label
 * @property {import('../units.js').QuantityName} quantity
 * @property {number} min in the document's unit
 * @property {number} max
 * @property {number} [value]
 * @property {boolean} [optional] may be left empty
 * @property {string} [hint] shown while it is empty
 * @property {(value: number|undefined) => string|void} [onChange] what it returns is shown as a complaint
 */

export class NumberEntry {
  /** @param {EntryOptions} options */
  constructor(options) {
    this.options = options;
    /** @type {number|undefined} */
    this.value = options.value;
    /** @type {import('../units.js').System} */
    this.system = 'metric';
    this.said = '';
    const id = freshId('entry');
    this.input = el('input', { id, type: 'text', inputmode: 'decimal', autocomplete: 'off', spellcheck: 'false', placeholder: options.hint, 'aria-describedby': `${id}-note` });
    this.unit = el('span', { class: 'unit', 'aria-hidden': 'true' });
    this.note = el('p', { class: 'error' });
    this.notes = el('div', { class: 'notes', id: `${id}-note`, hidden: true }, this.note);
    this.root = el('div', { class: 'field number' }, el('label', { for: id }, options.label), el('span', { class: 'entry' }, this.input, this.unit), this.notes);
    this.input.addEventListener('focus', () => this.input.select());
    this.input.addEventListener('change', () => this.#typed());
    this.show(this.value, this.system);
  }

  /** Whether what stands in it can be used. */
  get ok() {
    return this.said === '';
  }

  /** @param {number|undefined} value @param {import('../units.js').System} system */
  show(value, system) {
    this.system = system;
    this.value = value;
    const u = unitOf(this.options.quantity, system);
    setText(this.unit, u.sign);
    setAttr(this.input, 'aria-label', u.spoken ? `${this.options.label}, ${u.spoken}` : this.options.label);
    if (document.activeElement !== this.input && this.ok) this.input.value = value === undefined ? '' : formatValue(value, this.options.quantity, system);
  }

  #typed() {
    const { label, quantity, min, max, optional, onChange } = this.options;
    const u = unitOf(quantity, this.system);
    const parsed = parseQuantity(this.input.value, quantity, u, min, max);
    if (parsed.ok || (parsed.why === 'empty' && optional)) {
      this.value = parsed.ok ? parsed.value : undefined;
      this.#complain(onChange?.(this.value) || '');
      return;
    }
    const range = { label, min: formatWithUnit(min, quantity, this.system), max: formatWithUnit(max, quantity, this.system) };
    this.#complain({
      empty: () => say('bad_empty', range),
      not_a_number: () => say('bad_number', { text: this.input.value, example: formatValue(min, quantity, this.system) }),
      unknown_unit: () => say('bad_unit', { text: this.input.value, unit: u.spoken || u.sign }),
      too_small: () => say('bad_range', range),
      too_large: () => say('bad_range', range),
    }[/** @type {Exclude<typeof parsed, {ok: true}>} */ (parsed).why]());
  }

  /** @param {string} words */
  #complain(words) {
    this.said = words;
    setText(this.note, words);
    this.notes.hidden = words === '';
    setAttr(this.input, 'aria-invalid', words ? 'true' : null);
  }
}

/**
 * One of a few, side by side or as a list.
 * @template {string|number|boolean} V
 * @param {{label: string, choices: [V, string][], value: V, list?: boolean, onChange: (value: V) => void}} o
 */
export function choice({ label, choices, value, list, onChange }) {
  const name = freshId('pick');
  if (list) {
    const select = el('select', { id: name, onchange: () => { const c = choices[select.selectedIndex]; if (c) onChange(c[0]); } }, ...choices.map(([, words]) => el('option', {}, words)));
    select.selectedIndex = choices.findIndex(([v]) => v === value);
    return el('div', { class: 'field pick' }, el('label', { for: name }, label), el('span', { class: 'entry' }, select));
  }
  return el('div', { class: choices.length > 2 ? 'field pick wide-pick' : 'field pick', role: 'radiogroup', 'aria-label': label }, el('span', {}, label),
    el('div', { class: 'segments' }, ...choices.map(([v, words]) => el('label', { class: 'segment' }, el('input', { type: 'radio', name, checked: v === value, onchange: () => onChange(v) }), el('span', {}, words)))));
}

/**
 * A tick box.
 * @param {{label: string, checked: boolean, onChange: (checked: boolean) => void}} o
 */
export function tick({ label, checked, onChange }) {
  const input = el('input', { type: 'checkbox', checked, onchange: () => onChange(input.checked) });
  return el('label', { class: 'tick' }, input, el('span', {}, label));
}
