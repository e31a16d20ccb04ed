// Up to four versions of a job side by side: their curves over each other, and
// what differs in words and numbers. Versions are kept with the page's other
// things on this machine.

import { Chart } from '../chart.js';
import { createCursor } from '../chart-cursor.js';
import { valueAt } from '../chart-path.js';
import { el, setText } from '../dom.js';
import { formatNumber } from '../format.js';
import { EngineError } from '../protocol.js';
import { sayOf as sayOfShared } from '../words.js';
import { Leaf } from './leaf.js';
import { say } from './words.js';

/**
 * @typedef {import('../views/model.js').Model} Model
 * @typedef {import('./replies.js').Pinned} Pinned
 * @typedef {import('./replies.js').CompareReply} CompareReply
 */

const MOST = 4;
const KEPT = 'pinned';
/** A dash of its own for each version, the sum's for the job as it is. @type {import('../chart.js').Series['kind'][]} */
const KINDS = ['doors', 'free', 'guide', 'sub'];

export class Compare {
  /**
   * @param {import('../store.js').Store} store
   * @param {import('../engine.js').Engine} engine
   * @param {import('../storage.js').Storage} storage
   */
  constructor(store, engine, storage) {
    this.store = store;
    this.engine = engine;
    this.storage = storage;
    /** @type {Model|null} */
    this.model = null;
    /** @type {Pinned[]} */
    this.pins = [];
    this.round = 0;
    /** Curves of a pinned job, worked out once. @type {WeakMap<object, Map<string, {freq: Float64Array, values: Float64Array}>>} */
    this.curves = new WeakMap();
    this.ready = storage.get(KEPT).then((kept) => { if (Array.isArray(kept)) this.pins = kept.slice(0, MOST); }, () => {});

    this.leaf = new Leaf(say('compare_title'));
    this.pin = el('button', { type: 'button', class: 'go', onclick: () => this.pinNow() }, say('offer_pin'));
    this.said = el('p', { class: 'told', role: 'status' });
    this.list = el('ul', { class: 'pins' });
    this.table = el('table', { class: 'settings compared' });
    this.tableBox = el('div', { class: 'scroll', tabindex: 0, role: 'region', 'aria-label': say('compare_table') }, this.table);
    this.differs = el('ul', { class: 'differs' });
    this.differsBox = el('section', {}, el('h3', {}, say('compare_differs')), this.differs);
    this.chart = new Chart({ title: '', span: { step: 10, span: 50 }, cursor: createCursor(40), large: true });
    this.leaf.body.append(el('p', { class: 'told' }, say('compare_lead')), el('div', { class: 'tools' }, this.pin), this.said, this.list, this.chart.root, this.differsBox, this.tableBox);
  }

  async open() {
    await this.ready;
    this.leaf.show();
    this.#draw();
  }

  /** @param {Model} model */
  update(model) {
    this.model = model;
    if (this.leaf.open) this.#draw();
  }

  /** Keeps the job as it is now. */
  async pinNow() {
    await this.ready;
    if (this.pins.length >= MOST) {
      setText(this.said, say('compare_full'));
      return say('compare_full');
    }
    let n = this.pins.length + 1;
    while (this.pins.some((p) => p.name === say('version', { n }))) n += 1;
    const name = say('version', { n });
    this.pins = [...this.pins, { name, job: this.store.job }];
    await this.#keep();
    const words = say('compare_pinned', { name });
    setText(this.said, words);
    this.#draw();
    return words;
  }

