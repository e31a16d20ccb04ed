// The charts, their one cursor, and the choices that belong to them.

import { Chart } from '../chart.js';
import { createCursor } from '../chart-cursor.js';
import { valueAt } from '../chart-path.js';
import { el, setAttr } from '../dom.js';
import { formatHz, formatNumber } from '../format.js';
import { say, sayOf } from '../words.js';
import { airData, delayData, gainData, levelData, loadData, maxData, travelData } from './curve-data.js';

/** @typedef {import('./model.js').Model} Model */

const STEPS = 400;
/** How long nothing may change before charts out of sight are redrawn. */
const REST_MS = 180;

export class CurvesView {
  /** @param {(seat: string) => void} onSeat */
  constructor(onSeat) {
    /** @type {Model|null} */
    this.model = null;
    this.seatKey = '';
    this.rest = 0;
    const cursor = createCursor(40);
    this.cursor = cursor;
    this.free = true;
    const chart = (/** @type {string} */ title, /** @type {import('../chart-scale.js').SpanRule} */ span, large = false) => new Chart({ title, span, cursor, large });
    const level = chart(say('c_level'), { step: 10, span: 60 }, true);
    /** @type {[Chart, (m: Model) => import('../chart.js').ChartData|null][]} */
    this.charts = [
      [level, (m) => levelData(m, this.free)],
      [chart(say('c_max'), { step: 10, span: 50 }), maxData],
      [chart(say('c_gain'), { step: 10, foot: -20 }), gainData],
      [chart(say('c_travel'), { step: 5, foot: 0 }), travelData],
      [chart(say('c_air'), { step: 10, foot: 0, least: 20 }), airData],
      [chart(say('c_load'), { step: 10, foot: 0 }), loadData],
      [chart(say('c_delay'), { step: 20, foot: 0, least: 20, most: 200 }), delayData],
    ];
    this.slider = el('input', { type: 'range', class: 'cursor-slider', min: 0, max: STEPS, step: 1, 'aria-label': say('cursor') });
    this.slider.addEventListener('input', () => cursor.set(this.#hzAt(Number(this.slider.value))));
    // The slider is the level chart's axis: it belongs right under the plot.
    level.plot.after(el('div', { class: 'cursor-row' }, this.slider));
    this.seats = el('select', { onchange: () => onSeat(this.seats.value) });
    this.freeBox = el('input', { type: 'checkbox', checked: true, onchange: () => { this.free = this.freeBox.checked; if (this.model) this.update(this.model); } });
    level.heading.after(el('div', { class: 'chart-choices' },
      el('label', { class: 'inline' }, el('span', {}, say('seat_shown')), ' ', this.seats),
      el('label', { class: 'inline check' }, this.freeBox, ' ', el('span', {}, say('show_free')))));
    this.root = el('section', { class: 'curves', 'aria-label': say('curves_region') }, ...this.charts.map(([c]) => c.root));
    cursor.subscribe(() => this.#tell());
    /** Charts on the screen, and charts that are owed a redraw. @type {Set<Element>} */
    this.seen = new Set();
    /** @type {Set<Element>} */
    this.waiting = new Set();
    const watch = new IntersectionObserver((entries) => {
      for (const { target, isIntersecting } of entries) {
        if (isIntersecting) this.seen.add(target);
        else this.seen.delete(target);
        const owed = isIntersecting && this.waiting.has(target) && this.charts.find(([c]) => c.root === target);
        if (owed && this.model) this.#show(owed, this.model);
      }
    }, { rootMargin: '120px' });
    for (const [c] of this.charts) watch.observe(c.root);
  }

  /** @param {Model} model */
  update(model) {
    this.model = model;
    this.root.classList.toggle('stale', model.stale);
    const seats = model.reply?.seats ?? [];
    const key = seats.join();
    if (key !== this.seatKey) {
      this.seatKey = key;
      this.seats.replaceChildren(...seats.map((s) => el('option', { value: s }, sayOf('seat', s))));
    }
    this.seats.value = model.seat;
    for (const one of this.charts) this.#show(one, model);
    this.#tell();
    // Once the finger rests the others follow, so that no table, summary or
    // print is ever of an older job.
    clearTimeout(this.rest);
    if (this.waiting.size) this.rest = window.setTimeout(() => this.#settle(), REST_MS);
  }

  #settle() {
    const { model } = this;
    if (!model) return;
    for (const [chart, data] of this.charts) {
      if (!this.waiting.delete(chart.root)) continue;
      const columns = data(model);
      chart.root.hidden = !columns;
      if (columns) chart.update(columns);
    }
  }

  /**
   * Redraws a chart that can be seen; the others wait until they are.
   * @param {[Chart, (m: Model) => import('../chart.js').ChartData|null]} one
   * @param {Model} model
   */
  #show([chart, data], model) {
    if (!this.seen.has(chart.root) && !chart.root.hidden && chart.data) {
      this.waiting.add(chart.root);
      return;
    }
    this.waiting.delete(chart.root);
    const columns = data(model);
    chart.root.hidden = !columns;
    if (columns) chart.update(columns);
  }

  /** @param {number} step */
  #hzAt(step) {
    const freq = this.model?.curve('freq');
    const from = freq?.[0] ?? 10;
    const to = freq?.[freq.length - 1] ?? 500;
    return from * (to / from) ** (step / STEPS);
  }

  /** Keeps the slider and what it says in step with the cursor. */
  #tell() {
    const { model, cursor } = this;
    const freq = model?.curve('freq');
    if (!model || !freq) return;
    const from = freq[0] ?? 10;
    const to = freq[freq.length - 1] ?? 500;
    if (document.activeElement !== this.slider || Math.abs(this.#hzAt(Number(this.slider.value)) / cursor.hz - 1) > 0.01) {
      this.slider.value = String(Math.round(STEPS * Math.log(cursor.hz / from) / Math.log(to / from)));
    }
    const sum = model.curve(`level/sum/${model.seat}`);
    setAttr(this.slider, 'aria-valuetext', sum ? say('cursor_value', { hz: formatHz(cursor.hz), level: formatNumber(valueAt(freq, sum, cursor.hz), 1) }) : formatHz(cursor.hz));
  }
}
