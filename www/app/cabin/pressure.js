// The pressure in the car at one frequency, painted into the views of the
// cabin: the same frequency as the cursor of the charts.

import { valueAt } from '../chart-path.js';
import { el, setAttr, setText } from '../dom.js';
import { formatHz, formatNumber } from '../format.js';
import { EngineError } from '../protocol.js';
import { cutOutline } from './cut.js';
import { edges, readColour, shadeOf, shades } from './palette.js';
import { paint } from './picture.js';
import { say, seatsInWords } from './words.js';

/** @typedef {import('../views/model.js').Model} Model */
/** @typedef {import('./projection.js').Projection} Projection */
/** @typedef {{tiles: import('./picture.js').Tile[], outside: number, at: number, hz: number}} Cut */

export const COLUMNS = 64;
export const ROWS = 34;
const STEPS = 300;
/** Span of the frequency slider, Hz. */
const FROM = 15;
const TO = 200;
/** Shades, and how far apart, dB. */
const SHADES = 8;
const STEP_DB = 3;
/** Seats that differ by less hear the same. */
const EVEN_DB = 2;

/** The page's own colours, as they are now. @param {Element} root */
export function inks(root) {
  const style = getComputedStyle(root);
  const read = (/** @type {string} */ name, /** @type {import('./palette.js').Rgb} */ otherwise) => readColour(style.getPropertyValue(name), otherwise);
  return { paper: read('--body', [252, 250, 244]), hue: read('--doors', [25, 96, 126]), ink: read('--ink', [29, 42, 51]) };
}

/**
 * Tiles of a reply with their numbers.
 * @param {{tiles: (import('./picture.js').Tile & {offset: number, length: number})[]|null}} reply
 * @param {Float64Array} floats
 */
export function tilesOf(reply, floats) {
  return (reply.tiles ?? []).map((t) => ({ ...t, values: floats.slice(t.offset, t.offset + t.length) }));
}

/** Where the plane of a view cuts the car: through the ears that listen, mm. @param {Model} model @param {'side'|'above'} way */
export function cutAt(model, way) {
  const seat = model.job.car.seats.find((s) => s.id === model.seat) ?? model.job.car.seats[0];
  return (way === 'side' ? seat?.y_mm : seat?.z_mm) ?? 0;
}

export class Pressure {
  /**
   * @param {import('../engine.js').Engine} engine
   * @param {Projection[]} views
   * @param {import('../chart-cursor.js').Cursor} cursor
   */
  constructor(engine, views, cursor) {
    this.engine = engine;
    this.views = views;
    this.cursor = cursor;
    /** @type {Map<Projection, Cut>} */
    this.cuts = new Map();
    this.shown = false;
    /** @type {Model|null} */
    this.model = null;
    this.slider = el('input', { type: 'range', min: 0, max: STEPS, step: 1, 'aria-label': say('pressure_hz') });
    this.hz = el('output', { class: 'cab-hz' });
    this.key = el('ol', { class: 'cab-key', 'aria-label': say('scale') });
    this.said = el('p', { class: 'cab-said', role: 'status' });
    this.root = el('div', { class: 'cab-pressure' }, el('div', { class: 'cab-slide' }, this.hz, this.slider), this.key, this.said);
    this.slider.addEventListener('input', () => cursor.set(Math.round(FROM * (TO / FROM) ** (Number(this.slider.value) / STEPS) * 10) / 10));
    cursor.subscribe(() => {
      if (this.shown) this.#turn();
    });
  }

  /** Frequency of the picture: the cursor's, as far as the picture goes. */
  get at() {
    return Math.min(TO, Math.max(FROM, this.cursor.hz));
  }

  /** @param {Model} model @param {boolean} shown @param {boolean} calculated the engine has answered for this job */
  update(model, shown, calculated) {
    const began = shown && !this.shown;
    this.model = model;
    this.shown = shown;
    this.root.hidden = !shown;
    if (!shown) return;
    if (began || calculated) this.#turn();
    else this.draw();
  }

  /** What a seat hears of it, dB; NaN where nothing is known. @param {import('../job.js').Seat} seat */
  levelAt(seat) {
    const freq = this.model?.curve('freq');
    const sum = this.model?.curve(`level/sum/${seat.id}`);
    return freq && sum ? valueAt(freq, sum, this.at) : NaN;
  }

  /** Called when the notes at the seats are of another frequency. */
  onTurn = () => {};

