// The cabin's standing waves as pictures: one large in the views, all of them
// small in a row, each with its frequency and the seats that sit in its null.

import { el, setAttr, setText } from '../dom.js';
import { formatHz, formatNumber } from '../format.js';
import { EngineError } from '../protocol.js';
import { sayOf } from '../words.js';
import { cutOutline } from './cut.js';
import { shadeOf, shades } from './palette.js';
import { paint } from './picture.js';
import { COLUMNS, ROWS, cutAt, inks, tilesOf } from './pressure.js';
import { say, seatsInWords } from './words.js';

/** @typedef {import('../views/model.js').Model} Model */
/** @typedef {import('./projection.js').Projection} Projection */
/** @typedef {{hz: number, seats: number[]}} Wave */
/** @typedef {{waves: Wave[], tiles: import('./picture.js').Tile[], outside: number, at: number}} Waves */

const COUNT = 8;
/** A seat that gets less than this of a wave's mean pressure sits in its null. */
export const NULL_SHARE = 0.3;
/** Shares at which the shade changes; the first is where a null begins. */
const EDGES = [NULL_SHARE, 0.7, 1.1, 1.5, 2];
/** Size of the small pictures, px. */
const THUMB = { width: 92, side: 44, above: 44 };

/**
 * Which seats sit in a wave's null.
 * @param {Wave} wave
 * @param {{id: string}[]} seats in the order of the job
 */
export function nullsOf(wave, seats) {
  return seats.filter((_, i) => Math.abs(wave.seats[i] ?? 1) < NULL_SHARE).map((s) => s.id);
}

export class WavesView {
  /** @param {import('../engine.js').Engine} engine @param {Projection[]} views */
  constructor(engine, views) {
    this.engine = engine;
    this.views = views;
    /** @type {Map<'side'|'above', Waves>} */
    this.cuts = new Map();
    this.asked = '';
    this.chosen = 0;
    this.shown = false;
    /** @type {Model|null} */
    this.model = null;
    this.list = el('div', { class: 'cab-waves', role: 'radiogroup', 'aria-label': say('waves_list') });
    this.said = el('p', { class: 'cab-said', role: 'status' });
    this.root = el('div', { class: 'cab-wave-panel' }, this.list, this.said);
  }

  /** @param {Model} model @param {boolean} shown */
  update(model, shown) {
    this.model = model;
    this.shown = shown;
    this.root.hidden = !shown;
    if (!shown) return;
    const { car, air } = model.job;
    const key = JSON.stringify([car.cabin, car.seats.map((s) => [s.x_mm, s.y_mm, s.z_mm]), air, model.seat]);
    if (key !== this.asked) {
      this.asked = key;
      this.#ask('side');
      this.#ask('above');
    }
    this.draw();
  }

  /** What a seat gets of the chosen wave. @param {import('../job.js').Seat} seat */
  shareAt(seat) {
    const wave = this.#one()?.waves[this.chosen];
    const i = this.model?.job.car.seats.findIndex((s) => s.id === seat.id) ?? -1;
    if (!wave || i < 0) return '';
    const share = Math.abs(wave.seats[i] ?? 0);
    return share < NULL_SHARE ? say('weak') : `${formatNumber(share * 100, 0)}\u00a0%`;
  }

  /** Called when the notes at the seats are of another wave. */
  onTurn = () => {};

