// The large touch choices of "Quick answer": car, sub, box, power. They show
// what is taken, typed or touched; what nobody said looks pencilled.

import { el, freshId, setAttr, setText, svg } from '../dom.js';
import { formatNumber } from '../format.js';
import { sayOf as sayOfShared } from '../words.js';
import { bodyPicture, commonScale } from './car-picture.js';
import { say } from './words.js';

/** @typedef {import('./replies.js').QuickRequest} QuickRequest */

const SIZES_IN = [8, 10, 12, 15];
const COUNTS = [1, 2];
const TYPES = ['', 'sealed', 'vented'];
const POWERS_W = [250, 500, 1000, 1500];

/**
 * @template V
 * @typedef {object} Row
 * @property {keyof QuickRequest} key
 * @property {HTMLElement} root
 * @property {HTMLElement} other says a value that none of the choices has
 * @property {(value: any) => string} write
 * @property {{value: V, input: HTMLInputElement}[]} choices
 */

/**
 * One row of choices.
 * @template {string|number} V
 * @param {keyof QuickRequest} key
 * @param {string} legend
 * @param {V[]} values
 * @param {(value: V) => (Node|string)[]} words
 * @param {(key: keyof QuickRequest, value: V) => void} tell
 * @param {(value: any) => string} [write] a value in words
 * @returns {Row<V>}
 */
function row(key, legend, values, words, tell, write = (value) => String(words(value)[0])) {
  const group = freshId(`quick-${key}`);
  const choices = values.map((value) => {
    const input = el('input', { type: 'radio', name: group, onchange: () => tell(key, value), onclick: () => input.checked && tell(key, value) });
    return { value, input, root: el('label', { class: 'segment' }, input, el('span', {}, ...words(value))) };
  });
  const other = el('output', { hidden: true });
  return { key, choices, other, write, root: el('fieldset', { class: `quick-row quick-${key}` }, el('legend', {}, el('span', {}, legend), ' ', other), el('div', { class: 'segments' }, ...choices.map((c) => c.root))) };
}

export class QuickControls {
  /**
   * @param {import('../views/model.js').BodyPreset[]} bodies
   * @param {(key: keyof QuickRequest, value: string|number) => void} tell
   */
  constructor(bodies, tell) {
    const [width, height] = [92, 36];
    const scale = commonScale(bodies, width, height);
    this.rows = [
      row('body', say('quick_body'), bodies.map((b) => b.key), (key) => {
        const preset = bodies.find((b) => b.key === key);
        return [preset ? bodyPicture(preset, width, height, scale) : svg('svg'), el('small', {}, sayOfShared('body', key))];
      }, tell, (key) => sayOfShared('body', key)),
      row('size_in', say('quick_size'), SIZES_IN, (n) => [el('span', { class: 'shown', 'aria-hidden': 'true' }, say('size_value', { n })), el('span', { class: 'visually-hidden' }, say('size_spoken', { n }))], tell, (n) => say('size_value', { n: formatNumber(n, 1) })),
      row('count', say('quick_count'), COUNTS, (n) => [say('count_value', { n })], tell),
      row('type', say('quick_type'), TYPES, (t) => [t === '' ? say('type_any') : sayOfShared('box', t)], tell),
      row('power_w', say('quick_power'), POWERS_W, (w) => [say('watts', { n: formatNumber(w, 0) })], tell),
    ];
    const at = (/** @type {number} */ i) => /** @type {{root: HTMLElement}} */ (this.rows[i]).root;
    this.root = el('div', { class: 'quick-controls' }, at(0), el('div', { class: 'quick-pair' }, at(1), at(2)), at(3), at(4));
    this.body = '';
  }

  /**
   * @param {QuickRequest} request as it was used, gaps filled
   * @param {(key: keyof QuickRequest) => boolean} said typed or touched, not assumed
   */
  update(request, said) {
    for (const r of this.rows) {
      // A type that nobody named stays open, whichever was found to suit.
      const value = r.key === 'type' && !said('type') ? '' : request[r.key];
      for (const c of r.choices) c.input.checked = c.value === value;
      r.other.hidden = value === undefined || r.choices.some((c) => c.value === value);
      setText(r.other, r.other.hidden ? '' : `${r.write(value)}`);
      r.root.classList.toggle('pencilled', !said(r.key));
    }
    // The chosen car is brought into view, sideways only.
    if (request.body && request.body !== this.body) {
      this.body = request.body;
      const chosen = this.rows[0]?.choices.find((c) => c.value === request.body)?.input.parentElement;
      const strip = chosen?.parentElement;
      if (chosen && strip) strip.scrollLeft = chosen.offsetLeft - strip.offsetLeft - (strip.clientWidth - chosen.clientWidth) / 2;
    }
  }

  /**
   * Puts the reader on the choice of a key, where there is one.
   * @param {string} key
   */
  focus(key) {
    const r = this.rows.find((one) => one.key === key);
    if (!r) return false;
    (r.choices.find((c) => c.input.checked) ?? r.choices[0])?.input.focus();
    r.root.scrollIntoView({ block: 'nearest' });
    return true;
  }

  /** Marks the row of a key for which the line typed is in doubt. @param {Set<string>} keys */
  doubt(keys) {
    for (const r of this.rows) setAttr(r.root, 'data-doubt', keys.has(r.key));
  }
}
