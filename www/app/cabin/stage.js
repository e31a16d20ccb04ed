// The cabin drawn large, in place of the whole car: measured, or filled with
// the pressure or a standing wave. Side and plan stand beside each other where
// there is room, else the reader turns the car.

import { el, freshId, setAttr, setText } from '../dom.js';
import { formatNumber } from '../format.js';
import { outlineOf } from '../views/car-side.js';
import { People } from './people.js';
import { Pressure } from './pressure.js';
import { Projection, TAPE_ROOM } from './projection.js';
import { addStation, removeStation, shiftMarks } from './shape.js';
import { Tape } from './tape.js';
import { WavesView } from './waves.js';
import { say } from './words.js';

/** @typedef {import('../views/model.js').Model} Model */
/** @typedef {'tape'|'pressure'|'waves'} Look */
/** @typedef {'side'|'above'} Way */

/** From this width on both views have room beside each other, px. */
const BOTH = 900;
const GAP = 24;

/**
 * Choices side by side, as native radio buttons.
 * @template {string} T
 * @param {string} label @param {T[]} values @param {(value: T) => string} name @param {(value: T) => void} choose
 */
function segments(label, values, name, choose) {
  const group = freshId('segments');
  const inputs = values.map((value) => el('input', { type: 'radio', name: group, value, onchange: () => choose(value) }));
  const root = el('div', { class: 'segments', role: 'radiogroup', 'aria-label': label }, ...values.map((value, i) => el('label', { class: 'segment' }, inputs[i] ?? null, el('span', {}, name(value)))));
  return { root, show: (/** @type {T} */ value) => { for (const input of inputs) input.checked = input.value === value; } };
}