  async #keep() {
    try {
      await this.storage.put(KEPT, this.pins);
    } catch (error) {
      setText(this.said, error instanceof Error ? error.message : String(error));
    }
  }

  /** @param {number} i */
  #drop(i) {
    this.pins = this.pins.filter((_, k) => k !== i);
    this.#keep();
    this.#draw();
    this.pin.focus();
  }

  /** @param {number} i @param {string} name */
  #rename(i, name) {
    this.pins = this.pins.map((p, k) => (k === i ? { ...p, name: name.trim() || p.name } : p));
    this.#keep();
    this.#draw();
  }

  async #draw() {
    this.round += 1;
    const { round, pins } = this;
    if (!this.leaf.open) return;
    this.list.replaceChildren(...pins.map((p, i) => el('li', {},
      el('input', { type: 'text', value: p.name, maxlength: 40, autocomplete: 'off', 'aria-label': say('compare_name', { n: i + 1 }), onchange: (/** @type {Event} */ e) => this.#rename(i, /** @type {HTMLInputElement} */ (e.target).value) }),
      el('button', { type: 'button', onclick: () => this.store.replace(p.job, say('compare_take', { name: p.name })) }, say('compare_take', { name: p.name })),
      el('button', { type: 'button', class: 'quiet', 'aria-label': say('compare_drop', { name: p.name }), onclick: () => this.#drop(i) }, '×'))));
    for (const part of [this.chart.root, this.differsBox, this.tableBox]) part.hidden = pins.length === 0;
    if (pins.length === 0) {
      setText(this.said, say('compare_none'));
      return;
    }
    const all = [...pins, { name: say('compare_now'), job: this.store.job }];
    try {
      const [table, ...curves] = await Promise.all([
        // The table holds four: the job as it is now gives way to what is pinned.
        this.engine.call('compare', { jobs: all.slice(0, MOST) }, { latest: 'compare', background: true }),
        ...all.map((p) => this.#levels(p.job)),
      ]);
      if (round !== this.round) return;
      this.#table(table.reply);
      this.#curves(all, curves);
    } catch (error) {
      if (round !== this.round || (error instanceof EngineError && (error.kind === 'superseded' || error.kind === 'cancelled'))) return;
      setText(this.said, say('trouble', { why: error instanceof Error ? error.message : String(error) }));
    }
  }

  /** The sum at the seat that the page hears. @param {import('../job.js').Job} job */
  async #levels(job) {
    const seat = this.model?.seat ?? job.aim.seat;
    const known = this.curves.get(job)?.get(seat);
    if (known) return known;
    const { reply, floats } = await this.engine.call('evaluate', { job }, { background: true });
    const at = (/** @type {string} */ id) => {
      const c = /** @type {import('../views/model.js').CurveMeta[]} */ (reply.curves ?? []).find((m) => m.id === id);
      return c ? floats.slice(c.offset, c.offset + c.length) : new Float64Array();
    };
    const levels = { freq: at('freq'), values: at(`level/sum/${reply.seats?.includes(seat) ? seat : reply.seats?.[0]}`) };
    const bySeat = this.curves.get(job) ?? new Map();
    bySeat.set(seat, levels);
    this.curves.set(job, bySeat);
    return levels;
  }

  /** @param {CompareReply} reply */
  #table(reply) {
    this.table.replaceChildren(
      el('thead', {}, el('tr', {}, el('td'), ...reply.columns.map((c) => el('th', { scope: 'col' }, c)))),
      el('tbody', {}, ...reply.rows.map((r) => el('tr', { class: r.differs ? null : 'alike' }, el('th', { scope: 'row' }, r.name),
        ...r.words.map((w, i) => el('td', {}, w, r.best === i ? el('small', {}, ` ${say('compare_best')}`) : null))))));
    this.differs.replaceChildren(...(reply.say?.length ? reply.say : [say('compare_same')]).map((w) => el('li', {}, w)));
  }

  /** @param {Pinned[]} all @param {{freq: Float64Array, values: Float64Array}[]} curves */
  #curves(all, curves) {
    const freq = curves[curves.length - 1]?.freq;
    if (!freq || freq.length === 0) return;
    const drawn = all.map((p, i) => ({ p, c: curves[i], i })).filter(({ c }) => c !== undefined && c.values.length === freq.length);
    setText(this.chart.heading, say('compare_curves', { seat: sayOfShared('seat', this.model?.seat ?? '').toLowerCase() }));
    this.chart.update({
      freq, unit: 'dB', digits: 1,
      summary: drawn.map(({ p, c }) => say('compare_level', { name: p.name, level: formatNumber(valueAt(freq, c?.values ?? [], 40), 0) })).join('; '),
      series: drawn.map(({ p, c, i }) => ({ key: `v${i === all.length - 1 ? 'now' : i}`, label: p.name, kind: i === all.length - 1 ? 'sum' : KINDS[i] ?? 'guide', values: c?.values ?? [] })),
    });
  }
}
