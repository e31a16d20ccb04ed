// The boot from the side, the part that may go marked: touched, dragged, or
// typed on its dimension lines.

import { el, setAttr, setText, svg } from '../dom.js';
import { formatValue } from '../format.js';
import { parseQuantity } from '../parse.js';
import { pathData, px, py, roundedLine } from '../car-path.js';
import { sitter } from '../car-people.js';
import { unitOf } from '../units.js';
import { Ink } from '../views/ink.js';
import { outlineOfBody } from './car-picture.js';
import { crates, profile } from './boot-space.js';
import { say } from './words.js';

/** @typedef {import('./replies.js').Space} Space */
/** @typedef {import('../views/model.js').BodyPreset} BodyPreset */
/** @typedef {import('../units.js').System} System */

/** How far ahead of the boot the picture begins, mm. */
const AHEAD = 380;
const STEP_MM = 10;

export class BootPicture {
  /** @param {(space: Space) => void} onChange the reader has marked another part */
  constructor(onChange) {
    this.onChange = onChange;
    const layer = (/** @type {string} */ name) => svg('g', { class: `layer ${name}` });
    const groups = { car: layer('car-lines'), keep: layer('boot-keep'), take: layer('boot-take'), marks: layer('marks') };
    this.car = new Ink(groups.car);
    this.keep = new Ink(groups.keep);
    this.take = new Ink(groups.take);
    this.marks = new Ink(groups.marks);
    this.touch = svg('path', { class: 'boot-touch' });
    this.svg = svg('svg', { class: 'drawing', role: 'img', 'aria-label': say('boot_picture') }, ...Object.values(groups), this.touch);
    this.knob = el('span', { class: 'corner-knob', 'aria-hidden': 'true' });
    this.length = this.#entry(say('boot_length'), 'length_mm');
    this.height = this.#entry(say('boot_height'), 'height_mm');
    this.root = el('div', { class: 'boot-stage' }, this.svg, this.knob, this.length.root, this.height.root);
    for (const node of [this.touch, this.knob]) node.addEventListener('pointerdown', (e) => this.#drag(/** @type {PointerEvent} */ (e)));
    /** @type {{preset: BodyPreset, space: Space, assumed: boolean, system: System}|null} */
    this.shown = null;
    this.place = { x0: 0, y0: 0, scale: 1 };
    this.width = 0;
    new ResizeObserver(([entry]) => {
      this.width = entry ? Math.round(entry.contentRect.width) : 0;
      this.#draw();
    }).observe(this.root);
  }

  /**
   * @param {BodyPreset} preset
   * @param {Space} space
   * @param {boolean} assumed nobody has marked it
   * @param {System} system
   */
  update(preset, space, assumed, system) {
    this.shown = { preset, space, assumed, system };
    this.#draw();
  }

  /** @param {string} label @param {'length_mm'|'height_mm'} key */
  #entry(label, key) {
    const input = el('input', { type: 'text', inputmode: 'decimal', autocomplete: 'off', class: 'dimension-entry', 'aria-label': label });
    const unit = el('span', { class: 'unit', 'aria-hidden': 'true' });
    const set = (/** @type {number} */ mm) => this.shown && this.onChange({ ...this.shown.space, [key]: mm });
    input.addEventListener('focus', () => input.select());
    input.addEventListener('change', () => {
      if (!this.shown) return;
      const most = key === 'length_mm' ? this.shown.preset.boot.length_mm : this.shown.preset.boot.height_mm;
      const parsed = parseQuantity(input.value, 'mm', unitOf('mm', this.shown.system), 60, Math.max(most, 60));
      if (parsed.ok) set(parsed.value);
      else if (parsed.why === 'too_large') set(most);
      else this.#draw();
    });
    input.addEventListener('keydown', (e) => {
      const way = e.key === 'ArrowUp' ? 1 : e.key === 'ArrowDown' ? -1 : 0;
      if (!way || !this.shown) return;
      e.preventDefault();
      set(this.shown.space[key] + way * STEP_MM * (e.shiftKey ? 10 : 1));
      input.select();
    });
    return { input, unit, root: el('span', { class: 'dimension-number' }, input, unit) };
  }

