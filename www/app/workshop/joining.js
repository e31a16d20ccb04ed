// Joining the sub to the doors: runs the search, shows what it changes and
// why, proposes an equaliser, and writes the settings as a processor wants
// them.

import { Chart } from '../chart.js';
import { createCursor } from '../chart-cursor.js';
import { el, setText } from '../dom.js';
import { formatHz, formatWithUnit } from '../format.js';
import { sayOf as sayOfShared } from '../words.js';
import { NumberEntry, choice, tick } from './entry.js';
import { Leaf } from './leaf.js';
import { SettingsTable, bandWords } from './settings-table.js';
import { Work } from './work.js';
import { say } from './words.js';

/**
 * @typedef {import('../views/model.js').Model} Model
 * @typedef {import('./replies.js').Joined} Joined
 * @typedef {import('./replies.js').Equalised} Equalised
 */

export class Joining {
  /**
   * @param {import('../store.js').Store} store
   * @param {import('../engine.js').Engine} engine
   */
  constructor(store, engine) {
    this.store = store;
    /** @type {Model|null} */
    this.model = null;
    this.slope = 0;
    this.every = false;
    this.filters = false;
    this.bands = 3;
    /** @type {Joined|null} */
    this.joined = null;
    /** @type {Equalised|null} */
    this.equalised = null;

    this.leaf = new Leaf(say('join_title'), { docked: true, onClose: () => { this.work.cancel(); this.eqWork.cancel(); } });
    this.leaf.extras.append(el('button', { type: 'button', class: 'quiet', onclick: () => { if (store.undo()) this.work.say(say('undone')); } }, say('undo')));
    this.none = el('p', { class: 'warning', hidden: true }, say('join_doors'));
    this.corner = new NumberEntry({ label: say('join_corner'), quantity: 'hz', min: 30, max: 300, optional: true, hint: say('join_corner_auto') });
    this.work = new Work(engine, say('join_go'), () => this.#join());
    this.why = el('p', { class: 'join-why' });
    this.notes = el('ul', { class: 'join-notes' });
    this.table = el('table', { class: 'settings' });
    const cursor = createCursor(80);
    this.chart = new Chart({ title: '', span: { step: 10, span: 40 }, cursor });
    this.take = el('button', { type: 'button', class: 'go', onclick: () => this.#take() }, say('join_take'));
    this.result = el('section', { class: 'join-result', hidden: true }, this.why, this.take, this.table, this.notes, this.chart.root);

    this.eqWork = new Work(engine, say('eq_go'), () => this.#equalise());
    this.eqSay = el('p', { class: 'join-why' });
    this.eqList = el('ul', { class: 'join-notes' });
    this.eqTake = el('button', { type: 'button', class: 'go', onclick: () => this.#takeBands() }, say('eq_take'));
    this.eqResult = el('div', { hidden: true }, this.eqSay, this.eqList, this.eqTake);
    this.eqLead = el('p', { class: 'told' });
    this.settings = new SettingsTable();

    this.form = el('section', { class: 'group' },
      choice({ label: say('join_target'), list: true, value: 0, choices: [[0, say('slope_flat')], [-1.5, say('slope_house')], [-3, say('slope_steep')]], onChange: (v) => { this.slope = v; } }),
      choice({ label: say('join_seats'), list: true, value: false, choices: [[false, say('join_seat_main')], [true, say('join_seats_all')]], onChange: (v) => { this.every = v; } }),
      this.corner.root, tick({ label: say('join_filters'), checked: false, onChange: (v) => { this.filters = v; } }));
    this.leaf.body.append(el('p', { class: 'told' }, say('join_lead')), this.none, this.form, this.work.root, this.result,
      el('details', { class: 'group' }, el('summary', {}, say('eq_title')), this.eqLead,
        choice({ label: say('eq_bands'), list: true, value: 3, choices: [1, 2, 3, 4, 5, 6].map((n) => [n, String(n)]), onChange: (v) => { this.bands = v; } }),
        this.eqWork.root, this.eqResult),
      this.settings.root, el('p', { class: 'caution' }, say('hearing')));
  }

  open() {
    if (this.model) this.#draw(this.model);
    this.leaf.show();
  }

  /** @param {Model} model */
  update(model) {
    this.model = model;
    if (this.leaf.open) this.#draw(model);
  }

  /** @param {Model} model */
  #draw({ job, system }) {
    this.none.hidden = job.doors.fitted;
    this.form.hidden = !job.doors.fitted;
    this.work.root.hidden = !job.doors.fitted;
    this.corner.show(this.corner.value, system);
    setText(this.eqLead, say('eq_lead', { seat: sayOfShared('seat', job.aim.seat).toLowerCase() }));
    this.settings.update([
      ...job.subs.map((s, i) => ({ name: job.subs.length > 1 ? `${say('set_sub')} ${i + 1}` : say('set_sub'), channel: s.channel })),
      ...(job.doors.fitted ? [{ name: say('set_doors'), channel: job.doors.channel }] : []),
    ], system);
  }

  #seats() {
    const { job } = this.store;
    return this.every ? job.car.seats.filter((s) => s.occupied).map((s) => s.id) : undefined;
  }

  async #join() {
    if (!this.corner.ok) return;
    const answer = await this.work.run('join', { job: this.store.job, options: { seats: this.#seats(), target: { db_per_octave: this.slope }, crossover_hz: this.corner.value, change_filters: this.filters } });
    const r = /** @type {Joined|undefined} */ (answer?.reply.result);
    if (!r) return;
    this.joined = r;
    this.result.hidden = false;
    this.take.hidden = !r.changed;
    setText(this.why, r.say);
    const system = this.model?.system ?? 'metric';
    const db = (/** @type {number} */ v) => formatWithUnit(v, 'decibels', system);
    const dip = (/** @type {import('./replies.js').Ripple} */ x) => (x.dip_db > 0 ? say('join_dip_at', { db: db(x.dip_db), hz: formatHz(x.dip_hz) }) : db(0));
    this.table.replaceChildren(
      el('thead', {}, el('tr', {}, el('td'), el('th', { scope: 'col' }, say('join_before')), el('th', { scope: 'col' }, say('join_after')))),
      el('tbody', {}, ...[
        [say('join_ripple'), db(r.before.rms_db), db(r.after.rms_db)], [say('join_likely'), db(r.before.likely_db), db(r.after.likely_db)],
        [say('join_dip'), dip(r.before), dip(r.after)], [say('join_peak'), db(r.before.peak_db), db(r.after.peak_db)],
      ].map(([name, before, after]) => el('tr', {}, el('th', { scope: 'row' }, name ?? ''), el('td', {}, before ?? ''), el('td', {}, after ?? '')))));
    this.notes.replaceChildren(...(r.notes ?? []).map((n) => el('li', {}, n)), el('li', {}, say('join_by_path', { ms: formatWithUnit(r.geometry_ms, 'milliseconds', system) })));
    setText(this.chart.heading, say('join_curve', { seat: sayOfShared('seat', r.seats[0] ?? '').toLowerCase() }));
    this.chart.update({
      freq: Float64Array.from(r.hz), unit: 'dB', digits: 1, summary: '',
      series: [
        { key: 'before', label: say('join_before'), kind: 'guide', values: r.before_db[0] ?? [] },
        { key: 'after', label: say('join_after'), kind: 'sum', values: r.after_db[0] ?? [] },
      ],
    });
    if (!r.changed) this.work.say(say('join_same'));
  }

  #take() {
    const r = this.joined;
    if (!r) return;
    this.store.endDrag();
    this.store.setAll([...r.subs.map((c, i) => /** @type {[string, any]} */ ([`/subs/${i}/channel`, c])), ['/doors/channel', r.doors]], { label: say('join_title') });
    this.work.say(say('join_taken'));
    this.take.hidden = true;
  }

  async #equalise() {
    const answer = await this.eqWork.run('equalise', { job: this.store.job, options: { seats: this.#seats(), bands: this.bands, target: { db_per_octave: this.slope } } });
    const r = /** @type {Equalised|undefined} */ (answer?.reply.result);
    if (!r) return;
    this.equalised = r;
    const filters = r.filters ?? [];
    this.eqResult.hidden = false;
    this.eqTake.hidden = filters.length === 0;
    setText(this.eqSay, r.say || say('eq_none'));
    this.eqList.replaceChildren(...filters.map((f, i) => el('li', {}, r.reasons?.[i] ?? bandWords(f))));
  }

  #takeBands() {
    const filters = this.equalised?.filters ?? [];
    const { job } = this.store;
    this.store.endDrag();
    this.store.setAll([
      ...job.subs.map((s, i) => /** @type {[string, any]} */ ([`/subs/${i}/channel/filters`, [...s.channel.filters, ...filters]])),
      ...(job.doors.fitted ? [/** @type {[string, any]} */ (['/doors/channel/filters', [...job.doors.channel.filters, ...filters]])] : []),
    ], { label: say('eq_title') });
    this.eqWork.say(say('join_taken'));
    this.eqTake.hidden = true;
  }
}
