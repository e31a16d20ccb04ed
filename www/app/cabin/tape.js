// The tape measure on the drawing: for every reading a dimension line, a
// handle to drag and a number to type over. Enter goes to the next number.

import { el, setAttr, setText } from '../dom.js';
import { formatValue, formatWithUnit } from '../format.js';
import { parseQuantity } from '../parse.js';
import { unitOf } from '../units.js';
import { followers } from './follow.js';
import { Handle } from './handle.js';
import { measures } from './shape.js';
import { say } from './words.js';

/** @typedef {import('../views/model.js').Model} Model */
/** @typedef {import('./shape.js').Measure} Measure */
/** @typedef {import('./projection.js').Projection} Projection */
/** @typedef {{measure: Measure, number: HTMLElement, input: HTMLInputElement, handle: Handle, from: number}} Reading */

/** A finger is no finer than this, mm; a typed number is taken as it is. */
const SNAP_MM = 10;

/** How far below the lowest floor the tape lies, px: clear of the floor's numbers. */
const TAPE_Y = 80;

/** Which readings belong to which view. @type {Record<'side'|'above', Measure['kind'][]>} */
const KINDS = { side: ['along', 'height', 'floor'], above: ['width'] };

export class Tape {
  /**
   * @param {import('../store.js').Store} store
   * @param {Projection} view
   * @param {(held: boolean) => void} onHold while a handle is held the drawing keeps its scale
   */
  constructor(store, view, onHold) {
    this.store = store;
    this.view = view;
    this.onHold = onHold;
    /** Enter in the last reading. */
    this.onLast = () => {};
    /** @type {Model|null} */
    this.model = null;
    /** @type {Map<string, Reading>} */
    this.readings = new Map();
    /** The reading in use, and the one used last. @type {string|null} */
    this.hot = null;
    /** @type {string|null} */
    this.last = null;
    this.root = el('div', { class: 'cab-tape' });
    this.complaint = el('p', { class: 'cab-complaint', role: 'status' });
    view.over.append(this.root, this.complaint);
  }

  /** @param {Model} model @param {boolean} shown */
  update(model, shown) {
    this.model = model;
    this.root.hidden = !shown;
    const { view } = this;
    view.marks.begin();
    if (shown) {
      const list = measures(model.job.car.cabin, (p) => model.isAssumed(p)).filter((m) => KINDS[view.way].includes(m.kind));
      const keys = new Set(list.map((m) => m.key));
      for (const [key, r] of this.readings) {
        if (keys.has(key)) continue;
        r.number.remove();
        r.handle.root.remove();
        this.readings.delete(key);
      }
      for (const m of list) this.#place(this.#reading(m));
      if (view.way === 'side') this.#ruler();
    }
    view.marks.end();
  }

  /** To the first reading. */
  begin() {
    this.root.querySelector('input')?.focus();
  }

  /** @param {string} key */
  focus(key) {
    this.readings.get(key)?.handle.root.focus({ preventScroll: true });
  }

