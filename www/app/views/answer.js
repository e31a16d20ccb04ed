// The answer: what it does, and why not more.

import { el, setText } from '../dom.js';
import { say } from '../words.js';

/** @typedef {import('./model.js').Model} Model */
/** @typedef {import('./model.js').Part} Part */

/** Which part stands behind a limit. @type {Record<number, Part>} */
const BEHIND = { 1: 'sub', 2: 'amplifier', 3: 'amplifier', 4: 'sub', 5: 'box', 6: 'box' };

export class AnswerView {
  constructor() {
    this.headline = el('h1', { class: 'headline' }, say('working'));
    this.because = el('p', { class: 'because' });
    this.lines = el('ul', { class: 'answer-lines' });
    this.reason = el('div', { class: 'reason' }, this.because, this.lines);
    this.trouble = el('p', { class: 'trouble', role: 'alert', hidden: true });
    this.root = el('section', { class: 'answer', 'aria-label': say('answer_region'), id: 'answer', tabindex: -1 },
      this.headline, this.reason, this.trouble);
    /** Which part each clause speaks of, for the lines that tie them. @type {{node: HTMLElement, part: Part}[]} */
    this.ties = [];
    this.liveTimer = 0;
    this.live = el('p', { class: 'visually-hidden', 'aria-live': 'polite' });
    this.root.append(this.live);
  }

  /** @param {Model} model */
  update(model) {
    const answer = model.reply?.answer;
    const error = model.findings.find((f) => f.level === 'error');
    this.root.classList.toggle('stale', model.stale);
    this.trouble.hidden = !error;
    if (error) setText(this.trouble, `${error.say} ${model.reply ? say('stale') : ''}`);
    if (!answer) return;
    setText(this.headline, answer.headline);
    setText(this.because, answer.because);
    const lines = (answer.lines ?? []).map((l) => (typeof l === 'string' ? l : l.say)).filter((l) => l !== answer.because);
    if (this.lines.childElementCount !== lines.length) this.lines.replaceChildren(...lines.map(() => el('li')));
    lines.forEach((l, i) => setText(/** @type {Element} */ (this.lines.children[i]), l));
    this.ties = [{ node: this.headline, part: 'seats' }, { node: this.reason, part: BEHIND[answer.limit_code ?? 0] ?? 'box' }];
    // Spoken once things have come to rest, not at every step of a drag.
    clearTimeout(this.liveTimer);
    this.liveTimer = window.setTimeout(() => setText(this.live, `${answer.headline} ${answer.because}`), 900);
  }

  /** @param {string} why */
  fail(why) {
    this.trouble.hidden = false;
    setText(this.trouble, say('engine_trouble', { why }));
  }
}
