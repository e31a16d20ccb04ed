// How sure: once the finger rests, the engine varies the job within its
// tolerances; what comes back stands behind the curves as a tint and under the
// answer in words.

import { el, setAttr, setText, svg } from '../dom.js';
import { formatNumber } from '../format.js';
import { EngineError } from '../protocol.js';
import { say } from './words.js';

/** @typedef {import('../views/model.js').Model} Model */
/** @typedef {import('../chart.js').Chart} Chart */
/** @typedef {{low: number, high: number}} Spread */
/** @typedef {{job: import('../job.js').Job, reach: Spread, level: Spread, freq: Float64Array, curves: Map<string, Float64Array>}} Sure */

const IDLE_MS = 250;
/** The answer tells no reach below this, Hz. */
const LOWEST_HZ = 20;

/** Which curve of the engine a series of a chart is. @param {string} key @param {string} seat */
function curveOf(key, seat) {
  switch (key) {
    case 'sum': return `level/sum/${seat}`;
    case 'sub': return `level/sub/${seat}`;
    case 'max': return `max/sub/${seat}`;
    case 'gain': return `gain/${seat}`;
    default: return '';
  }
}

/**
 * The outline of a band: along its lower edge and back along the upper.
 * @param {ArrayLike<number>} freq
 * @param {ArrayLike<number>} low @param {ArrayLike<number>} high
 * @param {(hz: number) => number} toX @param {(v: number) => number} toY
 * @param {[from: number, to: number]} span Hz that the paper shows
 */
export function bandPath(freq, low, high, toX, toY, [from, to]) {
  /** @type {string[]} */
  const there = [];
  /** @type {string[]} */
  const back = [];
  const tenth = (/** @type {number} */ v) => Math.round(Math.max(-2000, Math.min(4000, v)) * 10) / 10;
  for (let i = 0; i < freq.length; i += 1) {
    const hz = /** @type {number} */ (freq[i]);
    const a = /** @type {number} */ (low[i]);
    const b = /** @type {number} */ (high[i]);
    if (!(hz >= from * 0.999 && hz <= to * 1.001) || !Number.isFinite(a) || !Number.isFinite(b)) continue;
    const x = tenth(toX(hz));
    there.push(`${x} ${tenth(toY(a))}`);
    back.push(`${x} ${tenth(toY(b))}`);
  }
  return there.length > 1 ? `M${there.join('L')}L${back.reverse().join('L')}Z` : '';
}

/**
 * A spread in words: "24 to 31 Hz", or "about 27 Hz" where both ends read alike.
 * @param {Spread} s
 * @param {'between_hz'|'between_db'} key
 */
export function spreadInWords(s, key) {
  if (key === 'between_hz' && s.low < LOWEST_HZ) {
    return s.high <= LOWEST_HZ ? say('below_hz', { low: LOWEST_HZ }) : say('below_to_hz', { low: LOWEST_HZ, high: formatNumber(s.high, 0) });
  }
  const low = formatNumber(s.low, 0);
  const high = formatNumber(s.high, 0);
  const unit = key === 'between_hz' ? 'Hz' : 'dB';
  return low === high ? say('about', { v: `${high}\u00a0${unit}` }) : say(key, { low, high });
}

export class Confidence {
  /**
   * @param {import('../engine.js').Engine} engine
   * @param {Chart[]} charts
   * @param {HTMLElement} answer where the words go
   */
  constructor(engine, charts, answer) {
    this.engine = engine;
    this.timer = 0;
    /** @type {AbortController|null} */
    this.running = null;
    /** @type {Sure|null} */
    this.sure = null;
    /** @type {Model|null} */
    this.model = null;
    this.words = el('p', { class: 'cab-sure' });
    answer.append(this.words);
    this.charts = charts.map((chart) => {
      const group = svg('g', { class: 'cab-bands' });
      chart.paper.curves.prepend(group);
      const one = { chart, group };
      chart.onDrawn = () => this.#draw(one);
      return one;
    });
  }

  /** @param {Model} model @param {boolean} calculated */
  update(model, calculated) {
    const other = this.model?.job !== model.job;
    this.model = model;
    if (other) this.#stop();
    if (calculated && model.reply && !model.stale && this.sure?.job !== model.job && !this.running) {
      clearTimeout(this.timer);
      this.timer = window.setTimeout(() => this.#ask(), IDLE_MS);
    }
    this.#show();
  }

  #stop() {
    clearTimeout(this.timer);
    this.running?.abort();
    this.running = null;
  }

  async #ask() {
    const { model } = this;
    if (!model) return;
    const { job } = model;
    const running = new AbortController();
    this.running = running;
    try {
      const { reply, floats } = await this.engine.call('band', { job }, { latest: 'band', background: true, signal: running.signal });
      if (this.model?.job !== job) return;
      if (!floats || !reply.curves?.length) return;
      const columns = new Map(reply.curves.map((/** @type {import('../views/model.js').CurveMeta} */ c) => [c.id, floats.subarray(c.offset, c.offset + c.length)]));
      this.sure = { job, reach: reply.reach_hz, level: reply.level_db, freq: columns.get('freq') ?? new Float64Array(), curves: columns };
      this.#show();
    } catch (error) {
      // A band is an addition: without one the page is as good as before.
      if (!(error instanceof EngineError)) throw error;
    } finally {
      if (this.running === running) this.running = null;
    }
  }

  #show() {
    const { sure, model } = this;
    const fresh = sure !== null && sure.job === model?.job;
    this.words.classList.toggle('old', !fresh);
    if (sure && fresh && sure.level.high > 0) {
      const reach = sure.reach.high > 0 ? spreadInWords(sure.reach, 'between_hz') : '';
      const level = spreadInWords(sure.level, 'between_db');
      setText(this.words, reach ? say('sure', { reach, level }) : say('sure_level', { level }));
    }
    for (const one of this.charts) this.#draw(one);
  }

  /** @param {{chart: Chart, group: SVGGElement}} one */
  #draw({ chart, group }) {
    const { sure, model } = this;
    const { data, axis, toY } = chart;
    const fresh = sure && model && sure.job === model.job && data && axis && toY;
    const wanted = fresh ? data.series.map((s) => ({ kind: s.kind, id: curveOf(s.key, model.seat) })).filter((w) => sure.curves.has(`band_low/${w.id}`)) : [];
    if (group.childElementCount !== wanted.length) group.replaceChildren(...wanted.map(() => svg('path')));
    if (!fresh) return;
    const k = data.scale ?? 1;
    const span = /** @type {[number, number]} */ ([data.freq[0], data.freq.at(-1)]);
    wanted.forEach((w, i) => {
      const path = /** @type {Element} */ (group.children[i]);
      const low = /** @type {Float64Array} */ (sure.curves.get(`band_low/${w.id}`));
      const high = /** @type {Float64Array} */ (sure.curves.get(`band_high/${w.id}`));
      setAttr(path, 'class', `cab-band ${w.kind}`);
      setAttr(path, 'd', bandPath(sure.freq, low, high, axis.toPx, (v) => toY(v * k), span));
    });
  }
}
