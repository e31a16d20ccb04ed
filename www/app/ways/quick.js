// "Quick answer": one screen, one hand. A line or a few touches go in; reach,
// level, box, load and whether it fits come out, as fast as it is typed.

import { el, setText } from '../dom.js';
import { formatWithUnit } from '../format.js';
import { EngineError } from '../protocol.js';
import { say as sayShared, sayOf as sayOfShared } from '../words.js';
import { JobPicture } from './car-picture.js';
import { outsideWords } from './choice-row.js';
import { QuickControls } from './quick-controls.js';
import { QuickLine, cut } from './quick-line.js';
import { say, sayOf } from './words.js';

/** @typedef {import('./replies.js').QuickReply} QuickReply */
/** @typedef {import('./replies.js').QuickRequest} QuickRequest */

const KEPT = 'ways/quick';
/** From here on an answer that is still out shows as pale. */
const SLOW_MS = 250;
/** Highest the drawing may be, px. */
const PICTURE_PX = 128;

export class QuickWay {
  /** @param {import('./mount.js').WayParts} parts */
  constructor(parts) {
    this.parts = parts;
    this.text = '';
    /** What was touched; it wins over the line. @type {QuickRequest} */
    this.touched = {};
    /** @type {QuickReply|null} */
    this.reply = null;
    /** @type {Promise<void>|null} */
    this.ready = null;
    this.line = new QuickLine({
      typed: (text) => {
        this.text = text;
        this.#ask();
      },
      correct: (chip) => { if (!this.controls.focus(chip.key)) this.line.select(chip); },
    });
    this.heading = el('h1', { tabindex: -1, class: 'headline' }, sayShared('working'));
    this.because = el('p', { class: 'because' });
    this.trouble = el('p', { class: 'trouble', role: 'alert', hidden: true });
    this.picture = new JobPicture('');
    this.stage = el('div', { class: 'quick-picture' }, this.picture.root);
    this.lines = el('dl', { class: 'quick-lines' });
    this.assumed = el('ul', { class: 'assumed-list' });
    this.live = el('p', { class: 'visually-hidden', 'aria-live': 'polite' });
    this.open_ = el('button', { type: 'button', class: 'strong', onclick: () => this.#hand() }, say('open_full'));
    this.controls = new QuickControls(parts.bodies, (key, value) => this.#touch(key, value));
    this.answer = el('section', { class: 'quick-answer', 'aria-label': say('quick_title') }, this.heading, this.because, this.trouble, this.stage, this.lines);
    this.root = el('div', { class: 'way way-quick' }, this.line.root, this.answer, this.controls.root, this.open_, this.assumed, this.live);
    this.timer = 0;
    this.slow = 0;
    /** How often the engine was asked: only the newest question's answer counts. */
    this.asked = 0;
    this.width = 0;
    new ResizeObserver(([entry]) => {
      this.width = entry ? Math.round(entry.contentRect.width) : 0;
      this.#draw();
    }).observe(this.stage);
  }

  async open() {
    this.ready ??= this.#prepare();
    await this.ready;
  }

  async #prepare() {
    const kept = await this.parts.storage.get(KEPT).catch(() => undefined);
    if (typeof kept?.text === 'string') this.text = kept.text.slice(0, 200);
    if (typeof kept?.touched === 'object' && kept.touched) this.touched = kept.touched;
    this.line.input.value = this.text;
    // A line that was kept gets its answer while the screen is up already.
    this.#ask();
  }

  /** Shows the answer in the reader's units as they are now. */
  update() {
    this.#show();
  }

  /**
   * @param {keyof QuickRequest} key
   * @param {string|number} value
   */
  #touch(key, value) {
    if (this.touched[key] === value && this.reply?.request?.[key] === value) return;
    this.touched = { ...this.touched, [key]: value };
    // A word on the line that says otherwise has been corrected.
    const chip = this.reply?.chips?.find((c) => c.key === key);
    if (chip && this.text.slice(chip.span[0], chip.span[1]) === chip.text) {
      this.text = cut(this.text, chip.span);
      this.line.input.value = this.text;
    }
    this.#ask();
  }

  async #ask() {
    const { text, touched } = this;
    this.asked += 1;
    const { asked } = this;
    this.parts.storage.put(KEPT, { text, touched }).catch(() => {});
    clearTimeout(this.slow);
    this.slow = window.setTimeout(() => this.answer.classList.add('asking'), SLOW_MS);
    this.#read();
    try {
      // In the second worker, since finding a box takes longer than a keystroke;
      // the first time in the one that runs already.
      const { reply } = await this.parts.engine.call('quick', { text, request: touched }, { latest: 'quick', background: this.reply !== null });
      // An answer to what was said before would undo a touch made since.
      if (asked !== this.asked) return;
      this.#settled();
      this.reply = this.#typedAgain(reply);
      this.trouble.hidden = true;
      this.#show();
    } catch (error) {
      if (asked !== this.asked || (error instanceof EngineError && (error.kind === 'superseded' || error.kind === 'cancelled'))) return;
      this.#settled();
      const why = error instanceof Error ? error.message : String(error);
      const refused = error instanceof EngineError && error.kind === 'bad_request';
      this.trouble.hidden = false;
      this.answer.classList.add('stale');
      setText(this.trouble, refused ? why : say('trouble', { why }));
    }
  }