  /** @param {Measure} m @returns {Reading} */
  #reading(m) {
    const there = this.readings.get(m.key);
    if (there) {
      there.measure = m;
      return there;
    }
    const input = el('input', { type: 'text', inputmode: 'decimal', autocomplete: 'off', enterkeyhint: 'next', class: 'dimension-entry' });
    const number = el('span', { class: `cab-number ${m.kind}`, 'data-pointer': m.pointer }, input);
    /** @type {Reading} */
    const r = {
      measure: m, input, number, from: 0,
      handle: new Handle({
        kind: m.kind, way: m.kind === 'along' ? 'level' : 'upright',
        begin: () => { r.from = r.measure.value; this.onHold(true); this.#heat(m.key); },
        drag: (dx, dy) => this.#put(r, snapped(r.from + this.#millimetres(r.measure, dx, -dy)), true),
        step: (dx, dy) => this.#put(r, r.measure.value + (dx + dy) * SNAP_MM, true),
        end: () => { this.store.endDrag(); this.onHold(false); },
      }),
    };
    for (const target of [input, r.handle.root]) {
      target.addEventListener('focus', () => this.#heat(r.measure.key));
      target.addEventListener('blur', () => this.#heat(null));
    }
    input.addEventListener('focus', () => input.select());
    input.addEventListener('change', () => this.#typed(r));
    input.addEventListener('keydown', (e) => this.#key(e, r));
    this.readings.set(m.key, r);
    // Tab and Enter walk along the car, reading by reading.
    this.root.append(r.handle.root, number);
    return r;
  }

  /** @param {Measure} m @param {number} right px @param {number} up px */
  #millimetres(m, right, up) {
    const { scale } = this.view.p;
    if (m.kind === 'along') return right / scale;
    // Both sides move.
    return up / scale * (m.kind === 'width' ? 2 : 1);
  }

  /** @param {Reading} r */
  #place(r) {
    const { measure: m, handle, input, number } = r;
    const { model, view } = this;
    if (!model) return;
    const top = view.at(m.x, m.high);
    const low = view.at(m.x, m.low);
    const tapeY = (view.foot ?? 0) + TAPE_Y;
    const upright = m.kind === 'height' || m.kind === 'width';
    if (upright) {
      this.#line(m.key, { x1: top.x, x2: top.x, y1: top.y, y2: low.y }, low.y - top.y);
      handle.place(top.x, top.y);
      this.#numberAt(number, top.x, (top.y + low.y) / 2);
    } else if (m.kind === 'floor') {
      handle.place(top.x, top.y);
      const datum = view.at(m.x, 0).y;
      if (Math.abs(datum - top.y) > 4) this.#line(m.key, { x1: top.x, x2: top.x, y1: top.y, y2: datum }, 0);
      this.#numberAt(number, top.x, Math.max(top.y, view.foot ?? 0) + 36);
    } else {
      handle.place(top.x, tapeY);
      this.view.marks.draw(`${m.key}-ext`, 'line', { x1: top.x, x2: top.x, y1: (view.foot ?? 0) + 48, y2: tapeY, class: 'extension' });
      this.#numberAt(number, top.x, tapeY + 34);
    }
    const { system } = model;
    if (document.activeElement !== input) input.value = formatValue(m.value, 'mm', system);
    input.style.setProperty('width', `${Math.max(3, input.value.length) + 0.6}ch`);
    const what = m.station < 0 ? kindName(m) : say('place_named', { what: kindName(m), place: say('place_n', { n: m.station + 1 }) });
    const u = unitOf('mm', system);
    setAttr(input, 'aria-label', `${what}, ${u.spoken}`);
    const bad = model.findingsAt(m.pointer).find((f) => f.level === 'error');
    setAttr(input, 'aria-invalid', bad ? 'true' : null);
    setAttr(number, 'title', bad ? bad.say : null);
    number.classList.toggle('assumed-value', model.isAssumed(m.pointer));
    handle.tell(what, formatWithUnit(m.value, 'mm', system), m);
  }

  /** @param {string} key @param {Record<string, number>} at @param {number} long px, 0 for no end ticks */
  #line(key, at, long) {
    const hot = this.hot === key ? ' hot' : '';
    this.view.marks.draw(key, 'line', { ...at, class: `dimension${hot}` });
    if (!long) return;
    for (const [end, y] of [['a', at.y1], ['b', at.y2]]) {
      this.view.marks.draw(`${key}-${end}`, 'line', { x1: (at.x1 ?? 0) - 4, x2: (at.x1 ?? 0) + 4, y1: Number(y) + 4, y2: Number(y) - 4, class: `tick${hot}` });
    }
  }

  /** The tape itself under the car, in tens of centimetres. */
  #ruler() {
    const { view, model } = this;
    const end = model ? Math.max(0, ...[...this.readings.values()].filter((r) => r.measure.kind === 'along').map((r) => r.measure.x)) : 0;
    const y = (view.foot ?? 0) + TAPE_Y;
    view.marks.draw('unit', 'text', { x: view.at(0, 0).x, y: y + 20, class: 'cab-unit' }, model ? unitOf('mm', model.system).sign : '');
    view.marks.draw('tape', 'line', { x1: view.at(0, 0).x, x2: view.at(end, 0).x, y1: y, y2: y, class: 'cab-ruler' });
    for (let mm = 0; mm <= end + 1; mm += 100) {
      const x = view.at(mm, 0).x;
      view.marks.draw(`tape${mm}`, 'line', { x1: x, x2: x, y1: y, y2: y - (mm % 500 ? 4 : 9), class: 'tick' });
    }
  }

