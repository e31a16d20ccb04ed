// What matters most: a dot in a triangle between deeper, louder and smaller.
// The dot is dragged; behind each corner stands a plain slider for the
// keyboard and for those who do not see the triangle.

import { el, setAttr, svg } from '../dom.js';
import { formatNumber } from '../format.js';
import { EVEN_MIX, withShare } from './answers.js';
import { say } from './words.js';

/** @typedef {import('./answers.js').Mix} Mix */

const WIDTH = 240;
const HEIGHT = 124;
/** Corners, px in the drawing. @type {Record<keyof Mix, {x: number, y: number}>} */
const CORNERS = { deeper: { x: 30, y: 108 }, louder: { x: WIDTH / 2, y: 16 }, smaller: { x: WIDTH - 30, y: 108 } };
const KEYS = /** @type {(keyof Mix)[]} */ (['deeper', 'louder', 'smaller']);

/**
 * Where a mix stands in the triangle.
 * @param {Mix} mix
 */
export function pointOf(mix) {
  return {
    x: KEYS.reduce((sum, k) => sum + mix[k] * CORNERS[k].x, 0),
    y: KEYS.reduce((sum, k) => sum + mix[k] * CORNERS[k].y, 0),
  };
}

/**
 * The mix of a point (its barycentric coordinates); a point outside counts as
 * the nearest way in along them.
 * @param {number} x
 * @param {number} y
 * @returns {Mix}
 */
export function mixAt(x, y) {
  const { deeper: a, louder: b, smaller: c } = CORNERS;
  const whole = (b.y - c.y) * (a.x - c.x) + (c.x - b.x) * (a.y - c.y);
  const deeper = Math.max(0, ((b.y - c.y) * (x - c.x) + (c.x - b.x) * (y - c.y)) / whole);
  const louder = Math.max(0, ((c.y - a.y) * (x - c.x) + (a.x - c.x) * (y - c.y)) / whole);
  const smaller = Math.max(0, 1 - ((b.y - c.y) * (x - c.x) + (c.x - b.x) * (y - c.y)) / whole - ((c.y - a.y) * (x - c.x) + (a.x - c.x) * (y - c.y)) / whole);
  const sum = deeper + louder + smaller;
  return { deeper: deeper / sum, louder: louder / sum, smaller: smaller / sum };
}

export class MixControl {
  /** @param {(mix: Mix) => void} onChange */
  constructor(onChange) {
    this.onChange = onChange;
    /** @type {Mix} */
    this.mix = EVEN_MIX;
    /** The reader has said what matters. */
    this.touched = false;
    this.dot = svg('circle', { class: 'mix-dot', r: 11 });
    this.lines = KEYS.map(() => svg('line', { class: 'mix-line' }));
    const corner = (/** @type {keyof Mix} */ k) => `${CORNERS[k].x} ${CORNERS[k].y}`;
    this.svg = svg('svg', { class: 'mix-triangle', viewBox: `0 0 ${WIDTH} ${HEIGHT}`, 'aria-hidden': 'true', focusable: 'false' },
      svg('path', { class: 'mix-edge', d: `M${corner('deeper')}L${corner('louder')}L${corner('smaller')}Z` }), ...this.lines, this.dot);
    this.ends = KEYS.map((key) => {
      const range = el('input', { type: 'range', min: 0, max: 100, step: 5, 'aria-label': say(/** @type {const} */ (`mix_${key}`)) });
      range.addEventListener('input', () => this.#set(withShare(this.mix, key, Number(range.value) / 100)));
      return { key, range, root: el('label', { class: `mix-end ${key}`, onclick: (/** @type {Event} */ e) => { e.preventDefault(); this.#set(withShare(this.mix, key, 1)); range.focus(); } }, el('span', {}, say(/** @type {const} */ (`mix_${key}`))), range) };
    });
    this.stage = el('div', { class: 'mix-stage' }, this.svg, ...this.ends.map((e) => e.root));
    this.root = el('section', { class: 'mix', 'aria-label': say('mix_title') }, el('h2', {}, say('mix_title')), this.stage);
    this.svg.addEventListener('pointerdown', (e) => this.#drag(e));
    this.#show();
  }

  /** @param {PointerEvent} first */
  #drag(first) {
    if (first.button > 0) return;
    first.preventDefault();
    this.svg.setPointerCapture(first.pointerId);
    const move = (/** @type {PointerEvent} */ e) => {
      const box = this.svg.getBoundingClientRect();
      this.#set(mixAt((e.clientX - box.left) / box.width * WIDTH, (e.clientY - box.top) / box.height * HEIGHT));
    };
    const ended = new AbortController();
    this.svg.addEventListener('pointermove', move, { signal: ended.signal });
    for (const type of /** @type {const} */ (['pointerup', 'pointercancel', 'lostpointercapture'])) this.svg.addEventListener(type, () => ended.abort(), { signal: ended.signal });
    move(first);
  }

  /** @param {Mix} mix */
  #set(mix) {
    this.mix = mix;
    this.touched = true;
    this.#show();
    this.onChange(mix);
  }

  #show() {
    const { x, y } = pointOf(this.mix);
    setAttr(this.dot, 'cx', x);
    setAttr(this.dot, 'cy', y);
    this.ends.forEach(({ key, range }, i) => {
      const line = /** @type {SVGLineElement} */ (this.lines[i]);
      for (const [name, value] of Object.entries({ x1: x, y1: y, x2: CORNERS[key].x, y2: CORNERS[key].y })) setAttr(line, name, Math.round(value * 10) / 10);
      line.style.setProperty('opacity', String(0.12 + 0.88 * this.mix[key]));
      const pct = Math.round(this.mix[key] * 100);
      if (Number(range.value) !== pct) range.value = String(pct);
      setAttr(range, 'aria-valuetext', say('mix_value', { pct: formatNumber(pct, 0) }));
    });
  }
}