  #one() {
    return this.cuts.get('above') ?? this.cuts.get('side');
  }

  /** @param {'side'|'above'} way */
  async #ask(way) {
    const { model, engine } = this;
    if (!model) return;
    const at = cutAt(model, way);
    try {
      const { reply, floats } = await engine.call('map', { job: model.job, modes: COUNT, plane: { side: way === 'side', at_mm: at, columns: COLUMNS, rows: ROWS } }, { latest: `waves-${way}` });
      if (!floats || !reply.modes?.length) return;
      this.cuts.set(way, { waves: reply.modes, tiles: tilesOf(reply, floats), outside: reply.outside, at });
      this.chosen = Math.min(this.chosen, reply.modes.length - 1);
      if (!this.shown) return;
      this.#drawList();
      this.draw();
      this.onTurn();
    } catch (error) {
      this.asked = '';
      if (error instanceof EngineError && (error.kind === 'superseded' || error.kind === 'cancelled')) return;
      setText(this.said, say('no_picture', { why: error instanceof Error ? error.message : String(error) }));
    }
  }

  draw() {
    const { model } = this;
    if (!model) return;
    for (const view of this.views) {
      const cut = this.cuts.get(view.way);
      const tile = cut?.tiles[this.chosen];
      view.canvas.hidden = !tile;
      if (view.root.hidden || !cut || !tile) continue;
      this.#paint(view.canvas, view.width, view.height, view.way, cut, tile, (x, v) => view.at(x, v));
      setAttr(view.canvas, 'aria-label', say('wave_n', { n: this.chosen + 1, hz: formatHz(cut.waves[this.chosen]?.hz ?? 0) }));
    }
    const wave = this.#one()?.waves[this.chosen];
    if (!wave) return;
    const nulls = nullsOf(wave, model.job.car.seats);
    setText(this.said, nulls.length ? say('wave_say', { hz: formatHz(wave.hz), seats: seatsInWords(nulls) }) : say('wave_say_none', { hz: formatHz(wave.hz) }));
  }

  /**
   * @param {HTMLCanvasElement} canvas @param {number} width @param {number} height @param {'side'|'above'} way
   * @param {Waves} cut @param {import('./picture.js').Tile} tile @param {(x: number, v: number) => {x: number, y: number}} at
   */
  #paint(canvas, width, height, way, cut, tile, at) {
    const { paper, hue, ink } = inks(this.root);
    paint(canvas, width, height, {
      tiles: [tile], outside: cut.outside, at, shades: shades(paper, hue, ink, EDGES.length + 1), line: ink, nodes: true,
      rooms: [cutOutline(/** @type {Model} */ (this.model).job.car, 'cabin', way, cut.at)], shade: (v) => shadeOf(Math.abs(v), EDGES),
    });
  }

  #drawList() {
    const { model } = this;
    const waves = this.#one()?.waves ?? [];
    if (!model) return;
    if (this.list.childElementCount !== waves.length) {
      this.list.replaceChildren(...waves.map((_, i) => {
        const input = el('input', { type: 'radio', name: 'cab-wave', checked: i === this.chosen, onchange: () => { this.chosen = i; this.draw(); this.onTurn(); } });
        return el('label', { class: 'cab-wave' }, input, el('canvas', { 'aria-hidden': 'true' }), el('canvas', { 'aria-hidden': 'true' }), el('b'), el('small'));
      }));
    }
    waves.forEach((wave, i) => {
      const [input, side, above, hz, nulls] = /** @type {any} */ (this.list.children[i]).children;
      input.checked = i === this.chosen;
      setText(hz, formatHz(wave.hz));
      const ids = nullsOf(wave, model.job.car.seats);
      setText(nulls, ids.length ? say('wave_nulls', { seats: ids.map((id) => sayOf('seat_short', id).toLowerCase()).join(', ') }) : say('wave_heard'));
      for (const [way, canvas] of /** @type {const} */ ([['side', side], ['above', above]])) {
        const cut = this.cuts.get(way);
        const tile = cut?.tiles[i];
        if (!cut || !tile) continue;
        const scale = Math.min(THUMB.width / ((tile.x1_m - tile.x0_m) * 1000), THUMB[way] / ((tile.v1_m - tile.v0_m) * 1000));
        const high = Math.round((tile.v1_m - tile.v0_m) * 1000 * scale);
        const width = Math.round((tile.x1_m - tile.x0_m) * 1000 * scale);
        canvas.style.setProperty('width', `${width}px`);
        canvas.style.setProperty('height', `${high}px`);
        this.#paint(canvas, width, high, way, cut, tile, (x, v) => ({ x: (x - tile.x0_m * 1000) * scale, y: (tile.v1_m * 1000 - v) * scale }));
      }
    });
  }
}
