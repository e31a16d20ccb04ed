// Learning the cabin from one measured response: take it in, say what it was,
// see what it taught, keep it or not.

import { createCursor } from '../chart-cursor.js';
import { Chart } from '../chart.js';
import { el, freshId, setAttr, setText } from '../dom.js';
import { FileError, pickFile, readText } from '../files.js';
import { formatHz, formatNumber } from '../format.js';
import { parseQuantity } from '../parse.js';
import { EngineError } from '../protocol.js';
import { unitOf } from '../units.js';
import { sayOf as seatName } from '../words.js';
import { say, sayOf } from './words.js';

/** @typedef {import('../job.js').Job} Job */
/** @typedef {{key: string, unit: string, value: number, sigma: number, verdict: 'told'|'roughly'|'untold', say: string}} Value */
/**
 * What the engine learned; levels in dB over hz.
 * @typedef {object} Result
 * @property {import('../job.js').Learned} learned
 * @property {Value[]} values
 * @property {number} before_db @property {number} after_db
 * @property {number[]} hz @property {number[]} measured @property {number[]} before @property {number[]} after
 * @property {string[]|null} said
 */

const READ_MS = 250;

/** @param {unknown} error */
const why = (error) => (error instanceof EngineError || error instanceof FileError || error instanceof Error ? error.message : String(error));

