// One chart: curves over frequency, drawn in SVG. It owns its elements; new
// data only rewrites attributes.

import { el, freshId, setAttr, setText, svg } from './dom.js';
import { formatHz, formatNumber } from './format.js';
import { curvePath, extremes, valueAt } from './chart-path.js';
import { chooseSpan, frequencyAxis } from './chart-scale.js';
import { ChartPaper } from './chart-paper.js';
import { showTable } from './chart-table.js';
import { say } from './words.js';

/**
 * One curve. Its kind decides ink and dash (style sheet).
 * @typedef {object} Series
 * @property {string} key
 * @property {string} label
 * @property {'sub'|'doors'|'sum'|'free'|'guide'} kind
 * @property {ArrayLike<number>} values one per frequency
 * @property {boolean} [quiet] takes no part in choosing the span
 */

/**
 * @typedef {object} ChartData
 * @property {Float64Array} freq Hz, ascending
 * @property {Series[]} series
 * @property {{value: number, label: string}[]} [marks] level lines
 * @property {{hz: number, label: string}[]} [places] upright lines
 * @property {{from: number, to: number, label: string}[]} [runs] spans along the foot, in Hz
 * @property {string} summary one sentence
 * @property {string} unit
 * @property {number} digits
 * @property {number} [scale] document to shown unit
 */

/**
 * @typedef {object} ChartOptions
 * @property {string} title
 * @property {import('./chart-scale.js').SpanRule} span
 * @property {import('./chart-cursor.js').Cursor} cursor
 * @property {boolean} [large]
 */

/** Where along the plot a name may stand, and on which side of its curve. @typedef {{share: number, side: 'above'|'below'|'left'|'right'}} LabelSpot */

/** @type {LabelSpot[]} */
const LABEL_SPOTS = Array.from({ length: 26 }, (_, i) => 0.1 + 0.03 * i).flatMap((share) => (/** @type {LabelSpot['side'][]} */ (['above', 'below', 'left', 'right'])).map((side) => ({ share, side })));

