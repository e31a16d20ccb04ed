// The paper under the curves of one chart: frame, few lines, numbers, marks.

import { setAttr, setText, svg } from './dom.js';
import { formatNumber } from './format.js';
import { frequencyAxis, frequencyTicks, valueTicks } from './chart-scale.js';

/** @typedef {{left: number, right: number, top: number, foot: number}} Area px */

/**
 * @typedef {object} FrameInput
 * @property {number} width @property {number} height px
 * @property {number} fromHz @property {number} toHz
 * @property {number} foot @property {number} top shown units
 * @property {boolean} runs leave room for named spans along the foot
 * @property {string} unit
 */

const RUN_BAND = 22;

export class ChartPaper {
  /** @param {string} clipId */
  constructor(clipId) {
    this.clip = svg('rect');
    this.grid = svg('g', { class: 'grid' });
    this.numbers = svg('g', { class: 'numbers' });
    this.marksGroup = svg('g', { class: 'marks' });
    this.curves = svg('g', { 'clip-path': `url(#${clipId})` });
    this.over = svg('g');
    this.cursor = svg('line', { class: 'cursor' });
    this.svg = svg('svg', {}, svg('defs', {}, svg('clipPath', { id: clipId }, this.clip)),
      this.grid, this.numbers, this.marksGroup, this.cursor, this.curves, this.over);
    this.drawn = '';
    /** @type {Area} */
    this.area = { left: 0, right: 0, top: 0, foot: 0 };
  }

  /**
   * Draws the frame anew only when something about it changed.
   * @param {FrameInput} f
   * @returns {Area}
   */
  frame(f) {
    const key = JSON.stringify(f);
    if (key === this.drawn) return this.area;
    this.drawn = key;
    const area = { left: 40, right: f.width - 8, top: 20, foot: f.height - 24 - (f.runs ? RUN_BAND : 0) };
    this.area = area;
    setAttr(this.svg, 'viewBox', `0 0 ${f.width} ${f.height}`);
    for (const [name, value] of Object.entries({ x: area.left, y: area.top - 2, width: area.right - area.left, height: area.foot - area.top + 4 })) setAttr(this.clip, name, value);

    const lines = [];
    const texts = [];
    const { ticks, digits } = valueTicks(f.foot, f.top, area.foot - area.top > 200 ? 6 : 4);
    const perUnit = (area.foot - area.top) / (f.top - f.foot);
    for (const v of ticks) {
      const y = Math.round(area.foot - (v - f.foot) * perUnit) + 0.5;
      lines.push(svg('line', { x1: area.left, x2: area.right, y1: y, y2: y, class: v === 0 && f.foot < 0 ? 'zero' : 'level' }));
      texts.push(svg('text', { x: area.left - 6, y: y + 4, 'text-anchor': 'end' }, formatNumber(v, digits)));
    }
    texts.push(svg('text', { x: area.left - 6, y: 10, 'text-anchor': 'end' }, f.unit));
    const { toPx } = frequencyAxis(f.fromHz, f.toHz, area.left, area.right);
    let lastNumber = -Infinity;
    for (const { hz, named } of frequencyTicks(f.fromHz, f.toHz)) {
      const x = Math.round(toPx(hz)) + 0.5;
      lines.push(svg('line', { x1: x, x2: x, y1: named ? area.top : area.foot - 4, y2: area.foot, class: named ? 'upright' : 'tick' }));
      if (!named || x - lastNumber < 26 || x > area.right - 62) continue;
      lastNumber = x;
      texts.push(svg('text', { x, y: f.height - 7, 'text-anchor': 'middle' }, formatNumber(hz, 0)));
    }
    texts.push(svg('text', { x: area.right, y: f.height - 7, 'text-anchor': 'end' }, `${formatNumber(f.toHz, 0)} Hz`));
    lines.push(svg('line', { x1: area.left, x2: area.right, y1: area.foot + 0.5, y2: area.foot + 0.5, class: 'base' }));
    this.grid.replaceChildren(...lines);
    this.numbers.replaceChildren(...texts);
    setAttr(this.cursor, 'y1', area.top);
    setAttr(this.cursor, 'y2', area.foot);
    return area;
  }

  /** @param {number} x px */
  cursorAt(x) {
    setAttr(this.cursor, 'x1', x);
    setAttr(this.cursor, 'x2', x);
  }

  /**
   * Level lines, upright lines and named spans, re-using the elements there are.
   * @param {{value: number, label: string, atRight?: boolean, above?: boolean, corner?: boolean}[]} marks
   * @param {{hz: number, label: string}[]} places
   * @param {{from: number, to: number, label: string}[]} runs
   * @param {(shown: number) => number} toY
   * @param {(hz: number) => number} toPx
   */
  marks(marks, places, runs, toY, toPx) {
    const { area } = this;
    let used = 0;
    const next = () => {
      let g = this.marksGroup.children[used];
      if (!g) {
        g = svg('g', {}, svg('line'), svg('text'));
        this.marksGroup.append(g);
      }
      used += 1;
      return /** @type {[Element, Element, Element]} */ ([g, g.children[0], g.children[1]]);
    };
    /** @param {string} kind @param {Record<string, number>} line @param {Record<string, number|string>} text @param {string} label */
    const put = (kind, line, text, label) => {
      const [g, l, t] = next();
      setAttr(g, 'class', kind);
      setAttr(g, 'display', null);
      for (const [name, value] of Object.entries(line)) setAttr(l, name, Math.round(value * 10) / 10);
      for (const [name, value] of Object.entries(text)) setAttr(t, name, value);
      setText(t, label);
    };
    for (const m of marks) {
      const y = toY(m.value);
      if (!(y >= area.top - 1 && y <= area.foot)) continue;
      const right = m.atRight !== false;
      put('mark', { x1: area.left, x2: area.right, y1: y, y2: y }, { x: right || m.corner ? area.right - 4 : area.left + 6, y: m.corner ? area.top + 12 : Math.round(m.above === false ? y + 14 : y - 5), 'text-anchor': right || m.corner ? 'end' : 'start' }, m.corner ? `– · – ${m.label}` : m.label);
    }
    for (const p of places) {
      const x = toPx(p.hz);
      if (!(x > area.left && x < area.right)) continue;
      const flip = x > (area.left + area.right) / 2;
      put('place', { x1: x, x2: x, y1: area.top, y2: area.foot }, { x: Math.round(x + (flip ? -5 : 5)), y: area.foot - 8, 'text-anchor': flip ? 'end' : 'start' }, p.label);
    }
    for (const r of runs) {
      const a = Math.max(area.left, toPx(r.from));
      const b = Math.min(area.right, toPx(r.to));
      if (b - a < 2) continue;
      const fits = b - a > r.label.length * 6.2;
      put('run', { x1: a + 1.5, x2: b - 1.5, y1: area.foot + 7, y2: area.foot + 7 }, { x: Math.round((a + b) / 2), y: area.foot + 20, 'text-anchor': 'middle' }, fits ? r.label : '');
    }
    for (let i = used; i < this.marksGroup.children.length; i += 1) setAttr(/** @type {Element} */ (this.marksGroup.children[i]), 'display', 'none');
  }
}
