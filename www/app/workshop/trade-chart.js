// Volume against reach and level: one point for each box that was worked out.
// Pure placing is kept apart from drawing.

import { el, freshId, setAttr, setText, svg } from '../dom.js';
import { formatHz, formatNumber, formatWithUnit } from '../format.js';
import { valueTicks } from '../chart-scale.js';
import { toShown, unitOf } from '../units.js';
import { say } from './words.js';

/**
 * @typedef {object} TradePoint
 * @property {number} net_l
 * @property {number} reach_hz
 * @property {number} level_db
 * @property {any} box
 *
 * @typedef {object} TradeLine one box type
 * @property {string} type
 * @property {string} name
 * @property {TradePoint[]} points by volume
 */

const WIDTH = 340;
const PANE = { reach: { top: 22, foot: 132 }, level: { top: 166, foot: 262 } };
const LEFT = 34;
const RIGHT = WIDTH - 10;

/** A mark of its own for each line, so that colour is never alone. */
const MARKS = ['M-4 0a4 4 0 1 0 8 0a4 4 0 1 0-8 0Z', 'M-4-4H4V4H-4Z', 'M0-5L5 4H-5Z', 'M0-5.5L5.5 0L0 5.5L-5.5 0Z', 'M-5-4H5L0 5Z', 'M-4-4L4 4M4-4L-4 4', 'M0-5V5M-5 0H5', 'M-5 0H5', 'M0-5V5'];

/** Nothing is worked out below this, Hz: a reach there may be lower still. */
const FOOT_HZ = 10;

/** How low it plays, in words. @param {number} hz */
export function reachWords(hz) {
  return hz <= FOOT_HZ * 1.01 ? say('reach_foot', { hz: formatHz(FOOT_HZ) }) : formatHz(hz);
}

/**
 * Where values fall on the paper: litres in ratios, hertz and decibels evenly.
 * @param {TradeLine[]} lines
 */
export function tradeScales(lines) {
  const all = lines.flatMap((l) => l.points);
  const span = (/** @type {number[]} */ v, /** @type {number} */ least) => {
    const low = Math.min(...v);
    const high = Math.max(...v);
    const pad = Math.max(0, least - (high - low)) / 2 + (high - low) * 0.08;
    return /** @type {[number, number]} */ ([low - pad, high + pad]);
  };
  const litres = all.map((p) => Math.log(Math.max(0.1, p.net_l)));
  const [a, b] = span(litres, 0.4);
  const [hz0, hz1] = span(all.map((p) => p.reach_hz), 4);
  const [db0, db1] = span(all.map((p) => p.level_db), 4);
  const along = (/** @type {number} */ v, /** @type {number} */ v0, /** @type {number} */ v1, /** @type {number} */ p0, /** @type {number} */ p1) => p0 + (v - v0) / (v1 - v0) * (p1 - p0);
  return {
    x: (/** @type {number} */ l) => along(Math.log(Math.max(0.1, l)), a, b, LEFT + 8, RIGHT - 8),
    /** Deeper is up. @param {number} hz */
    reach: (hz) => along(hz, hz0, hz1, PANE.reach.top, PANE.reach.foot),
    /** @param {number} db */
    level: (db) => along(db, db0, db1, PANE.level.foot, PANE.level.top),
    litres: /** @type {[number, number]} */ ([Math.exp(a), Math.exp(b)]), hz: /** @type {[number, number]} */ ([hz0, hz1]), db: /** @type {[number, number]} */ ([db0, db1]),
  };
}

/**
 * The point nearest to a place, in either pane.
 * @param {TradeLine[]} lines
 * @param {number} x @param {number} y
 * @returns {{line: number, point: number}|null}
 */
export function nearestPoint(lines, x, y) {
  const s = tradeScales(lines);
  let best = null;
  let least = Infinity;
  for (const [i, line] of lines.entries()) {
    for (const [k, p] of line.points.entries()) {
      const away = Math.min(Math.hypot(s.x(p.net_l) - x, s.reach(p.reach_hz) - y), Math.hypot(s.x(p.net_l) - x, s.level(p.level_db) - y));
      if (away < least) {
        least = away;
        best = { line: i, point: k };
      }
    }
  }
  return best;
}

