// The controls of a sheet. Each owns its elements, shows one value of the
// document, what is wrong with it, and whether it is assumed.

import { el, freshId, setAttr, setText } from '../dom.js';
import { formatValue, formatWithUnit } from '../format.js';
import { parseQuantity } from '../parse.js';
import { getAt } from '../pointer.js';
import { limitOf } from './limits.js';
import { toStored, unitOf } from '../units.js';
import { say } from '../words.js';

/** @typedef {import('./model.js').Model} Model */
/** @typedef {import('../store.js').Store} Store */

/**
 * A control that can show a model.
 * @typedef {object} Field
 * @property {HTMLElement} root
 * @property {(model: Model) => void} update
 */

/**
 * @typedef {object} NumberOptions
 * @property {string} pointer
 * @property {string} label
 * @property {string} [within] what it is a value of, spoken before the label
 * @property {import('../units.js').QuantityName} quantity
 * @property {[number, number]} [slide] the span of a slider; without it there is none
 * @property {boolean} [log] the slider moves in ratios
 * @property {boolean} [optional] may be left empty
 * @property {(model: Model) => number|undefined} [derived] shown as worked out where the document has none
 * @property {(value: number, model: Model) => [string, any][]} [also] what changes with it, as one step
 */

const SLIDER_STEPS = 400;

/** What is wrong with a value, under it. */
class Notes {
  constructor() {
    this.id = freshId('note');
    this.root = el('div', { class: 'notes', id: this.id });
    this.own = '';
    /** @type {import('./model.js').Finding[]} */
    this.findings = [];
    this.key = '';
  }

  /** @param {string} text the page's own complaint, '' for none */
  complain(text) {
    this.own = text;
    this.#draw();
  }

  /** @param {import('./model.js').Finding[]} findings */
  update(findings) {
    this.findings = findings;
    this.#draw();
  }

  get bad() {
    return this.own !== '' || this.findings.some((f) => f.level === 'error');
  }

  #draw() {
    const all = [...(this.own ? [{ level: 'error', say: this.own }] : []), ...this.findings];
    const key = JSON.stringify(all);
    if (key === this.key) return;
    this.key = key;
    this.root.replaceChildren(...all.map((f) => el('p', { class: f.level }, f.say)));
  }
}

/** The pencil mark of a value that nobody measured or chose. */
function pencil() {
  return el('span', { class: 'assumed', hidden: true, title: say('assumed_help') }, el('span', { class: 'visually-hidden' }, say('assumed')));
}

/**
 * A number: typed, stepped with the arrow keys, or slid.
 * @param {Store} store
 * @param {NumberOptions} o
 * @returns {Field}
 */
