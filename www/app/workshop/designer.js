// The designer: asks what "best" means and within what bounds, has every type
// tried in this car, and shows what came of it.

import { boxSize } from '../car-box.js';
import { el, setAttr, setText } from '../dom.js';
import { formatHz, formatNumber, formatWithUnit } from '../format.js';
import { sayOf as sayOfShared } from '../words.js';
import { airLitres } from './box-geometry.js';
import { BOX_TYPES } from './box-starts.js';
import { NumberEntry, choice, tick } from './entry.js';
import { Leaf } from './leaf.js';
import { TradeChart, reachWords } from './trade-chart.js';
import { Work } from './work.js';
import { say, sayOf } from './words.js';

/**
 * @typedef {import('../views/model.js').Model} Model
 * @typedef {import('./replies.js').Design} Design
 * @typedef {import('./replies.js').DesignReply} DesignReply
 */

/** Types that are tried unless the reader says otherwise. */
const USUAL = ['sealed', 'vented', 'passive_radiator'];
const AIMS = /** @type {const} */ (['balanced', 'lowest', 'loudest', 'even', 'smallest']);

export class Designer {
  /**
   * @param {import('../store.js').Store} store
   * @param {import('../engine.js').Engine} engine
   */
  constructor(store, engine) {
    this.store = store;
    /** @type {Model|null} */
    this.model = null;
    this.index = 0;
    /** @type {typeof AIMS[number]} */
    this.aim = 'balanced';
    this.slope = 0;
    this.types = new Set(USUAL);
    this.fits = true;
    /** @type {DesignReply|null} */
    this.reply = null;
    /** The job that the reply is about, box and place apart. */
    this.about = '';

    this.leaf = new Leaf(say('design_title'), { docked: true, onClose: () => this.work.cancel() });
    this.lead = el('p', { class: 'told' });
    this.aimSay = el('p', { class: 'told' });
    const bound = (/** @type {Parameters<typeof say>[0]} */ label, /** @type {import('../units.js').QuantityName} */ quantity, /** @type {number} */ min, /** @type {number} */ max) => new NumberEntry({ label: say(label), quantity, min, max, optional: true });
    this.entries = { from: bound('from_hz', 'fine_hz', 10, 200), to: bound('to_hz', 'fine_hz', 15, 300), least: bound('net_min', 'litres', 1, 500), most: bound('net_max', 'litres', 1, 500), port: bound('port_most', 'mm', 20, 5000), speed: bound('speed_most', 'air_speed', 1, 100) };
    this.slopes = choice({ label: say('slope'), list: true, value: 0, choices: [[0, say('slope_flat')], [1.5, say('slope_house')], [3, say('slope_steep')]], onChange: (v) => { this.slope = v; } });
    this.work = new Work(engine, say('design_go'), () => this.#find());
    this.stale = el('p', { class: 'told', hidden: true }, say('design_stale'));
    this.results = el('div', { class: 'design-list' });
    this.trade = new TradeChart((line, point) => this.#touch(line, point));
    this.tradeBox = el('section', { class: 'group', hidden: true }, el('h3', {}, say('trade')), el('p', { class: 'told' }, say('trade_lead')), this.trade.root);
    this.classics = el('ul', { class: 'classics' });
    this.classicBox = el('details', { class: 'group', hidden: true }, el('summary', {}, say('alignments')), el('p', { class: 'told' }, say('alignments_lead')), this.classics);
    this.leaf.extras.append(el('button', { type: 'button', class: 'quiet', onclick: () => this.#undo() }, say('undo')));
    this.leaf.body.append(this.lead,
      el('section', { class: 'group' },
        choice({ label: say('aim'), list: true, value: this.aim, choices: AIMS.map((a) => [a, say(`aim_${a}`)]), onChange: (v) => { this.aim = v; this.#tellAim(); } }), this.aimSay, this.slopes),
      el('details', { class: 'group' }, el('summary', {}, say('types')), el('div', { class: 'ticks' }, ...Object.keys(BOX_TYPES).map((t) => tick({
        label: sayOf('type', t), checked: this.types.has(t), onChange: (on) => { if (on) this.types.add(t); else this.types.delete(t); },
      })))),
      el('details', { class: 'group' }, el('summary', {}, say('bounds')),
        tick({ label: say('must_fit'), checked: true, onChange: (on) => { this.fits = on; } }),
        ...Object.values(this.entries).map((e) => e.root), el('p', { class: 'told' }, say('or_less'))),
      this.work.root, this.stale, this.results, this.tradeBox, this.classicBox);
  }

  /** @param {number} index of the sub */
  open(index) {
    this.index = index;
    if (this.model) this.update(this.model);
    this.leaf.show();
  }

  /** @param {Model} model */
  update(model) {
    this.model = model;
    if (!this.leaf.open && this.about) this.#tellStale();
    const { system, job } = model;
    setText(this.lead, say('design_lead', { seat: sayOfShared('seat', job.aim.seat).toLowerCase() }));
    for (const e of Object.values(this.entries)) e.show(e.value, system);
    this.#tellAim();
    this.#tellStale();
  }

  #tellAim() {
    const { model } = this;
    if (!model) return;
    const e = this.entries;
    setAttr(e.from.input, 'placeholder', formatNumber(model.job.aim.lowest_hz, 0));
    setText(this.aimSay, say(`aim_say_${this.aim}`, { level: `${formatNumber(model.job.aim.level_db, 0)} dB`, hz: formatHz(model.job.aim.lowest_hz) }));
    this.slopes.hidden = this.aim !== 'even';
  }

  #tellStale() {
    this.stale.hidden = !this.reply || this.about === this.#key();
    this.root?.classList.toggle('stale', !this.stale.hidden);
  }

  get root() {
    return this.leaf.root;
  }

  /** All that a design depends on: the box that it replaces does not count. */
  #key() {
    const { job } = this.store;
    return JSON.stringify([job.car, job.air, job.aim, job.doors, job.subs.map((s, i) => (i === this.index ? { ...s, box: s.box.panel_mm, place: 0 } : s))]);
  }

  async #find() {
    if (this.types.size === 0) {
      this.work.say(say('types_none'));
      return;
    }
    if (Object.values(this.entries).some((e) => !e.ok)) return;
    const e = this.entries;
    const about = this.#key();
    const request = {
      job: this.store.job, sub: this.index, types: Object.keys(BOX_TYPES).filter((t) => this.types.has(t)),
      goal: { kind: this.aim, from_hz: e.from.value, to_hz: e.to.value, slope_db: this.aim === 'even' ? this.slope : undefined },
      bounds: { net_min_l: e.least.value, net_max_l: e.most.value, port_mm: e.port.value, speed_ms: e.speed.value, fits: this.fits },
    };
    const answer = await this.work.run('design', request, (soFar) => this.#show(soFar, about));
    if (!answer) return;
    this.#show(answer.reply, about);
    setText(this.work.go, say('design_again'));
    const tried = this.reply?.designs.reduce((n, d) => n + d.tried, 0) ?? 0;
    this.work.say(this.reply?.designs.length ? say('design_done', { n: this.reply.designs.length, tried }) : say('design_none'));
  }

  /** @param {DesignReply} reply @param {string} about */
  #show(reply, about) {
    this.reply = reply;
    this.about = about;
    const system = this.model?.system ?? 'metric';
    this.results.replaceChildren(el('h3', {}, say('found_by')), ...reply.designs.map((d) => this.#row(d)),
      ...(reply.failed.length ? [el('details', {}, el('summary', {}, say('failed_types')), ...reply.failed.map((f) => el('p', { class: 'told' }, `${sayOf('type', f.type)}: ${f.say}`)))] : []));
    this.trade.show(reply.designs.map((d) => ({ type: d.type, name: sayOf('type', d.type), points: [...d.trade].sort((a, b) => a.net_l - b.net_l) })), system);
    this.tradeBox.hidden = this.trade.lines.length === 0;
    this.classicBox.hidden = !reply.alignments.length;
    this.classics.replaceChildren(...reply.alignments.map((a) => {
      return el('li', {}, el('div', {}, el('b', {}, a.name), ' ', el('span', {}, a.title), el('p', { class: 'told' }, `${sayOf('type', a.type)}. ${a.say}`)),
        el('button', { type: 'button', 'aria-label': say('align_put', { name: a.title }), onclick: () => this.#putBox(a.box, a.title, false) }, say('apply')));
    }));
    this.#tellStale();
  }

  /** @param {Design} d */
  #row(d) {
    const system = this.model?.system ?? 'metric';
    const name = sayOf('type', d.type);
    const extra = [say('design_ripple', { n: formatNumber(d.ripple_db, 1) }), ...(d.limit_below_hz > 0 && d.limit && d.limit !== 'nothing' ? [say('design_stopped', { hz: formatHz(d.limit_below_hz), limit: d.limit })] : [])];
    return el('div', { class: d.kept ? 'design' : 'design broken' },
      el('h4', {}, name),
      el('button', { type: 'button', class: 'go', 'aria-label': say('align_put', { name }), onclick: () => this.#put(d) }, say('apply')),
      el('p', { class: 'design-does' }, say('design_row', { net: formatWithUnit(d.net_l, 'litres', system), reach: reachWords(d.reach_hz), level: formatNumber(d.level_db, 0) })),
      el('p', { class: 'told' }, extra.join(', ')),
      d.say ? el('p', { class: 'warning' }, d.say) : null,
      d.outside?.say && d.outside.say !== d.say ? el('p', { class: 'told' }, [d.outside.say, d.outside.passes ? d.outside.pass_say : ''].join(' ')) : null,
      d.outside?.pass_say && !d.outside.passes ? el('p', { class: 'warning' }, d.outside.pass_say) : null);
  }

  /** @param {Design} d */
  #put(d) {
    const name = sayOf('type', d.type);
    this.store.endDrag();
    this.store.setAll(d.set.map(({ at, value }) => [at, value]), { label: say('align_put', { name }) });
    this.#told(name);
  }

  /** @param {import('./trade-chart.js').TradeLine} line @param {import('./trade-chart.js').TradePoint} point */
  #touch(line, point) {
    const place = this.reply?.designs.find((d) => d.type === line.type)?.set.find((s) => s.at.endsWith('/place'))?.value;
    this.#putBox(point.box, line.name, true, place);
  }

  /**
   * Puts a box in. Where it stands and how wide and deep it is stays as it is;
   * its height follows from its air.
   * @param {import('../job.js').Box} box
   * @param {string} name
   * @param {boolean} drag one of several in a row: one step to undo
   * @param {import('../job.js').Place} [place]
   */
  #putBox(box, name, drag, place) {
    const sub = this.store.job.subs[this.index];
    if (!sub) return;
    const next = { ...box };
    if (box.type !== 'infinite_baffle' && next.height_mm > 0) {
      next.height_mm = Math.round(boxSize({ box: { ...next, net_l: airLitres(box), front_l: 0 }, driver: sub.driver, drivers: sub.series * sub.parallel, place: place ?? sub.place, boot: this.store.job.car.boot }).height);
    }
    const at = `/subs/${this.index}`;
    this.store.setAll([[`${at}/box`, next], [`${at}/place`, place ?? sub.place]], { drag, label: say('align_put', { name }) });
    if (!drag) this.#told(name);
  }

  /** @param {string} name */
  #told(name) {
    const words = say('applied', { what: name });
    this.work.say(words);
  }

  #undo() {
    if (this.store.undo()) this.work.say(say('undone'));
  }
}