  /** @param {HTMLElement} number @param {number} x @param {number} y */
  #numberAt(number, x, y) {
    number.style.setProperty('transform', `translate(${Math.round(x)}px, ${Math.round(y)}px) translate(-50%, -50%)`);
  }

  /** @param {string|null} key */
  #heat(key) {
    this.hot = key;
    this.last = key ?? this.last;
    for (const [name, r] of this.readings) {
      r.number.classList.toggle('hot', name === key);
      r.handle.root.classList.toggle('hot', name === key);
    }
    if (this.model) this.update(this.model, !this.root.hidden);
  }

  /** @param {Reading} r @param {number} reading @param {boolean} drag */
  #put(r, reading, drag) {
    const m = r.measure;
    const value = Math.round(Math.min(m.max, Math.max(m.min, reading)));
    // A number typed as it stands is a reading all the same.
    if (value === m.value && (drag || !this.model?.isAssumed(m.pointer))) return;
    const changes = m.put(value);
    this.store.setAll(changes, { drag, label: kindName(m), follow: followers(this.store.job, changes) });
  }

  /** @param {Reading} r */
  #typed(r) {
    const { model } = this;
    if (!model) return;
    const { min, max } = r.measure;
    const parsed = parseQuantity(r.input.value, 'mm', unitOf('mm', model.system), min, max);
    if (parsed.ok) this.#put(r, parsed.value, false);
    // A number that cannot be stays in sight, marked, with what would do.
    setAttr(r.input, 'aria-invalid', parsed.ok ? null : 'true');
    setText(this.complaint, parsed.ok ? '' : `${kindName(r.measure)}: ${formatWithUnit(min, 'mm', model.system)} – ${formatWithUnit(max, 'mm', model.system)}`);
    if (parsed.ok) r.input.value = formatValue(r.measure.value, 'mm', model.system);
  }

  /** @param {KeyboardEvent} e @param {Reading} r */
  #key(e, r) {
    const { model } = this;
    if (!model) return;
    if (e.key === 'Enter') {
      e.preventDefault();
      this.#typed(r);
      const all = [...this.root.querySelectorAll('input')];
      const next = all[all.indexOf(r.input) + 1];
      if (next && r.input.getAttribute('aria-invalid') !== 'true') next.focus();
      else if (!next) {
        r.input.blur();
        this.onLast();
      }
    } else if (e.key === 'Escape') {
      r.input.value = formatValue(r.measure.value, 'mm', model.system);
      setAttr(r.input, 'aria-invalid', null);
      setText(this.complaint, '');
    } else if (e.key === 'ArrowUp' || e.key === 'ArrowDown') {
      e.preventDefault();
      this.#put(r, r.measure.value + (e.key === 'ArrowUp' ? 1 : -1) * (e.shiftKey ? 100 : 5), true);
      r.input.value = formatValue(r.measure.value, 'mm', model.system);
    }
  }
}

/** @param {Measure} m */
function kindName(m) {
  return m.station < 0 && m.kind === 'along' ? say('cuboid_along') : say(m.kind);
}

/** @param {number} mm */
const snapped = (mm) => Math.round(mm / SNAP_MM) * SNAP_MM;
