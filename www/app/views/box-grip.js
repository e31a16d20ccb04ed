// The grip on the box's top edge: drag it and the net volume follows. The real
// control is a native slider, so that a keyboard and a screen reader have it.

import { el, setAttr, setText } from '../dom.js';
import { netFromHeight } from '../car-box.js';
import { formatValue, formatWithUnit } from '../format.js';
import { parseQuantity } from '../parse.js';
import { unitOf } from '../units.js';
import { say } from '../words.js';
import { reads } from '../workshop/box-starts.js';
import { limitOf } from './limits.js';
import { boxInput, netVolumeChanges } from './sheet-box.js';

/** @typedef {import('./model.js').Model} Model */

const LEAST_L = 3;
const MOST_L = 400;
/** A press that moves less than this is a touch, px. */
const STILL = 5;

export class BoxGrip {
  /** @param {import('../store.js').Store} store */
  constructor(store) {
    this.store = store;
    /** @type {Model|null} */
    this.model = null;
    this.scale = 1;
    /** @type {{left: number, right: number, top: number, foot: number}|null} */
    this.edges = null;
    /** The last press on the drawn box became a drag. */
    this.dragged = false;
    this.slider = el('input', { type: 'range', min: LEAST_L, max: 150, step: 0.5, 'aria-label': say('net_volume') });
    this.knob = el('span', { class: 'knob' }, this.slider);
    this.entry = el('input', { type: 'text', inputmode: 'decimal', class: 'dimension-entry', autocomplete: 'off', 'aria-label': say('net_volume') });
    this.unit = el('span', { class: 'unit', 'aria-hidden': 'true' });
    this.number = el('span', { class: 'grip-number' }, this.entry, this.unit);
    this.line = el('span', { class: 'grip-line' });
    this.edge = el('span', { class: 'grip-edge' });
    this.root = el('div', { class: 'grip' }, this.edge, this.line, this.knob, this.number);

    for (const target of [this.knob, this.edge]) target.addEventListener('pointerdown', (e) => this.#grab(e, target));
    this.slider.addEventListener('input', () => this.#put(Number(this.slider.value), true));
    this.slider.addEventListener('change', () => store.endDrag());
    this.entry.addEventListener('focus', () => this.entry.select());
    this.entry.addEventListener('change', () => this.#typed());
  }

  /**
   * @param {Model} model
   * @param {{left: number, right: number, top: number, foot: number}|null} edges px
   * @param {number|null} x where the dimension line stands; null hides all
   * @param {number} scale px per mm
   * @param {boolean} withNumber
   */
  place(model, edges, x, scale, withNumber) {
    this.model = model;
    this.scale = scale;
    // Only what has a net volume can be dragged to another.
    this.edges = edges;
    this.root.hidden = !edges || x === null || !reads(model.job.subs[0]?.box.type ?? '', 'net_l');
    if (!edges || x === null || this.root.hidden) return;
    this.root.classList.toggle('numbered', withNumber);
    /** @param {HTMLElement} node @param {number} left @param {number} top @param {number} width @param {number} height */
    const put = (node, left, top, width, height) => {
      node.style.setProperty('transform', `translate(${Math.round(left)}px, ${Math.round(top)}px)`);
      node.style.setProperty('width', `${Math.round(width)}px`);
      node.style.setProperty('height', `${Math.round(height)}px`);
    };
    put(this.edge, edges.left, edges.top - 10, x - edges.left + 6, 20);
    put(this.line, x, edges.top, 1, edges.foot - edges.top);
    put(this.knob, x - 22, edges.top - 22, 44, 44);
    this.number.style.setProperty('transform', `translate(${Math.round(x + 14)}px, ${Math.round((edges.top + edges.foot) / 2 - 22)}px)`);
    const litres = model.job.subs[0]?.box.net_l ?? 0;
    const u = unitOf('litres', model.system);
    if (document.activeElement !== this.entry) this.entry.value = formatValue(litres, 'litres', model.system);
    this.entry.style.setProperty('width', `${Math.max(3, this.entry.value.length)}ch`);
    setText(this.unit, u.sign);
    const at = String(Math.round(litres * 2) / 2);
    if (this.slider.value !== at) this.slider.value = at;
    setAttr(this.slider, 'aria-valuetext', formatWithUnit(litres, 'litres', model.system));
  }

  /**
   * A press on the drawn box: from a few pixels on it is a drag.
   * @param {PointerEvent} e
   * @param {DOMRect} stage
   */
  grabBody(e, stage) {
    const { edges } = this;
    const target = /** @type {Element} */ (e.target);
    const x = e.clientX - stage.left;
    if (!edges || this.root.hidden || x < edges.left - 2 || x > edges.right + 2) return;
    this.dragged = false;
    this.#grab(e, target, STILL);
  }

  /** Whether the last press on the box was a drag; asked once. */
  tookDrag() {
    const { dragged } = this;
    this.dragged = false;
    return dragged;
  }

  /** @param {PointerEvent} e @param {Element} target @param {number} [still] px that the pointer may move before it drags */
  #grab(e, target, still = 0) {
    const input = this.model && boxInput(this.model, 0);
    if (!input || e.button !== 0) return;
    if (still === 0) {
      e.preventDefault();
      this.slider.focus({ preventScroll: true });
    }
    target.setPointerCapture(e.pointerId);
    const startY = e.clientY;
    const scale = this.scale;
    const startHeight = heightNow(input);
    let dragging = still === 0;
    this.root.classList.toggle('dragging', dragging);
    const move = (/** @type {PointerEvent} */ m) => {
      if (!dragging && Math.abs(m.clientY - startY) < still) return;
      if (!dragging) {
        dragging = true;
        this.dragged = true;
        this.root.classList.add('dragging');
      }
      const litres = netFromHeight(input, startHeight + (startY - m.clientY) / scale);
      this.#put(Math.round(Math.min(MOST_L, Math.max(LEAST_L, litres)) * 4) / 4, true);
    };
    const end = () => {
      target.removeEventListener('pointermove', /** @type {EventListener} */ (move));
      this.root.classList.remove('dragging');
      this.store.endDrag();
    };
    target.addEventListener('pointermove', /** @type {EventListener} */ (move));
    target.addEventListener('lostpointercapture', end, { once: true });
  }

  #typed() {
    const { model } = this;
    if (!model) return;
    const { min, max } = limitOf('/subs/0/box/net_l');
    const parsed = parseQuantity(this.entry.value, 'litres', unitOf('litres', model.system), min, max);
    if (parsed.ok) this.#put(parsed.value, false);
    this.entry.value = formatValue(parsed.ok ? parsed.value : model.job.subs[0]?.box.net_l ?? 0, 'litres', model.system);
  }

  /** @param {number} litres @param {boolean} drag */
  #put(litres, drag) {
    if (!this.model) return;
    this.store.setAll(netVolumeChanges(this.model, 0, litres), { drag, label: say('net_volume') });
  }
}

/** @param {import('../car-box.js').BoxInput} input */
function heightNow(input) {
  // The height the volume needs is linear in it: one step inverts exactly.
  const unit = netFromHeight(input, 1001) - netFromHeight(input, 1000);
  return 1000 + (input.box.net_l - netFromHeight(input, 1000)) / unit;
}
