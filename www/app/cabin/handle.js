// A handle on the drawing: dragged with a finger or moved with the arrow keys.
// It knows nothing of what it moves; whoever makes it says what a step means.

import { el, setAttr } from '../dom.js';

/** Further than this a touch is a drag, not a tap, px. */
const TAP_PX = 6;

/**
 * @typedef {object} HandleOptions
 * @property {string} kind class of the mark
 * @property {'upright'|'level'|'free'} way it moves
 * @property {() => void} [begin] a drag begins
 * @property {(dx: number, dy: number) => void} drag px from where it began, right and down
 * @property {(dx: number, dy: number) => void} step presses of an arrow key, right and up; ten with Shift
 * @property {() => void} end the drag or key is over
 * @property {() => void} [tap] touched without moving, Enter or Space
 */

export class Handle {
  /** @param {HandleOptions} o */
  constructor(o) {
    this.o = o;
    // What only moves along one line is a slider; what can be tapped is a button.
    this.root = el('div', { class: `cab-handle ${o.kind} ${o.way}`, tabindex: 0, role: o.tap ? 'button' : 'slider' }, el('span', { class: 'cab-mark' }));
    if (!o.tap) setAttr(this.root, 'aria-orientation', o.way === 'level' ? 'horizontal' : 'vertical');
    this.root.addEventListener('pointerdown', (e) => this.#grab(e));
    this.root.addEventListener('keydown', (e) => this.#key(e));
    this.root.addEventListener('keyup', (e) => { if (e.key.startsWith('Arrow')) o.end(); });
  }

  /** @param {number} x px @param {number} y px */
  place(x, y) {
    this.root.style.setProperty('transform', `translate(${Math.round(x) - 22}px, ${Math.round(y) - 22}px)`);
  }

  /** @param {string} label @param {string} text @param {{value: number, min: number, max: number}} [span] */
  tell(label, text, span) {
    setAttr(this.root, 'aria-label', label);
    if (!span) return;
    setAttr(this.root, 'aria-valuetext', text);
    setAttr(this.root, 'aria-valuenow', Math.round(span.value));
    setAttr(this.root, 'aria-valuemin', Math.round(span.min));
    setAttr(this.root, 'aria-valuemax', Math.round(span.max));
  }

  /** @param {PointerEvent} e */
  #grab(e) {
    if (e.button !== 0) return;
    const { o, root } = this;
    e.preventDefault();
    root.setPointerCapture(e.pointerId);
    root.focus({ preventScroll: true });
    root.classList.add('held');
    const from = { x: e.clientX, y: e.clientY };
    let moved = false;
    o.begin?.();
    const move = (/** @type {PointerEvent} */ m) => {
      const dx = m.clientX - from.x;
      const dy = m.clientY - from.y;
      moved ||= Math.hypot(dx, dy) > TAP_PX;
      if (moved) o.drag(o.way === 'upright' ? 0 : dx, o.way === 'level' ? 0 : dy);
    };
    root.addEventListener('pointermove', move);
    root.addEventListener('lostpointercapture', () => {
      root.removeEventListener('pointermove', move);
      root.classList.remove('held');
      o.end();
      if (!moved) o.tap?.();
    }, { once: true });
  }

  /** @param {KeyboardEvent} e */
  #key(e) {
    const ways = /** @type {Record<string, [number, number]>} */ ({ ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] });
    const way = ways[e.key];
    if (way) {
      e.preventDefault();
      const by = e.shiftKey ? 10 : 1;
      this.o.step(way[0] * by, way[1] * by);
    } else if ((e.key === 'Enter' || e.key === ' ') && this.o.tap) {
      e.preventDefault();
      this.o.tap();
    }
  }
}