export class CabinStage {
  /**
   * @param {import('../store.js').Store} store
   * @param {import('../engine.js').Engine} engine
   * @param {import('../chart-cursor.js').Cursor} cursor
   * @param {() => void} leave back to the whole car
   */
  constructor(store, engine, cursor, leave) {
    this.store = store;
    /** @type {Model|null} */
    this.model = null;
    /** @type {Look} */
    this.look = 'tape';
    /** @type {Way} */
    this.way = 'side';
    this.held = false;
    this.width = 0;
    this.side = new Projection('side');
    this.above = new Projection('above');
    const views = [this.side, this.above];
    const hold = (/** @type {boolean} */ held) => {
      this.held = held;
      if (!held) this.draw();
    };
    this.tapes = views.map((v) => new Tape(store, v, hold));
    // One walk with Enter takes in every reading: after the heights the widths.
    const [along, across] = this.tapes;
    if (along) along.onLast = () => { this.way = 'above'; this.draw(); across?.begin(); };
    this.people = views.map((v) => new People(store, v, hold));
    this.pressure = new Pressure(engine, views, cursor);
    this.waves = new WavesView(engine, views);
    this.pressure.onTurn = () => this.#notes();
    this.waves.onTurn = () => this.#notes();

    this.looks = segments(say('look_tape'), /** @type {Look[]} */ (['tape', 'pressure', 'waves']), (v) => say(`look_${v}`), (v) => this.show(v));
    setAttr(this.looks.root, 'aria-label', say('look'));
    this.ways = segments(say('cut'), /** @type {Way[]} */ (['side', 'above']), (v) => say(v), (v) => { this.way = v; this.draw(); });
    this.more = el('button', { type: 'button', class: 'quiet', onclick: () => this.#add() }, say('more_places'));
    this.fewer = el('button', { type: 'button', class: 'quiet', onclick: () => this.#remove() });
    this.places = el('div', { class: 'cab-places' }, this.more, this.fewer);
    this.views = el('div', { class: 'cab-views' }, this.side.root, this.above.root);
    this.root = el('section', { class: 'cab-stage', 'aria-label': say('stage'), hidden: true },
      el('div', { class: 'cab-head' }, this.looks.root, this.ways.root, el('button', { type: 'button', class: 'quiet cab-leave', onclick: leave, 'aria-label': say('whole_car') }, el('span', {}, say('whole_car')), el('span', {}, say('car')))),
      this.views, this.places, this.pressure.root, this.waves.root);
    this.root.addEventListener('focusin', () => this.#places());
    new ResizeObserver(([entry]) => {
      const width = entry ? Math.round(entry.contentRect.width) : 0;
      if (width === this.width) return;
      this.width = width;
      this.draw();
    }).observe(this.views);
  }

  /** @param {Look} look */
  show(look) {
    this.look = look;
    this.calculated = true;
    this.draw();
  }

  /** @param {Model} model @param {boolean} calculated */
  update(model, calculated) {
    this.model = model;
    this.calculated = calculated;
    if (!this.root.hidden) this.draw();
  }

  draw() {
    const { model, width, look } = this;
    if (!model || width < 200 || this.root.hidden) return;
    const both = width >= BOTH;
    this.side.root.hidden = !both && this.way !== 'side';
    this.above.root.hidden = !both && this.way !== 'above';
    this.ways.root.hidden = both;
    this.looks.show(look);
    this.ways.show(this.way);
    setAttr(this.root, 'data-look', look);
    if (!this.held) this.#settle(model, both);
    const outline = outlineOf(model);
    const views = [this.side, this.above];
    for (const v of views) if (!v.root.hidden) v.draw(model, outline);
    views.forEach((v, i) => this.tapes[i]?.update(model, look === 'tape' && !v.root.hidden));
    if (look === 'tape') for (const v of views) v.canvas.hidden = true;
    this.pressure.update(model, look === 'pressure', this.calculated ?? false);
    this.waves.update(model, look === 'waves');
    this.calculated = false;
    this.#notes();
    this.places.hidden = look !== 'tape' || model.job.car.cabin.shape !== 'stations';
    this.#places();
  }

  /** @param {Model} model @param {boolean} both */
  #settle(model, both) {
    const short = this.width < 560;
    const most = short ? Math.max(270, window.innerHeight * 0.37) : Math.max(300, Math.min(480, window.innerHeight * (both ? 0.44 : 0.36)));
    const each = both ? (this.width - GAP) / 2 : this.width;
    const scales = [this.side, this.above].filter((v) => !v.root.hidden).map((v) => Projection.scale(model, v.way, each, v.way === 'side' ? most - TAPE_ROOM : most));
    const scale = Math.min(...scales);
    for (const v of [this.side, this.above]) if (!v.root.hidden) v.settle(model, Math.round(each), scale, this.look === 'tape' && v.way === 'side' ? TAPE_ROOM : 0);
  }

  #notes() {
    const { model, look } = this;
    if (!model) return;
    const note = look === 'pressure' ? (/** @type {import('../job.js').Seat} */ s) => { const v = this.pressure.levelAt(s); return Number.isFinite(v) ? `${formatNumber(v, 0)}\u00a0dB` : ''; }
      : look === 'waves' ? (/** @type {import('../job.js').Seat} */ s) => this.waves.shareAt(s) : null;
    [this.side, this.above].forEach((v, i) => this.people[i]?.update(model, !v.root.hidden, note));
  }

  /** The station whose number or handle was last in use; -1 for none that may go. */
  get station() {
    const key = this.tapes.map((t) => t.last).find((k) => k !== null) ?? '';
    return Number(/\d+$/.exec(key)?.[0] ?? -1);
  }

  #places() {
    const stations = this.model?.job.car.cabin.stations ?? [];
    setAttr(this.more, 'disabled', !addStation(stations));
    const i = this.station;
    this.fewer.hidden = !removeStation(stations, i);
    setText(this.fewer, say('fewer_places', { place: say('place_n', { n: i + 1 }) }));
  }

  #add() {
    const { job } = this.store;
    const added = addStation(job.car.cabin.stations ?? []);
    if (!added) return;
    const array = '/car/cabin/stations';
    const marks = shiftMarks(job.assumed ?? [], array, added.at, 1);
    const fresh = ['x_mm', 'floor_mm', 'roof_mm', 'width_mm'].map((k) => `${array}/${added.at}/${k}`);
    this.store.setAll([], { label: say('more_places'), follow: [[array, added.stations], ['/assumed', [...marks, ...fresh]]] });
    this.tapes[0]?.focus(`along${added.at}`);
  }

  #remove() {
    const { job } = this.store;
    const i = this.station;
    const left = removeStation(job.car.cabin.stations ?? [], i);
    if (!left) return;
    const array = '/car/cabin/stations';
    for (const t of this.tapes) t.last = null;
    this.store.setAll([], { label: say('fewer_places', { place: say('place_n', { n: i + 1 }) }), follow: [[array, left], ['/assumed', shiftMarks(job.assumed ?? [], array, i, -1)]] });
  }
}
