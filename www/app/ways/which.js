// "Which sub?": a few plain questions, one at a time, then what suits.

import { el, setText } from '../dom.js';
import { fragmentOf } from '../router.js';
import { KEPT_SHELF } from '../workshop/driver-shelf.js';
import { answered, ownDrivers, readAnswers, requestOf, stepsOf, without } from './answers.js';
import { Choices } from './choices.js';
import { bootQuestion, carQuestion, loudQuestion, musicQuestion, spendQuestion } from './questions.js';
import { say } from './words.js';

/** @typedef {import('./answers.js').Answers} Answers */
/** @typedef {import('./answers.js').Step} Step */
/** @typedef {import('./questions.js').Question} Question */

const KEPT = 'ways/which';
/** The engine tries no more drivers than this in one go. */
const MOST_DRIVERS = 200;

export class WhichWay {
  /** @param {import('./mount.js').WayParts} parts */
  constructor(parts) {
    this.parts = parts;
    /** @type {Answers} */
    this.answers = {};
    /** @type {Step[]} */
    this.steps = stepsOf(false);
    /** @type {Step} */
    this.step = 'car';
    /** @type {Map<Step, Question>} */
    this.questions = new Map();
    /** @type {Promise<void>|null} */
    this.ready = null;
    /** The typical drivers with the reader's own; empty while there are none of their own. @type {import('../job.js').Driver[]} */
    this.drivers = [];
    /** @type {import('../job.js').Driver[]} */
    this.typical = [];
    this.choices = new Choices(parts.engine, (choice) => parts.adopt(choice.job, say('way_which')));

    this.count = el('p', { class: 'count' });
    this.line = el('ol', { class: 'step-line', 'aria-hidden': 'true' });
    this.title = el('h1', { tabindex: -1 });
    this.lead = el('p', { class: 'lead' });
    this.body = el('div', { class: 'question-body' });
    this.pencil = el('p', { class: 'if-skipped' });
    this.back = el('a', { class: 'button quiet' }, say('back'));
    this.unsure = el('button', { type: 'button', class: 'quiet', onclick: () => this.#tell(without(this.answers, this.step), true) }, say('unsure'));
    this.next = el('button', { type: 'button', class: 'strong', onclick: () => this.#next() });
    this.foot = el('div', { class: 'question-foot' }, this.pencil, el('div', { class: 'foot-row' }, this.back, this.unsure, this.next));
    this.question = el('section', { class: 'question' }, el('header', {}, this.count, this.line, this.title, this.lead), this.body, this.foot);
    this.trouble = el('p', { class: 'trouble', role: 'alert', hidden: true });
    this.root = el('div', { class: 'way way-which' }, this.trouble, this.question, this.choices.root);
  }

  /** Where the reader was, for the link back here. */
  get lastStep() {
    return this.step === 'car' ? '' : this.step;
  }

  /** @param {string} wanted a step, '' for the first */
  async open(wanted) {
    this.ready ??= this.#prepare();
    this.root.classList.toggle('waiting', this.questions.size === 0);
    try {
      await this.ready;
    } catch (error) {
      this.ready = null;
      this.trouble.hidden = false;
      setText(this.trouble, say('trouble', { why: error instanceof Error ? error.message : String(error) }));
      return;
    }
    this.trouble.hidden = true;
    this.root.classList.remove('waiting');
    this.step = this.steps.find((s) => s === wanted) ?? 'car';
    if (this.step === 'choices') await this.#readShelf();
    this.update();
  }

  /** The heading that a reader who comes here is put on. */
  get heading() {
    return this.step === 'choices' ? this.choices.title : this.title;
  }

  leave() {
    this.choices.leave();
  }

  async #prepare() {
    const { engine, storage, bodies } = this.parts;
    const [known, shelf, kept] = await Promise.all([
      engine.call('questions', {}).then((a) => /** @type {import('./replies.js').Questions} */ (a.reply)),
      engine.call('shelf', {}).then((a) => /** @type {import('./replies.js').Shelf} */ (a.reply), () => null),
      storage.get(KEPT).catch(() => undefined),
    ]);
    this.answers = readAnswers(kept);
    this.typical = (shelf?.drivers ?? []).filter((e) => e.kind !== 'door').map((e) => e.driver);
    const priced = (shelf?.drivers ?? []).filter((e) => e.kind !== 'door' && (e.driver.price ?? 0) > 0);
    this.steps = stepsOf(priced.length > 0);
    const tell = (/** @type {Partial<Answers>} */ changes) => this.#tell({ ...this.answers, ...changes });
    this.questions.set('car', carQuestion(bodies, known, tell));
    this.questions.set('boot', bootQuestion(bodies, known, tell));
    this.questions.set('music', musicQuestion(known, tell));
    this.questions.set('loud', loudQuestion(known, tell));
    this.questions.set('spend', spendQuestion(priced.every((e) => e.driver.typical), tell));
  }

  /** Reads what the reader keeps: it may have changed since. */
  async #readShelf() {
    const kept = await this.parts.storage.get(KEPT_SHELF).catch(() => undefined);
    const own = ownDrivers(kept);
    this.drivers = own.length ? [...this.typical, ...own].slice(0, MOST_DRIVERS) : [];
  }

  /** @param {Answers} answers @param {boolean} [focus] */
  #tell(answers, focus = false) {
    this.answers = answers;
    this.parts.storage.put(KEPT, answers).catch(() => {});
    this.update();
    if (focus) this.next.focus();
  }

  #next() {
    if (this.questions.get(this.step)?.holds?.()) return;
    const after = this.steps[this.steps.indexOf(this.step) + 1];
    if (after) this.parts.go('which', after);
  }

  /** Shows the step that is open. */
  update() {
    const { step, steps, answers } = this;
    const { system } = this.parts;
    const asking = step !== 'choices';
    this.question.hidden = !asking;
    this.choices.root.hidden = asking;
    if (!asking) {
      this.choices.ask(requestOf(answers, this.drivers), system());
      return;
    }
    const question = this.questions.get(step);
    if (!question) return;
    const n = steps.indexOf(step);
    setText(this.count, say('question_of', { n: n + 1, of: steps.length - 1 }));
    if (this.line.childElementCount !== steps.length - 1) this.line.replaceChildren(...steps.slice(0, -1).map(() => el('li')));
    [...this.line.children].forEach((li, i) => {
      li.className = `${i === n ? 'here' : ''}${answered(answers, /** @type {Step} */ (steps[i])) ? ' answered' : ''}`;
    });
    setText(this.title, question.title);
    setText(this.lead, question.lead);
    if (this.body.firstElementChild !== question.root) this.body.replaceChildren(question.root);
    question.update(answers, system());
    const has = answered(answers, step);
    setText(this.pencil, has ? '' : say('if_skipped', { what: question.assumes(answers) }));
    const last = n === steps.length - 2;
    setText(this.next, has ? (last ? say('finish') : say('next')) : (last ? `${say('skip')}: ${say('finish').toLowerCase()}` : say('skip')));
    this.next.classList.toggle('unanswered', !has);
    this.unsure.hidden = !has;
    const before = steps[n - 1];
    this.back.hidden = !before;
    if (before) this.back.setAttribute('href', fragmentOf('which', before === 'car' ? '' : before));
  }
}