  /** Shows at once what the line is read as; its answer follows. */
  async #read() {
    const { reply } = await this.parts.engine.call('quick', { text: this.text, read_only: true }, { latest: 'quick-line' }).catch(() => ({ reply: null }));
    if (reply) this.line.update(reply);
  }

  #settled() {
    clearTimeout(this.slow);
    this.answer.classList.remove('asking');
  }

  /**
   * What is typed after a touch is the newer word: it takes the touch away, and
   * asks again.
   * @param {QuickReply} reply
   */
  #typedAgain(reply) {
    const said = (reply.chips ?? []).map((c) => c.key).filter((k) => Object.hasOwn(this.touched, k));
    if (said.length === 0) return reply;
    this.touched = { ...this.touched };
    for (const key of said) delete this.touched[/** @type {keyof QuickRequest} */ (key)];
    this.#ask();
    return reply;
  }

  #show() {
    const { reply } = this;
    if (!reply) return;
    this.line.update(reply);
    const wrong = reply.findings?.find((f) => f.level === 'error');
    this.trouble.hidden = !wrong;
    this.answer.classList.toggle('stale', Boolean(wrong));
    if (wrong) setText(this.trouble, wrong.say);
    const typed = new Set((reply.chips ?? []).map((c) => c.key));
    this.controls.update(reply.nothing ? {} : reply.request ?? {}, (key) => typed.has(key) || Object.hasOwn(this.touched, key));
    this.controls.doubt(new Set((reply.chips ?? []).filter((c) => c.doubtful).map((c) => c.key)));
    const { answer } = reply;
    if (!answer) return;
    this.stage.hidden = Boolean(reply.nothing);
    this.open_.disabled = !reply.job || Boolean(reply.nothing);
    if (reply.nothing) {
      // No answer is better than one to a question that nobody put.
      setText(this.heading, answer.because);
      setText(this.because, '');
      this.lines.replaceChildren();
      this.assumed.replaceChildren();
      clearTimeout(this.timer);
      return;
    }
    setText(this.heading, answer.headline);
    setText(this.because, answer.because);
    const lines = (reply.lines ?? []).filter((l) => l.say !== answer.because && l.say !== answer.headline).map((l) => (l.key === 'outside' ? { ...l, say: this.#box(l.say) } : l));
    this.lines.replaceChildren(...lines.map((l) => el('div', { class: l.key === 'fits' ? (reply.fits ? 'fits' : 'fits-not') : l.key }, el('dt', {}, sayOf('line', l.key)), el('dd', {}, l.say))));
    this.assumed.replaceChildren(...(reply.assumed ?? []).map((a) => el('li', {}, el('span', { class: 'assumed', 'aria-hidden': 'true' }), ` ${a.say}`)));
    this.#draw();
    clearTimeout(this.timer);
    this.timer = window.setTimeout(() => setText(this.live, `${answer.headline} ${answer.because}`), 900);
  }

  /**
   * The box in the reader's units.
   * @param {string} said the engine's own sentence
   */
  #box(said) {
    const { outside, job } = this.reply ?? {};
    const box = job?.subs[0]?.box;
    if (!outside?.width_mm || !box) return said;
    const system = this.parts.system();
    return say('box_line', { type: sayOfShared('box', box.type), net: formatWithUnit(box.net_l, 'litres', system), size: outsideWords(outside, system) });
  }

  #draw() {
    const job = this.reply?.job;
    if (job && this.width > 100) this.picture.draw(job, this.parts.system(), this.width, this.width > 440 ? 2 * PICTURE_PX : PICTURE_PX);
  }

  #hand() {
    if (this.reply?.job) this.parts.adopt(this.reply.job, say('quick_title'));
  }
}
