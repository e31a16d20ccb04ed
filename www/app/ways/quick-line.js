// The line typed into, and the chips that show what was understood of it.

import { el, freshId, setText } from '../dom.js';
import { say } from './words.js';

/** @typedef {import('./replies.js').Chip} Chip */
/** @typedef {import('./replies.js').QuickReply} QuickReply */

/**
 * A text without one stretch of it, the gap closed.
 * @param {string} text
 * @param {[number, number]} span
 */
export function cut(text, [from, to]) {
  return `${text.slice(0, from)} ${text.slice(to)}`.replace(/\s+/g, ' ').replace(/^\s*,?\s*/, '').trimEnd();
}

export class QuickLine {
  /**
   * @param {{typed: (text: string) => void, correct: (chip: Chip) => void}} on
   */
  constructor(on) {
    this.on = on;
    const id = freshId('quick-line');
    this.input = el('input', {
      id, type: 'text', class: 'quick-entry', maxlength: 200, autocomplete: 'off', autocapitalize: 'off', spellcheck: 'false', enterkeyhint: 'done', placeholder: say('quick_example'),
      oninput: () => on.typed(this.input.value),
      onkeydown: (/** @type {KeyboardEvent} */ e) => { if (e.key === 'Enter') this.input.blur(); },
    });
    this.clear = el('button', { type: 'button', class: 'quiet', hidden: true, onclick: () => { this.set(''); this.input.focus(); } }, say('clear'));
    this.chips = el('ul', { class: 'chips', 'aria-label': say('quick_chips') });
    this.why = el('p', { class: 'chips-why', role: 'status' });
    this.root = el('div', { class: 'quick-line' }, el('label', { for: id }, say('quick_line')), el('div', { class: 'quick-entry-row' }, this.input, this.clear), this.chips, this.why);
    this.key = '';
  }

  /** Puts other words on the line. @param {string} text */
  set(text) {
    this.input.value = text;
    this.on.typed(text);
  }

  /** @param {QuickReply} reply */
  update(reply) {
    this.clear.hidden = this.input.value === '';
    const chips = reply.chips ?? [];
    const unknown = reply.unknown ?? [];
    const key = JSON.stringify([chips, unknown]);
    if (key === this.key) return;
    this.key = key;
    setText(this.why, [...unknown, ...chips].map((one) => one.why).find(Boolean) ?? '');
    this.chips.hidden = chips.length + unknown.length === 0;
    this.chips.replaceChildren(
      ...chips.map((c) => el('li', { class: c.doubtful ? 'chip doubtful' : 'chip' },
        el('button', { type: 'button', class: 'chip-say', 'aria-label': say('chip_change', { say: c.say }), onclick: () => this.on.correct(c) }, c.doubtful ? `${c.say} (${say('chip_doubtful')})` : c.say),
        this.#drop(c.text, c.span, say('chip_drop', { text: c.text })))),
      ...unknown.map((u) => el('li', { class: 'chip unknown' }, el('span', { class: 'chip-say' }, say('chip_unknown', { text: u.text })), this.#drop(u.text, u.span, say('chip_unknown_drop', { text: u.text })))));
  }

  /** @param {string} text @param {[number, number]} span @param {string} spoken */
  #drop(text, span, spoken) {
    return el('button', { type: 'button', class: 'chip-drop', 'aria-label': spoken, onclick: () => {
      // The line may have moved on since the chip was made.
      const now = this.input.value;
      if (now.slice(span[0], span[1]) === text) this.set(cut(now, span));
      this.input.focus();
    } }, '×');
  }

  /** Puts the reader on the words of a chip. @param {Chip} chip */
  select(chip) {
    this.input.focus();
    this.input.setSelectionRange(chip.span[0], chip.span[1]);
  }
}
