// A data sheet as pasted: what was understood, what is doubtful, what was not,
// where each stands in the text, and what does not agree. Nothing is taken
// before the reader says so.

import { el, freshId, setText } from '../dom.js';
import { formatNumber } from '../format.js';
import { checkDriver } from './driver-shelf.js';
import { choice } from './entry.js';
import { markedText, spokenOf } from './sheet-marks.js';
import { say, sayOf } from './words.js';

/**
 * @typedef {import('../job.js').Driver} Driver
 * @typedef {import('./replies.js').SheetReply} SheetReply
 * @typedef {import('./replies.js').SheetReading} SheetReading
 */

export class SheetPart {
  /**
   * @param {import('../engine.js').Engine} engine
   * @param {(driver: Driver) => void} take
   */
  constructor(engine, take) {
    this.engine = engine;
    this.take = take;
    /** @type {SheetReply|null} */
    this.reply = null;
    this.read = '';
    this.model = 0;
    /** Readings that are to be taken. @type {Set<SheetReading>} */
    this.chosen = new Set();
    /** Sentences that stand with a choice below. @type {Set<string|undefined>} */
    this.told = new Set();
    /** @type {Map<SheetReading, HTMLInputElement>} */
    this.boxes = new Map();
    this.round = 0;

    const id = freshId('sheet');
    this.text = el('textarea', { id, rows: 9, spellcheck: 'false', autocomplete: 'off' });
    this.said = el('p', { class: 'told', role: 'status' });
    this.models = el('div', {});
    this.marked = el('pre', { class: 'marked', tabindex: 0, role: 'region', 'aria-label': say('sheet_source') });
    this.lists = el('div', {});
    this.doubts = el('div', { class: 'contradictions' });
    this.name = el('input', { id: `${id}-name`, type: 'text', maxlength: 120, autocomplete: 'off' });
    this.use = el('button', { type: 'button', class: 'go', onclick: () => this.#take() });
    this.results = el('div', { class: 'sheet-read', hidden: true },
      el('div', {}, el('h3', {}, say('sheet_source')), this.marked),
      el('div', {}, this.models, this.lists, this.doubts, el('div', { class: 'field text' }, el('label', { for: `${id}-name` }, say('sheet_name')), el('span', { class: 'entry' }, this.name)), this.use));
    this.root = el('div', {}, el('p', { class: 'told' }, say('sheet_lead')), el('label', { for: id }, say('sheet_text')), this.text,
      el('div', { class: 'tools' }, el('button', { type: 'button', onclick: () => this.#read() }, say('sheet_read'))), this.said, this.results);
  }

  update() {}

  async #read() {
    if (this.text.value.trim() === '') {
      setText(this.said, say('sheet_empty'));
      return;
    }
    this.read = this.text.value;
    try {
      this.reply = (await this.engine.call('sheet', { text: this.read })).reply;
      this.model = 0;
      setText(this.said, [...(this.reply?.models.length ? [] : [say('sheet_none')]), ...(this.reply?.notes ?? [])].join(' '));
      this.#open();
    } catch (error) {
      setText(this.said, say('trouble', { why: error instanceof Error ? error.message : String(error) }));
    }
  }

  #open() {
    const { reply } = this;
    const model = reply?.models[this.model];
    this.results.hidden = !reply;
    if (!reply) return;
    this.chosen = new Set(model?.readings.filter((r) => r.sure) ?? []);
    this.told = new Set((model?.notes ?? []).map((n) => n.say));
    this.boxes.clear();
    this.name.value = model?.name ?? '';
    this.models.replaceChildren(...(reply.models.length > 1 ? [choice({
      label: say('sheet_model'), list: true, value: this.model, choices: reply.models.map((m, i) => [i, m.name || say('sheet_model_n', { n: i + 1 })]), onChange: (i) => { this.model = i; this.#open(); },
    })] : []));
    this.marked.replaceChildren(...markedText(this.read, model?.readings ?? [], reply.not_understood).map((p) => (p.kind === 'plain' ? p.text
      : el('mark', { class: p.kind, title: p.kind === 'unread' ? say('sheet_not') : `${sayOf('key', p.key ?? '')}: ${say(p.kind === 'sure' ? 'sheet_understood' : 'sheet_doubtful').toLowerCase()}` }, p.text))));
    const part = (/** @type {Parameters<typeof say>[0]} */ title, /** @type {Node[]} */ rows) => (rows.length ? [el('h3', {}, say(title)), el('ul', { class: 'readings' }, ...rows)] : []);
    this.lists.replaceChildren(
      ...part('sheet_understood', (model?.readings ?? []).filter((r) => r.sure).map((r) => this.#row(r))),
      ...part('sheet_doubtful', (model?.readings ?? []).filter((r) => !r.sure).map((r) => this.#row(r))),
      ...part('sheet_not', reply.not_understood.map((l) => el('li', { class: 'told' }, `${say('sheet_line_n', { n: l.number })}: “${l.text.trim()}”`, l.why ? ` ${l.why}` : ''))),
      ...(reply.unused.length ? [el('details', {}, el('summary', {}, say('sheet_unused')), ...reply.unused.map((l) => el('p', { class: 'told' }, l.text.trim())))] : []));
    this.#contradictions(model?.notes ?? []);
    this.#count();
  }

  /** @param {SheetReading} r */
  #row(r) {
    const input = el('input', { type: 'checkbox', checked: this.chosen.has(r), 'aria-label': say('sheet_include', { name: r.name }), onchange: () => {
      if (input.checked) this.chosen.add(r);
      else this.chosen.delete(r);
      this.#again();
    } });
    this.boxes.set(r, input);
    const figures = Number(r.value.toPrecision(4));
    return el('li', {}, el('label', { class: 'tick' }, input, el('span', {}, el('b', {}, sayOf('key', r.key)), ` ${formatNumber(figures, 6)}${r.unit ? ` ${r.unit}` : ''}`, el('small', {}, ` ${r.name}, ${say('sheet_line_n', { n: r.line })}`))),
      // A contradiction is told once, below, with its choice.
      ...[r.why, r.note].filter((w) => w && !this.told.has(w)).map((words) => el('p', { class: r.sure ? 'told' : 'warning' }, String(words))));
  }

  /** @returns {Driver} */
  #driver() {
    /** @type {Record<string, any>} */
    const d = { name: this.name.value.trim() || say('sheet_name') };
    for (const r of this.chosen) d[r.key] = r.key === 'coils' ? Math.round(r.value) : r.value;
    return /** @type {Driver} */ (d);
  }

  #count() {
    const n = new Set([...this.chosen].map((r) => r.key)).size;
    setText(this.use, say('sheet_use_n', { n }));
    this.use.disabled = n === 0;
  }

  /** What is chosen has changed: does it agree now? */
  async #again() {
    this.#count();
    this.round += 1;
    const { round } = this;
    const notes = await checkDriver(this.engine, this.#driver());
    // What the sheet itself contradicts stays open to choice.
    const own = this.reply?.models[this.model]?.notes ?? [];
    if (round === this.round) this.#contradictions([...own, ...notes.filter((n) => !this.told.has(n.say))]);
  }

  /**
   * Each contradiction with a choice of what to leave out.
   * @param {import('./replies.js').DriverSay[]} notes
   */
  #contradictions(notes) {
    const readings = this.reply?.models[this.model]?.readings ?? [];
    const wrong = notes.filter((n) => n.level !== 'note');
    this.doubts.replaceChildren(...(wrong.length ? [el('h3', {}, say('sheet_contradicts'))] : []), ...wrong.map((n) => {
      const keys = spokenOf(n.say, n.key, readings, (k) => sayOf('key', k));
      const doubtful = readings.filter((r) => keys.includes(r.key) && !r.sure);
      if (keys.length < 2) return el('p', { class: 'warning' }, n.say);
      const left = keys.find((k) => ![...this.chosen].some((r) => r.key === k) && keys.every((o) => o === k || [...this.chosen].some((r) => r.key === o)));
      const pick = choice({
        label: say('sheet_trust'), list: true, value: left ?? '', choices: [['', say('sheet_trust_all')], ...keys.map((k) => /** @type {[string, string]} */ ([k, say('sheet_without', { name: sayOf('key', k) })]))],
        onChange: (key) => {
          for (const r of readings.filter((o) => keys.includes(o.key))) {
            if (key === '' ? !doubtful.includes(r) : r.key !== key) this.chosen.add(r);
            else this.chosen.delete(r);
          }
          for (const [r, box] of this.boxes) box.checked = this.chosen.has(r);
          this.#count();
        },
      });
      pick.classList.add('whole-line');
      return el('div', { class: 'contradiction' }, el('p', { class: 'warning' }, n.say), pick);
    }));
  }

  #take() {
    this.take(this.#driver());
  }
}