  #turn() {
    setText(this.hz, formatHz(this.at));
    const step = String(Math.round(STEPS * Math.log(this.at / FROM) / Math.log(TO / FROM)));
    if (document.activeElement !== this.slider) this.slider.value = step;
    setAttr(this.slider, 'aria-valuetext', formatHz(this.at));
    this.onTurn();
    for (const view of this.views) if (!view.root.hidden) this.#ask(view);
  }

  /** @param {Projection} view */
  async #ask(view) {
    const { model, engine } = this;
    if (!model) return;
    const at = cutAt(model, view.way);
    const hz = this.at;
    try {
      const { reply, floats } = await engine.call('map', { job: model.job, hz, plane: { side: view.way === 'side', at_mm: at, columns: COLUMNS, rows: ROWS } }, { latest: `map-${view.way}` });
      if (!floats || !reply.tiles?.length) {
        const why = reply.findings?.find((/** @type {{level: string}} */ f) => f.level === 'error')?.say ?? '';
        this.cuts.delete(view);
        setText(this.said, why ? say('no_picture', { why }) : '');
      } else this.cuts.set(view, { tiles: tilesOf(reply, floats), outside: reply.outside, at, hz });
      if (this.shown) this.draw();
    } catch (error) {
      if (error instanceof EngineError && (error.kind === 'superseded' || error.kind === 'cancelled')) return;
      setText(this.said, say('no_picture', { why: error instanceof Error ? error.message : String(error) }));
    }
  }

  draw() {
    const { model } = this;
    if (!model) return;
    const seen = this.views.filter((v) => !v.root.hidden && this.cuts.has(v));
    let high = -Infinity;
    let low = Infinity;
    for (const view of seen) {
      const cut = /** @type {Cut} */ (this.cuts.get(view));
      // A boot of its own may be far louder: the steps are the cabin's, where people sit.
      for (const t of cut.tiles.filter((q) => q.room === 'cabin')) for (const v of Array.from(t.values)) if (v !== cut.outside && Number.isFinite(v)) { high = Math.max(high, v); low = Math.min(low, v); }
    }
    for (const view of this.views) view.canvas.hidden = !seen.includes(view);
    if (!seen.length || !Number.isFinite(high)) return;
    const { paper, hue, ink } = inks(this.root);
    const ramp = shades(paper, hue, ink, SHADES);
    const rising = edges(high, STEP_DB, SHADES);
    for (const view of seen) {
      const cut = /** @type {Cut} */ (this.cuts.get(view));
      paint(view.canvas, view.width, view.height, {
        tiles: cut.tiles, outside: cut.outside, at: (x, v) => view.at(x, v), shades: ramp, line: ink,
        rooms: cut.tiles.map((t) => cutOutline(model.job.car, t.room, view.way, cut.at)), shade: (v) => shadeOf(v, rising),
      });
      setAttr(view.canvas, 'aria-label', say(view.way === 'side' ? 'picture_side' : 'picture_above'));
    }
    this.#key(ramp, rising);
    const cut = /** @type {Cut} */ (this.cuts.get(/** @type {Projection} */ (seen[0])));
    const seats = model.job.car.seats.map((s) => ({ name: seatsInWords([s.id]), level: this.levelAt(s) })).sort((a, b) => b.level - a.level);
    const span = Math.max(1, Math.round(high - low));
    const first = seats[0];
    const last = seats.at(-1);
    setText(this.said, first && last && first.level - last.level >= EVEN_DB ? say('pressure_say', { hz: formatHz(cut.hz), high: first.name, low: last.name, span }) : say('pressure_even', { hz: formatHz(cut.hz), span }));
  }

  /** @param {import('./palette.js').Rgb[]} ramp @param {number[]} rising */
  #key(ramp, rising) {
    if (this.key.childElementCount !== ramp.length) this.key.replaceChildren(...ramp.map(() => el('li', {}, el('span', { class: 'cab-swatch' }), el('b'))));
    ramp.forEach((rgb, i) => {
      const item = /** @type {HTMLElement} */ (this.key.children[i]);
      /** @type {HTMLElement} */ (item.children[0]).style.setProperty('background-color', `rgb(${rgb.join(' ')})`);
      setText(/** @type {Element} */ (item.children[1]), i === 0 ? '' : formatNumber(rising[i - 1] ?? 0, 0));
    });
  }
}