export class TradeChart {
  /** @param {(line: TradeLine, point: TradePoint) => void} onTouch */
  constructor(onTouch) {
    this.onTouch = onTouch;
    /** @type {TradeLine[]} */
    this.lines = [];
    this.chosen = { line: 0, point: 0 };
    /** @type {import('../units.js').System} */
    this.system = 'metric';
    this.svg = svg('svg', { class: 'trade', viewBox: `0 0 ${WIDTH} 290`, role: 'img', 'aria-label': say('trade_label') });
    this.slider = el('input', { type: 'range', min: 0, max: 0, step: 1 });
    this.readout = el('output', { class: 'trade-readout' });
    this.pick = el('select', { 'aria-label': say('type') });
    this.id = freshId('trade');
    this.root = el('div', { class: 'trade-box' }, this.svg, el('div', { class: 'trade-row' }, this.pick, this.slider), this.readout);
    this.pick.addEventListener('change', () => this.#choose(this.pick.selectedIndex, Math.floor((this.lines[this.pick.selectedIndex]?.points.length ?? 1) / 2)));
    this.slider.addEventListener('input', () => this.#choose(this.chosen.line, Number(this.slider.value)));
    this.svg.addEventListener('click', (e) => {
      const r = this.svg.getBoundingClientRect();
      const at = nearestPoint(this.lines, (e.clientX - r.left) / r.width * WIDTH, (e.clientY - r.top) / r.height * 290);
      if (at) this.#choose(at.line, at.point);
    });
  }

  /**
   * @param {TradeLine[]} lines
   * @param {import('../units.js').System} system
   */
  show(lines, system) {
    this.lines = lines.filter((l) => l.points.length > 1);
    this.system = system;
    this.root.hidden = this.lines.length === 0;
    if (this.lines.length === 0) return;
    if (!this.lines[this.chosen.line]?.points[this.chosen.point]) this.chosen = { line: 0, point: 0 };
    this.pick.replaceChildren(...this.lines.map((l) => el('option', {}, l.name)));
    this.#draw();
  }

  /** @param {number} line @param {number} point */
  #choose(line, point) {
    const l = this.lines[line];
    const p = l?.points[point];
    if (!l || !p) return;
    this.chosen = { line, point };
    this.#draw();
    this.onTouch(l, p);
  }

  #draw() {
    const { lines, system, chosen } = this;
    const s = tradeScales(lines);
    const u = unitOf('litres', system);
    /** @type {SVGElement[]} */
    const nodes = [];
    for (const [pane, span, at] of /** @type {const} */ ([['reach', s.hz, s.reach], ['level', s.db, s.level]])) {
      nodes.push(svg('text', { class: 'trade-name', x: LEFT - 28, y: PANE[pane].top - 9 }, say(pane === 'reach' ? 'trade_reach' : 'trade_level')));
      for (const v of valueTicks(span[0], span[1], 4).ticks) {
        nodes.push(svg('line', { class: 'trade-grid', x1: LEFT, x2: RIGHT, y1: at(v), y2: at(v) }), svg('text', { class: 'trade-number', x: LEFT - 5, y: at(v) + 4, 'text-anchor': 'end' }, formatNumber(v, 1)));
      }
    }
    for (const v of litreTicks(toShown(s.litres[0], u), toShown(s.litres[1], u))) {
      const x = s.x((v - (u.shift ?? 0)) / u.scale);
      for (const pane of [PANE.reach, PANE.level]) nodes.push(svg('line', { class: 'trade-grid', x1: x, x2: x, y1: pane.top, y2: pane.foot }));
      nodes.push(svg('text', { class: 'trade-number', x, y: PANE.level.foot + 16, 'text-anchor': 'middle' }, formatNumber(v, 2)));
    }
    nodes.push(svg('text', { class: 'trade-number', x: RIGHT, y: PANE.level.foot + 28, 'text-anchor': 'end' }, say('trade_air', { unit: u.sign })));
    // The chosen type lies on top; with many, the others step back.
    setAttr(this.svg, 'class', lines.length > 3 ? 'trade many' : 'trade');
    const order = [...lines.entries()].sort(([a], [b]) => Number(a === chosen.line) - Number(b === chosen.line));
    for (const [i, line] of order) {
      const own = i === chosen.line;
      for (const at of [(/** @type {TradePoint} */ p) => s.reach(p.reach_hz), (/** @type {TradePoint} */ p) => s.level(p.level_db)]) {
        nodes.push(svg('path', { class: own ? 'trade-line own' : 'trade-line', d: line.points.map((p, k) => `${k ? 'L' : 'M'}${Math.round(s.x(p.net_l) * 10) / 10} ${Math.round(at(p) * 10) / 10}`).join('') }));
        for (const [k, p] of line.points.entries()) {
          nodes.push(svg('path', { class: `trade-point${own ? ' own' : ''}${own && k === chosen.point ? ' chosen' : ''}`, d: MARKS[i % MARKS.length] ?? '', transform: `translate(${s.x(p.net_l)} ${at(p)})` }));
        }
      }
    }
    this.svg.replaceChildren(...nodes);
    const line = lines[chosen.line];
    const p = line?.points[chosen.point];
    if (!line || !p) return;
    this.pick.selectedIndex = chosen.line;
    setAttr(this.slider, 'max', line.points.length - 1);
    this.slider.value = String(chosen.point);
    const words = say('trade_value', { net: formatWithUnit(p.net_l, 'litres', system), reach: reachWords(p.reach_hz), level: formatNumber(p.level_db, 0) });
    setAttr(this.slider, 'aria-label', say('trade_slider', { type: line.name }));
    setAttr(this.slider, 'aria-valuetext', words);
    setText(this.readout, words);
  }
}

/** Round values a ratio apart. @param {number} low @param {number} high */
function litreTicks(low, high) {
  const ticks = [];
  for (let decade = 0.01; decade < 1e4; decade *= 10) {
    for (const n of [1, 2, 3, 5, 7]) {
      const v = n * decade;
      if (v >= low && v <= high) ticks.push(Number(v.toPrecision(3)));
    }
  }
  return ticks.length > 6 ? ticks.filter((_, i) => i % 2 === 0) : ticks;
}