export function numberField(store, o) {
  const id = freshId('field');
  const { min, max, whole } = limitOf(o.pointer);
  const spoken = o.within ? `${o.within}, ${o.label.toLowerCase()}` : o.label;
  const notes = new Notes();
  const unitLabel = el('span', { class: 'unit', 'aria-hidden': 'true' });
  const assumed = pencil();
  const input = el('input', { id, type: 'text', inputmode: 'decimal', autocomplete: 'off', spellcheck: 'false', 'aria-describedby': notes.id });
  const slider = o.slide ? el('input', { type: 'range', min: 0, max: SLIDER_STEPS, step: 1, 'aria-label': spoken }) : null;
  const root = el('div', { class: slider ? 'field number slides' : 'field number' },
    el('label', { for: id }, el('span', {}, o.label), ' ', assumed),
    el('span', { class: 'entry' }, input, unitLabel), slider, notes.root);

  /** @type {Model|null} */
  let model = null;
  let shown = '';
  const [lo, hi] = o.slide ?? [0, 1];
  const toSlider = (/** @type {number} */ v) => Math.round(SLIDER_STEPS * (o.log ? Math.log(v / lo) / Math.log(hi / lo) : (v - lo) / (hi - lo)));
  const fromSlider = (/** @type {number} */ s) => (o.log ? lo * (hi / lo) ** (s / SLIDER_STEPS) : lo + (hi - lo) * s / SLIDER_STEPS);

  const current = () => (model ? getAt(model.job, o.pointer) : undefined);
  /** @param {number|undefined} value @param {boolean} drag */
  const put = (value, drag) => {
    if (!model) return;
    const changes = /** @type {[string, any][]} */ ([[o.pointer, value], ...(value === undefined ? [] : o.also?.(value, model) ?? [])]);
    store.setAll(changes, { drag, label: o.label });
  };

  const commit = () => {
    if (!model || input.value === shown) {
      notes.complain('');
      return;
    }
    const u = unitOf(o.quantity, model.system);
    const parsed = parseQuantity(input.value, o.quantity, u, min, max);
    if (parsed.ok) {
      const value = whole ? Math.round(parsed.value) : parsed.value;
      notes.complain('');
      shown = '\u0000'; // the next update rewrites what was typed
      put(value, false);
    } else if (parsed.why === 'empty' && o.optional) {
      notes.complain('');
      put(undefined, false);
    } else {
      const range = { label: o.label, min: formatWithUnit(min, o.quantity, model.system), max: formatWithUnit(max, o.quantity, model.system) };
      notes.complain({
        empty: () => say('bad_empty', range),
        not_a_number: () => say('bad_number', { text: input.value, example: shown || formatValue(min, o.quantity, model?.system ?? 'metric') }),
        unknown_unit: () => say('bad_unit', { text: input.value, unit: u.spoken || u.sign }),
        too_small: () => say('bad_range', range),
        too_large: () => say('bad_range', range),
      }[parsed.why]());
    }
    setAttr(input, 'aria-invalid', notes.bad ? 'true' : null);
  };

  input.addEventListener('change', commit);
  input.addEventListener('focus', () => input.select());
  input.addEventListener('keydown', (e) => {
    if (e.key === 'Escape') {
      input.value = shown;
      notes.complain('');
    }
    const value = current() ?? o.derived?.(/** @type {Model} */ (model));
    if ((e.key !== 'ArrowUp' && e.key !== 'ArrowDown') || !model || typeof value !== 'number') return;
    e.preventDefault();
    const u = unitOf(o.quantity, model.system);
    const by = (toStored(u.step, u) - toStored(0, u)) * (e.key === 'ArrowUp' ? 1 : -1) * (e.shiftKey ? 10 : 1);
    const next = Math.min(max, Math.max(min, value + (whole ? Math.sign(by) : by)));
    shown = '\u0000';
    put(next, true);
  });
  input.addEventListener('keyup', (e) => { if (e.key.startsWith('Arrow')) store.endDrag(); });
  slider?.addEventListener('input', () => {
    if (!model) return;
    const u = unitOf(o.quantity, model.system);
    const grain = Math.abs(toStored(u.step, u) - toStored(0, u)) / 2;
    const raw = fromSlider(Number(slider.value));
    put(whole ? Math.round(raw) : Math.min(hi, Math.max(lo, Math.round(raw / grain) * grain)), true);
  });
  slider?.addEventListener('change', () => store.endDrag());

  return {
    root,
    update(next) {
      model = next;
      const value = current();
      const worked = value === undefined ? o.derived?.(next) : undefined;
      const text = typeof value === 'number' ? formatValue(value, o.quantity, next.system) : '';
      // What was typed stays until it is mended or taken.
      if ((document.activeElement !== input && notes.own === '') || shown === '\u0000') input.value = text;
      shown = text;
      setAttr(input, 'placeholder', worked === undefined ? (o.optional ? say('not_stated') : null) : formatValue(worked, o.quantity, next.system));
      const u = unitOf(o.quantity, next.system);
      setText(unitLabel, u.sign);
      setAttr(input, 'aria-label', u.spoken ? `${spoken}, ${u.spoken}` : spoken);
      notes.update(next.findingsAt(o.pointer));
      setAttr(input, 'aria-invalid', notes.bad ? 'true' : null);
      assumed.hidden = !next.isAssumed(o.pointer);
      if (slider && typeof value === 'number') {
        const at = String(Math.min(SLIDER_STEPS, Math.max(0, toSlider(value))));
        if (slider.value !== at) slider.value = at;
        setAttr(slider, 'aria-valuetext', formatWithUnit(value, o.quantity, next.system));
      }
    },
  };
}

/**
 * One of a few words: buttons side by side, or a list where they are many.
 * @param {Store} store
 * @param {{pointer: string, label: string, within?: string, choices: [value: any, label: string][], list?: boolean,
 *   change?: (value: any, model: Model) => [string, any][], read?: (model: Model) => any}} o
 * @returns {Field}
 */