export class LearnDialog {
  /** @param {import('../store.js').Store} store @param {import('../engine.js').Engine} engine */
  constructor(store, engine) {
    this.store = store;
    this.engine = engine;
    this.timer = 0;
    /** @type {AbortController|null} */
    this.running = null;
    /** @type {Result|null} */
    this.result = null;

    const title = el('h2', { id: freshId('learn') }, say('learn'));
    const id = freshId('measured');
    this.text = el('textarea', { id, rows: 6, spellcheck: 'false', autocomplete: 'off', placeholder: say('learn_example'), oninput: () => this.#readSoon() });
    this.understood = el('div', { class: 'cab-understood', role: 'status' });
    this.playing = this.#choice('playing', [['sub', say('playing_sub')], ['doors', say('playing_doors')], ['both', say('playing_both')]]);
    this.calibrated = this.#choice('calibrated', [['no', say('calibrated_no')], ['yes', say('calibrated_yes')]]);
    this.seats = el('select', { id: freshId('seat') });
    this.drive = el('input', { id: freshId('drive'), type: 'text', inputmode: 'decimal', autocomplete: 'off', value: '0' });
    this.driveField = el('div', { class: 'field number', hidden: true }, el('label', { for: this.drive.id }, say('drive')), el('span', { class: 'entry' }, this.drive, el('span', { class: 'unit', 'aria-hidden': 'true' }, 'dB')));
    this.calibrated.root.addEventListener('change', () => { this.driveField.hidden = !this.#known; });
    this.go = el('button', { type: 'button', class: 'cab-go', disabled: true, onclick: () => this.#learn() }, say('learn_go'));
    this.ask = el('div', { class: 'cab-ask' },
      el('div', { class: 'cab-take' }, el('label', { for: id }, say('learn_paste')), el('button', { type: 'button', onclick: () => this.#open() }, say('learn_open'))),
      this.text, this.understood, this.playing.root,
      el('div', { class: 'field pick' }, el('label', { for: this.seats.id }, say('at_seat')), el('span', { class: 'entry' }, this.seats)),
      this.calibrated.root, this.driveField, el('p', { class: 'caution' }, say('caution_sweep')), this.go);

    this.bar = el('progress', { max: 4, value: 0, 'aria-label': say('learn_go') });
    this.step = el('p', { role: 'status' });
    this.wait = el('div', { class: 'cab-wait', hidden: true }, this.step, this.bar, el('button', { type: 'button', onclick: () => this.running?.abort() }, say('learn_stop')));

    this.error = el('p', { class: 'trouble', role: 'alert', hidden: true });
    this.errors = el('dl', { class: 'cab-errors' });
    this.values = el('ul', { class: 'cab-values' });
    this.said = el('div', { class: 'cab-understood' });
    this.chart = new Chart({ title: say('learn_curves'), span: { step: 10 }, cursor: createCursor(40) });
    this.keep = el('button', { type: 'button', class: 'cab-go', onclick: () => this.#keep() }, say('keep'));
    this.nothing = el('p', { class: 'cab-lead' }, say('nothing_learned'));
    this.answer = el('div', { class: 'cab-answer', hidden: true }, this.errors, this.values, this.chart.root, this.said, this.nothing,
      el('div', { class: 'cab-actions' },
        this.keep,
        el('button', { type: 'button', onclick: () => this.root.close() }, say('discard')),
        el('button', { type: 'button', class: 'quiet', onclick: () => this.#show('ask') }, say('learn_again'))));
    this.root = el('dialog', { class: 'cab-learn', 'aria-labelledby': title.id },
      el('header', {}, title, el('button', { type: 'button', class: 'quiet', onclick: () => this.root.close() }, say('learn_close'))),
      el('div', { class: 'cab-learn-body' }, this.error, this.ask, this.wait, this.answer));
    this.root.addEventListener('close', () => this.running?.abort());
    // A measurement dropped here is not a job for the page behind.
    this.root.addEventListener('drop', (e) => this.#drop(e));
    document.body.append(this.root);
  }

  /** @param {string} [text] a measurement that has arrived some other way */
  open(text) {
    const { job } = this.store;
    this.seats.replaceChildren(...job.car.seats.map((s) => el('option', { value: s.id }, seatName('seat', s.id))));
    this.seats.value = job.aim.seat;
    this.playing.only(['sub', ...(job.doors.fitted ? ['doors', 'both'] : [])].filter((p) => p !== 'sub' || job.subs.length > 0));
    this.#show('ask');
    if (text !== undefined) {
      this.text.value = text;
      this.#read();
    }
    if (!this.root.open) this.root.showModal();
    this.text.focus();
  }

  /** @param {string} key @param {[value: string, label: string][]} choices */
  #choice(key, choices) {
    const name = freshId(key);
    const inputs = choices.map(([value], i) => el('input', { type: 'radio', name, value, checked: i === 0 }));
    const label = say(/** @type {import('./words.js').Key} */ (key));
    return {
      root: el('div', { class: 'field pick', role: 'radiogroup', 'aria-label': label }, el('span', {}, label), el('div', { class: 'segments' }, ...choices.map(([, text], i) => el('label', { class: 'segment' }, inputs[i] ?? null, el('span', {}, text))))),
      get: () => inputs.find((i) => i.checked)?.value ?? '',
      only(/** @type {string[]} */ values) {
        for (const input of inputs) {
          input.disabled = !values.includes(input.value);
          if (input.disabled && input.checked) { const other = inputs.find((i) => values.includes(i.value)); if (other) other.checked = true; }
        }
      },
    };
  }

  /** @param {'ask'|'wait'|'answer'} part */
  #show(part) {
    this.ask.hidden = part !== 'ask';
    this.wait.hidden = part !== 'wait';
    this.answer.hidden = part !== 'answer';
    this.error.hidden = true;
  }

  /** @param {string} text */
  #complain(text) {
    this.error.hidden = false;
    setText(this.error, text);
  }

  async #open() {
    const file = await pickFile('.txt,.csv,.tsv,.dat,.frd,text/*');
    if (file) await this.#take(file);
  }

  /** @param {Blob} file */
  async #take(file) {
    try {
      this.text.value = await readText(file);
      await this.#read();
    } catch (error) {
      this.#complain(why(error));
    }
  }

  /** @param {DragEvent} e */
  #drop(e) {
    const file = e.dataTransfer?.files[0];
    if (!file) return;
    e.preventDefault();
    e.stopPropagation();
    this.#take(file);
  }

  #readSoon() {
    clearTimeout(this.timer);
    this.timer = window.setTimeout(() => this.#read(), READ_MS);
  }

  /** Shows what is understood of the text before anything is made of it. */
  async #read() {
    const text = this.text.value;
    this.error.hidden = true;
    if (text.trim() === '') {
      this.understood.replaceChildren();
      setAttr(this.go, 'disabled', true);
      return;
    }
    try {
      const { reply } = await this.engine.call('read_measurement', { text }, { latest: 'read-measurement' });
      const hz = /** @type {number[]} */ (reply.read.hz ?? []);
      const lines = [say('understood', { n: hz.length, low: formatHz(hz[0] ?? 0), high: formatHz(hz.at(-1) ?? 0), phase: reply.read.phase_deg?.length ? say('with_phase') : '' }), ...(reply.read.said ?? [])];
      this.understood.replaceChildren(...lines.map((l) => el('p', {}, l)));
      setAttr(this.go, 'disabled', false);
    } catch (error) {
      if (error instanceof EngineError && error.kind === 'superseded') return;
      this.understood.replaceChildren(el('p', { class: 'cab-bad' }, why(error)));
      setAttr(this.go, 'disabled', true);
    }
  }

  /** The levels are known, not only their shape. */
  get #known() {
    return this.calibrated.get() === 'yes';
  }

  async #learn() {
    // A calibrated level tells only against a known drive.
    const below = this.#known ? parseQuantity(this.drive.value.replace(/^\s*[-−–]/, ''), 'decibels', unitOf('decibels', 'metric'), 0, 80) : /** @type {const} */ ({ ok: true, value: 0 });
    if (!below.ok) {
      this.#complain(say('drive_bad'));
      this.drive.focus();
      return;
    }
    const running = new AbortController();
    this.running = running;
    this.#show('wait');
    setText(this.step, say('learning', { done: 0, of: 4 }));
    setAttr(this.bar, 'value', 0);
    try {
      const { reply } = await this.engine.call('learn', {
        job: this.store.job, text: this.text.value, seat: this.seats.value, playing: this.playing.get(),
        calibrated: this.#known, drive_db: -below.value, on: new Date().toISOString().slice(0, 10),
      }, {
        background: true, signal: running.signal,
        onProgress: ({ done, of }) => {
          setAttr(this.bar, 'max', of);
          setAttr(this.bar, 'value', done);
          setText(this.step, say('learning', { done, of }));
        },
      });
      if (!reply.result) throw new Error(reply.findings?.find((/** @type {{level: string}} */ f) => f.level === 'error')?.say ?? '');
      this.result = reply.result;
      this.#tell(reply.result);
      this.#show('answer');
    } catch (error) {
      this.#show('ask');
      if (!(error instanceof EngineError && error.kind === 'cancelled')) this.#complain(say('learn_failed', { why: why(error) }));
    } finally {
      if (this.running === running) this.running = null;
    }
  }

  /** @param {Result} r */
  #tell(r) {
    const apart = (/** @type {number} */ v) => say('error_rms', { v: formatNumber(v, 1, true) });
    this.errors.replaceChildren(el('div', {}, el('dt', {}, say('error_before')), el('dd', {}, apart(r.before_db))), el('div', {}, el('dt', {}, say('error_after')), el('dd', {}, apart(r.after_db))));
    this.values.replaceChildren(...r.values.map((v) => el('li', { class: v.verdict },
      el('b', {}, sayOf('value', v.key)), el('span', { class: 'cab-value' }, v.verdict === 'untold' ? '–' : v.unit === 'dB' ? say('plus_db', { v: formatNumber(v.value, 1) }) : say('times', { v: formatNumber(v.value, 2) })),
      el('em', {}, sayOf('verdict', v.verdict)), el('p', {}, v.say))));
    // The level of a microphone that is not calibrated is nothing to keep.
    const taught = r.values.some((v) => v.verdict !== 'untold' && (v.key !== 'level' || this.#known));
    this.keep.hidden = !taught;
    this.nothing.hidden = taught;
    this.said.replaceChildren(...(r.said ?? []).map((s) => el('p', {}, s)));
    this.chart.update({
      freq: Float64Array.from(r.hz), unit: 'dB', digits: 1, summary: '',
      series: [
        { key: 'before', label: say('curve_before'), kind: 'guide', values: r.before },
        { key: 'after', label: say('curve_after'), kind: 'sub', values: r.after },
        { key: 'measured', label: say('curve_measured'), kind: 'sum', values: r.measured },
      ],
    });
  }

  #keep() {
    if (!this.result) return;
    this.store.set('/car/learned', this.result.learned, { label: say('learned_label') });
    this.root.close();
  }
}