export class Chart {
  /** @param {ChartOptions} options */
  constructor(options) {
    this.options = options;
    /** @type {ChartData|null} */
    this.data = null;
    /** @type {[number, number]|null} */
    this.span = null;
    this.width = 0;
    this.height = 0;
    /** Width and columns that xs was made for. @type {{width: number, freq: Float64Array}|null} */
    this.xsFor = null;
    this.xs = new Float64Array();
    /** @type {Map<string, {path: SVGPathElement, label: SVGTextElement, dot: SVGCircleElement, value: HTMLElement, item: HTMLElement, name: HTMLElement}>} */
    this.lines = new Map();
    /** Called after each drawing of the curves, when axis and toY are those of the paper. */
    this.onDrawn = () => {};
    /** Where each name stands, and how much room will do for it to stay. @type {Map<string, LabelSpot & {enough: number}>} */
    this.spots = new Map();

    const id = freshId('chart');
    this.summary = el('p', { class: 'summary', id: `${id}-say` });
    this.readout = el('ul', { class: 'readout' });
    this.at = el('li', { class: 'at' });
    this.readout.append(this.at);
    this.heading = el('h2', { id: `${id}-title` }, options.title);
    this.paper = new ChartPaper(`${id}-clip`);
    this.plot = el('div', { class: 'plot' }, this.paper.svg);
    setAttr(this.paper.svg, 'role', 'img');
    setAttr(this.paper.svg, 'aria-labelledby', `${id}-title ${id}-say`);
    this.table = el('button', { type: 'button', class: 'quiet', 'aria-label': say('table_title', { chart: options.title }), onclick: () => this.#showTable() }, say('show_table'));
    this.root = el('figure', { class: options.large ? 'chart large' : 'chart' },
      el('figcaption', {}, el('div', { class: 'chart-head' }, this.heading, this.table), this.summary),
      this.plot, this.readout);

    options.cursor.subscribe(() => this.#drawCursor());
    this.plot.addEventListener('pointermove', (e) => this.#point(e));
    this.plot.addEventListener('pointerdown', (e) => this.#point(e));
    new ResizeObserver(([entry]) => {
      if (!entry) return;
      this.width = Math.round(entry.contentRect.width);
      this.height = Math.round(entry.contentRect.height);
      this.#draw();
    }).observe(this.plot);
  }

  /**
   * Shows new columns. Cheap: no element is made unless a series is new.
   * @param {ChartData} data
   */
  update(data) {
    this.data = data;
    this.#draw();
  }

  #draw() {
    const { data, width, height, paper } = this;
    if (!data || width < 60 || height < 60) return;
    const fromHz = /** @type {number} */ (data.freq[0]);
    const toHz = /** @type {number} */ (data.freq[data.freq.length - 1]);
    const k = data.scale ?? 1;

    let low = Infinity;
    let high = -Infinity;
    for (const s of data.series) {
      if (s.quiet) continue;
      const e = extremes(s.values);
      low = Math.min(low, e.low * k);
      high = Math.max(high, e.high * k);
    }
    if (!Number.isFinite(low) || !Number.isFinite(high)) return;
    this.span = chooseSpan(this.options.span, low, high, this.span);
    const [foot, top] = this.span;
    const area = paper.frame({ width, height, fromHz, toHz, foot, top, runs: Boolean(data.runs?.length), unit: data.unit });
    this.area = area;
    this.axis = frequencyAxis(fromHz, toHz, area.left, area.right);

    const perUnit = (area.foot - area.top) / (top - foot);
    const y0 = area.foot + foot * perUnit;
    this.toY = (/** @type {number} */ shown) => y0 - shown * perUnit;
    if (this.xsFor?.freq !== data.freq || this.xsFor.width !== width) {
      const { toPx } = this.axis;
      this.xs = data.freq.map((hz) => toPx(hz));
      this.xsFor = { width, freq: data.freq };
    }
    for (const s of data.series) {
      const line = this.#line(s);
      setAttr(line.path, 'd', curvePath(this.xs, s.values, y0, perUnit * k, area.foot + 200, area.top - 200));
      setText(line.name, s.label);
    }
    this.#placeLabels(k);
    for (const [key, line] of this.lines) {
      const shown = data.series.some((s) => s.key === key);
      for (const part of [line.path, line.label, line.dot]) setAttr(part, 'display', shown ? null : 'none');
      line.item.hidden = !shown;
    }
    paper.marks((data.marks ?? []).map((m) => ({ ...m, ...this.#markSide(m.value, m.label.length * 6.4, k) })), data.places ?? [], data.runs ?? [], this.toY, this.axis.toPx);
    setText(this.summary, data.summary);
    this.#drawCursor();
    this.onDrawn();
  }

  /** @param {Series} s */
  #line(s) {
    let line = this.lines.get(s.key);
    if (!line) {
      const kind = `curve ${s.kind}`;
      const value = el('b');
      const name = el('span', {}, s.label);
      line = {
        path: svg('path', { class: kind }),
        label: svg('text', { class: `label ${s.kind}` }),
        dot: svg('circle', { class: `dot ${s.kind}`, r: 3.5 }),
        value,
        name,
        item: el('li', {}, svg('svg', { class: 'swatch', width: 26, height: 8, 'aria-hidden': 'true' }, svg('path', { class: kind, d: 'M1 4H25' })), name, ' ', value),
      };
      this.paper.curves.append(line.path);
      this.paper.over.append(line.label, line.dot);
      this.readout.append(line.item);
      this.lines.set(s.key, line);
    }
    return line;
  }

  /**
   * Puts each curve's name beside it, where it is farthest from all curves. A
   * name stays where it is while there is room, so that it does not jump about
   * under a finger. A chart of one curve needs no name on it.
   * @param {number} k document to shown units
   */
  #placeLabels(k) {
    const { data, area, axis } = this;
    if (!data || !area || !axis) return;
    const named = data.series.length > 1;
    /** @type {{x: number, y: number, half: number}[]} */
    const taken = [];
    for (const s of data.series) {
      const line = this.lines.get(s.key);
      if (!line) continue;
      setAttr(line.label, 'visibility', named ? null : 'hidden');
      if (!named) continue;
      const half = s.label.length * 3.7 + 3;
      const score = (/** @type {LabelSpot} */ spot) => {
        const at = this.#labelAt(s, spot, half, k);
        if (!(at.y > area.top + 10 && at.y < area.foot - 4) || at.x - half < area.left || at.x + half > area.right) return -1;
        const near = taken.some((t) => Math.abs(t.x - at.x) < t.half + half && Math.abs(t.y - at.y) < 18);
        if (near) return -1;
        // The sum lies uppermost: its name may stand where it covers another.
        return Math.min(this.#clearance(at.x, at.y - 4, half, k), s.kind === 'sum' ? Infinity : this.#apart(s, spot, k) / 2);
      };
      let spot = this.spots.get(s.key);
      if (!spot || score(spot) < spot.enough) {
        const scored = LABEL_SPOTS.map((c) => ({ c, score: Math.min(22, score(c)) - (c.side === 'above' ? 0 : 1) }));
        const best = scored.reduce((a, b) => (b.score > a.score ? b : a));
        if (best.score < 2) {
          // Nowhere to stand clear: the line under the chart names it.
          this.spots.delete(s.key);
          setAttr(line.label, 'visibility', 'hidden');
          continue;
        }
        spot = { ...best.c, enough: Math.min(9, best.score * 0.6) };
        this.spots.set(s.key, spot);
      }
      const at = this.#labelAt(s, spot, half, k);
      taken.push({ ...at, half });
      setText(line.label, s.label);
      setAttr(line.label, 'x', Math.round(at.x));
      setAttr(line.label, 'y', Math.round(at.y));
      if (!(at.y > area.top && at.y < area.foot)) setAttr(line.label, 'visibility', 'hidden');
    }
  }

  /** @param {Series} s @param {LabelSpot} spot @param {number} half half the width of the name @param {number} k */
  #labelAt(s, spot, half, k) {
    const { data, area, axis, toY } = this;
    if (!data || !area || !axis || !toY) return { x: 0, y: 0 };
    const x = area.left + (area.right - area.left) * spot.share;
    const y = toY(valueAt(data.freq, s.values, axis.toHz(x)) * k);
    if (spot.side === 'left') return { x: x - half - 8, y: y + 4 };
    if (spot.side === 'right') return { x: x + half + 8, y: y + 4 };
    return { x, y: y + (spot.side === 'above' ? -9 : 18) };
  }

  /** How far a curve is from all others where its name would stand, px. @param {Series} s @param {LabelSpot} spot @param {number} k */
  #apart(s, spot, k) {
    const { data, area, axis, toY } = this;
    if (!data || !area || !axis || !toY) return 0;
    const hz = axis.toHz(area.left + (area.right - area.left) * spot.share);
    const own = toY(valueAt(data.freq, s.values, hz) * k);
    return Math.min(...data.series.filter((o) => o !== s).map((o) => Math.abs(toY(valueAt(data.freq, o.values, hz) * k) - own)));
  }

  /**
   * How far the nearest curve passes from a text, px.
   * @param {number} x middle of the text
   * @param {number} y middle of the text
   * @param {number} half half its width
   * @param {number} k
   */
  #clearance(x, y, half, k) {
    const { data, axis, toY } = this;
    if (!data || !axis || !toY) return 0;
    let least = Infinity;
    for (const s of data.series) {
      for (let step = -2; step <= 2; step += 1) {
        const away = Math.abs(toY(valueAt(data.freq, s.values, axis.toHz(x + half * step / 2)) * k) - y) - 6;
        if (away < least) least = away;
      }
    }
    return least;
  }

  /**
   * Which end of a level line has room for its name.
   * @param {number} value
   * @param {number} width of the name, px
   * @param {number} k
   */
  #markSide(value, width, k) {
    const { area, toY } = this;
    if (!area || !toY) return {};
    let best = { atRight: true, above: true };
    let most = -Infinity;
    for (const atRight of [true, false]) {
      for (const above of [true, false]) {
        const y = toY(value) + (above ? -9 : 10);
        if (y < area.top || y > area.foot - 4) continue;
        const room = this.#clearance(atRight ? area.right - 4 - width / 2 : area.left + 6 + width / 2, y, width / 2, k);
        if (room > most + 1) {
          most = room;
          best = { atRight, above };
        }
      }
    }
    // No room beside the line: its name goes to the corner, with its dash.
    return most < 3 ? { ...best, corner: true } : best;
  }

  #drawCursor() {
    const { data, axis, toY, area } = this;
    if (!data || !axis || !toY || !area) return;
    const { hz } = this.options.cursor;
    const x = Math.round(axis.toPx(hz) * 10) / 10;
    this.paper.cursorAt(x);
    setText(this.at, formatHz(hz));
    for (const s of data.series) {
      const line = this.lines.get(s.key);
      if (!line) continue;
      const shown = valueAt(data.freq, s.values, hz) * (data.scale ?? 1);
      const y = toY(shown);
      const inside = Number.isFinite(y) && y >= area.top && y <= area.foot;
      setAttr(line.dot, 'cx', x);
      setAttr(line.dot, 'cy', inside ? Math.round(y * 10) / 10 : 0);
      setAttr(line.dot, 'visibility', inside ? null : 'hidden');
      setText(line.value, Number.isFinite(shown) ? `${formatNumber(shown, data.digits, true)}\u00a0${data.unit}` : '–');
    }
  }

  /** @param {PointerEvent} e */
  #point(e) {
    if (!this.axis || (e.type === 'pointermove' && e.pointerType !== 'mouse' && e.buttons === 0)) return;
    this.options.cursor.set(this.axis.toHz(e.clientX - this.plot.getBoundingClientRect().left));
  }

  #showTable() {
    const { data } = this;
    if (!data) return;
    const k = data.scale ?? 1;
    showTable(this.options.title, [
      { name: say('frequency'), unit: 'Hz', values: data.freq, digits: 1 },
      ...data.series.map((s) => ({ name: s.label, unit: data.unit, digits: data.digits + 1, values: k === 1 ? s.values : Array.from(s.values, (v) => v * k) })),
    ]);
  }
}