export function choiceField(store, o) {
  const notes = new Notes();
  const assumed = pencil();
  const name = freshId('choice');
  const spoken = o.within ? `${o.within}, ${o.label.toLowerCase()}` : o.label;
  /** @type {Model|null} */
  let model = null;
  const put = (/** @type {number} */ index) => {
    const choice = o.choices[index];
    if (!choice || !model) return;
    store.setAll(o.change ? o.change(choice[0], model) : [[o.pointer, choice[0]]], { label: o.label });
  };
  const select = o.list ? el('select', { id: name, 'aria-label': spoken, 'aria-describedby': notes.id, onchange: () => put(select?.selectedIndex ?? -1) },
    ...o.choices.map(([, label]) => el('option', {}, label))) : null;
  const radios = o.list ? [] : o.choices.map(([, label], i) => {
    const input = el('input', { type: 'radio', name, onchange: () => put(i) });
    return { input, root: el('label', { class: 'segment' }, input, el('span', {}, label)) };
  });
  const root = select
    ? el('div', { class: 'field one-of' }, el('label', { for: name }, el('span', {}, o.label), ' ', assumed), el('span', { class: 'entry' }, select), notes.root)
    : el('div', { class: o.choices.length > 2 ? 'field one-of wide' : 'field one-of', role: 'radiogroup', 'aria-label': spoken, 'aria-describedby': notes.id }, el('span', {}, el('span', {}, o.label), ' ', assumed), el('div', { class: 'segments' }, ...radios.map((r) => r.root)), notes.root);
  return {
    root,
    update(next) {
      model = next;
      const value = o.read ? o.read(next) : getAt(next.job, o.pointer);
      const index = o.choices.findIndex(([v]) => v === value);
      if (select) select.selectedIndex = index;
      radios.forEach((r, i) => { r.input.checked = i === index; });
      notes.update(next.findingsAt(o.pointer));
      assumed.hidden = !next.isAssumed(o.pointer);
    },
  };
}

/**
 * Free text.
 * @param {Store} store
 * @param {{pointer: string, label: string, longest: number}} o
 * @returns {Field}
 */
export function textField(store, o) {
  const id = freshId('text');
  const notes = new Notes();
  const input = el('input', { id, type: 'text', maxlength: o.longest, autocomplete: 'off', 'aria-describedby': notes.id, onchange: () => store.set(o.pointer, input.value, { label: o.label }) });
  return {
    root: el('div', { class: 'field text' }, el('label', { for: id }, o.label), el('span', { class: 'entry' }, input), notes.root),
    update(next) {
      if (document.activeElement !== input) input.value = String(getAt(next.job, o.pointer) ?? '');
      notes.update(next.findingsAt(o.pointer));
    },
  };
}

/**
 * A value that is worked out: read, not typed.
 * @param {string} label
 * @param {(model: Model) => string} read '' hides the line
 * @returns {Field}
 */
export function factField(label, read) {
  const value = el('output', {});
  const root = el('div', { class: 'fact' }, el('span', {}, label), value);
  return {
    root,
    update(next) {
      const text = read(next);
      root.hidden = text === '';
      setText(value, text);
    },
  };
}

/**
 * A heading with fields under it; folded away behind its summary where asked.
 * @param {string} title
 * @param {Field[]} fields
 * @param {{folded?: boolean, when?: (model: Model) => boolean, note?: string}} [o]
 * @returns {Field}
 */
export function group(title, fields, { folded = false, when, note } = {}) {
  const inside = el('div', { class: 'fields' }, note ? el('p', { class: 'caution' }, note) : null, ...fields.map((f) => f.root));
  const root = folded
    ? el('details', { class: 'group' }, el('summary', {}, title), inside)
    : el('section', { class: 'group' }, title ? el('h3', {}, title) : null, inside);
  let wrong = false;
  return {
    root,
    update(next) {
      root.hidden = when ? !when(next) : false;
      if (root.hidden) return;
      for (const f of fields) f.update(next);
      // What has just gone wrong must not stay folded away.
      const now = folded && inside.querySelector('p.error, p.warning') !== null;
      if (now && !wrong) root.setAttribute('open', '');
      wrong = now;
    },
  };
}

/**
 * A field that shows only while it applies.
 * @param {Field} field
 * @param {(model: Model) => boolean} when
 * @returns {Field}
 */
export function onlyWhen(field, when) {
  return {
    root: field.root,
    update(next) {
      field.root.hidden = !when(next);
      if (!field.root.hidden) field.update(next);
    },
  };
}