  /** @param {PointerEvent} first */
  #drag(first) {
    if (!this.shown || first.button > 0) return;
    first.preventDefault();
    const target = /** @type {Element} */ (first.currentTarget);
    target.setPointerCapture(first.pointerId);
    const move = (/** @type {PointerEvent} */ e) => {
      if (!this.shown) return;
      const { boot } = this.shown.preset;
      const box = this.root.getBoundingClientRect();
      const x = (e.clientX - box.left - this.place.x0) / this.place.scale - boot.x_mm;
      const z = (this.place.y0 - (e.clientY - box.top)) / this.place.scale - boot.floor_mm;
      const round = (/** @type {number} */ v) => Math.round(v / STEP_MM) * STEP_MM;
      this.onChange({ ...this.shown.space, length_mm: round(x), height_mm: round(z) });
    };
    const ended = new AbortController();
    const end = () => ended.abort();
    target.addEventListener('pointermove', (e) => move(/** @type {PointerEvent} */ (e)), { signal: ended.signal });
    for (const type of ['pointerup', 'pointercancel', 'lostpointercapture']) target.addEventListener(type, end, { signal: ended.signal });
    if (target === this.touch) move(first);
  }

  #draw() {
    const { shown, width } = this;
    if (!shown || width < 160) return;
    const { preset, space, assumed, system } = shown;
    const { boot } = preset;
    const o = outlineOfBody(preset);
    const left = boot.x_mm - AHEAD;
    const right = o.box.right + 40;
    const top = 12;
    const foot = 54;
    const side = 78;
    const most = Math.max(190, Math.min(330, window.innerHeight * 0.36));
    const scale = Math.min((width - side) / (right - left), (most - top) / (o.box.high - o.ground));
    const spare = Math.max(0, width - side - (right - left) * scale);
    const p = { x0: spare / 2 - left * scale, y0: top + o.box.high * scale, scale };
    this.place = p;
    const road = Math.round(py(p, o.ground));
    const height = road + foot;
    this.root.style.setProperty('height', `${height}px`);
    setAttr(this.svg, 'viewBox', `0 0 ${width} ${height}`);

    this.car.begin();
    this.car.path('body', pathData(o.body, p), 'body-fill');
    o.panes.forEach((pane, i) => this.car.path(`glass${i}`, pathData(pane, p), 'glass'));
    this.#seat(preset, p);
    this.car.path('line', pathData(o.body, p), 'body-line');
    o.lines.forEach((line, i) => this.car.path(`l${i}`, pathData(line, p), 'fine'));
    o.lamps.forEach((lamp, i) => this.car.path(`lamp${i}`, pathData(lamp, p), 'fine'));
    o.wheels.forEach((w, i) => {
      this.car.draw(`tyre${i}`, 'circle', { cx: px(p, w.x), cy: py(p, w.z), r: w.r * scale, class: 'tyre' });
      this.car.draw(`rim${i}`, 'circle', { cx: px(p, w.x), cy: py(p, w.z), r: w.r * scale * 0.64, class: 'fine' });
    });
    this.car.draw('road', 'line', { x1: 0, x2: width, y1: road + 0.5, y2: road + 0.5, class: 'road' });
    this.car.end();

    const line = (/** @type {[number, number][]} */ corners) => pathData(roundedLine(corners.map(([x, z]) => [boot.x_mm + x, boot.floor_mm + z]), true), p);
    const whole = line(profile(boot, boot.length_mm, boot.height_mm));
    this.keep.begin();
    this.keep.path('whole', whole, 'boot-whole');
    for (const [i, c] of crates(boot, space).seen.entries()) this.keep.path(`crate${i}`, line([[c.x + 8, c.z + 6], [c.x + c.w - 8, c.z + 6], [c.x + c.w - 8, c.z + c.h - 6], [c.x + 8, c.z + c.h - 6]]), 'crate');
    this.keep.end();
    setAttr(this.touch, 'd', whole);

    const part = profile(boot, space.length_mm, space.height_mm);
    this.take.begin();
    this.take.path('part', line(part), assumed ? 'boot-part assumed-part' : 'boot-part');
    this.#hatching(part, boot, p);
    this.take.end();

    const corner = { x: px(p, boot.x_mm + space.length_mm), y: py(p, boot.floor_mm + (part[2]?.[1] ?? space.height_mm)) };
    this.knob.style.setProperty('transform', `translate(${Math.round(corner.x - 22)}px, ${Math.round(corner.y - 22)}px)`);
    const y = road + 14;
    const x1 = px(p, boot.x_mm);
    const floor = py(p, boot.floor_mm);
    const x = Math.round(Math.min(width - 40, px(p, o.box.right) + 46));
    this.marks.begin();
    this.#mark('l', { x: x1, y }, { x: corner.x, y }, floor);
    this.#mark('h', { x, y: corner.y }, { x, y: floor }, corner.x);
    this.marks.end();
    this.#number(this.length, space.length_mm, system, Math.max(44, Math.min(width - 44, (x1 + corner.x) / 2)), y + 20, assumed);
    this.#number(this.height, space.height_mm, system, Math.min(width - 40, x), (corner.y + floor) / 2, assumed);
  }

  /** @param {BodyPreset} preset @param {import('../car-path.js').Placing} p */
  #seat(preset, p) {
    const rear = preset.seats.reduce((a, b) => (b.x_mm > a.x_mm ? b : a));
    const s = sitter({ x: rear.x_mm, z: rear.z_mm }, preset.boot.floor_mm - 60);
    const d = s.seat.map((limb) => pathData(roundedLine(limb.line.map((q, i, all) => [q.x, q.z, i > 0 && i < all.length - 1 ? 9999 : 0])), p));
    s.seat.forEach((limb, i) => this.car.path(`sa${i}`, d[i] ?? '', 'seat-edge', { 'stroke-width': limb.width * p.scale + 2.2 }));
    s.seat.forEach((limb, i) => this.car.path(`sb${i}`, d[i] ?? '', 'seat-fill', { 'stroke-width': limb.width * p.scale }));
  }

  /**
   * Slanting lines inside a convex shape, as a draughtsman marks what is cut.
   * @param {[number, number][]} corners
   * @param {import('../job.js').Boot} boot
   * @param {import('../car-path.js').Placing} p
   */
  #hatching(corners, boot, p) {
    const pitch = 11 / p.scale;
    const sums = corners.map(([x, z]) => x + z);
    let d = '';
    for (let c = Math.min(...sums) + pitch; c < Math.max(...sums); c += pitch) {
      const ends = crossings(corners, c);
      const [a, b] = ends;
      if (a && b) d += `M${px(p, boot.x_mm + a[0]).toFixed(1)} ${py(p, boot.floor_mm + a[1]).toFixed(1)}L${px(p, boot.x_mm + b[0]).toFixed(1)} ${py(p, boot.floor_mm + b[1]).toFixed(1)}`;
    }
    this.take.path('hatching', d, 'hatching');
  }

  /**
   * A dimension line, level or upright, and the thin lines that lead to it.
   * @param {string} key
   * @param {{x: number, y: number}} a
   * @param {{x: number, y: number}} b
   * @param {number} from where the thin lines come from
   */
  #mark(key, a, b, from) {
    const level = a.y === b.y;
    for (const [i, q] of [a, b].entries()) {
      this.marks.draw(`${key}e${i}`, 'line', level ? { x1: q.x, x2: q.x, y1: from, y2: q.y + 6, class: 'extension' } : { x1: Math.min(from, q.x), x2: q.x + 6, y1: q.y, y2: q.y, class: 'extension' });
      this.marks.draw(`${key}t${i}`, 'line', { x1: q.x - 4, x2: q.x + 4, y1: q.y + 4, y2: q.y - 4, class: 'tick' });
    }
    this.marks.draw(key, 'line', { x1: a.x, x2: b.x, y1: a.y, y2: b.y, class: 'dimension' });
  }

  /**
   * @param {{input: HTMLInputElement, unit: HTMLElement, root: HTMLElement}} entry
   * @param {number} mm
   * @param {System} system
   * @param {number} x
   * @param {number} y
   * @param {boolean} assumed
   */
  #number(entry, mm, system, x, y, assumed) {
    const text = formatValue(mm, 'mm', system);
    if (document.activeElement !== entry.input || parseFloat(entry.input.value) !== mm) entry.input.value = text;
    setText(entry.unit, unitOf('mm', system).sign);
    entry.input.style.setProperty('width', `${Math.max(3, text.length)}ch`);
    entry.root.classList.toggle('assumed-value', assumed);
    entry.root.style.setProperty('transform', `translate(${Math.round(x)}px, ${Math.round(y)}px) translate(-50%, -50%)`);
  }
}

/**
 * Where the line x + z = c crosses the sides of a convex shape.
 * @param {[number, number][]} corners
 * @param {number} c
 * @returns {[number, number][]}
 */
function crossings(corners, c) {
  /** @type {[number, number][]} */
  const out = [];
  corners.forEach(([x, z], i) => {
    const [nx, nz] = /** @type {[number, number]} */ (corners[(i + 1) % corners.length]);
    const a = x + z - c;
    const b = nx + nz - c;
    if ((a < 0) === (b < 0)) return;
    const t = a / (a - b);
    out.push([x + (nx - x) * t, z + (nz - z) * t]);
  });
  return out;
}
