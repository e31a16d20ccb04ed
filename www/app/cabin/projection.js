// One view of the cabin drawn large: the same car as on the page, its nose and
// tail cut off by the frame. Owns the canvas behind it and the place above it
// for handles.

import { el, setAttr, svg } from '../dom.js';
import { px, py } from '../car-path.js';
import { Ink } from '../views/ink.js';
import { drawPlan } from '../views/car-plan.js';
import { drawSide } from '../views/car-side.js';
import { lengthOf, stationsOf } from './shape.js';

/** @typedef {import('../views/model.js').Model} Model */
/** @typedef {import('../car-path.js').Placing} Placing */

const LAYERS = /** @type {const} */ (['under', 'cabin', 'seats', 'amplifier', 'box', 'sub', 'over', 'doors']);

/** Room round the cabin, px: for handles, numbers and the tape. */
const ROOM = { side: { left: 40, right: 40, top: 34, foot: 24 }, above: { left: 40, right: 40, top: 40, foot: 40 } };
/** A narrow page has less to spare at the sides. @param {'side'|'above'} way @param {number} width px */
const roomFor = (way, width) => (width < 480 ? { ...ROOM[way], left: 26, right: 26 } : ROOM[way]);

/** More below the side view, for the numbers of the floor and the tape. */
export const TAPE_ROOM = 100;

export class Projection {
  /** @param {'side'|'above'} way */
  constructor(way) {
    this.way = way;
    const groups = LAYERS.map((name) => svg('g', { class: `layer ${name}` }));
    this.layers = /** @type {import('../views/car-side.js').Layers} */ (Object.fromEntries(LAYERS.map((name, i) => [name, new Ink(/** @type {SVGGElement} */ (groups[i]))])));
    this.marksGroup = svg('g', { class: 'marks' });
    this.marks = new Ink(this.marksGroup);
    this.svg = svg('svg', { class: 'drawing', 'aria-hidden': 'true' }, ...groups, this.marksGroup);
    this.canvas = el('canvas', { class: 'cab-picture', hidden: true, role: 'img' });
    this.over = el('div', { class: 'cab-over' });
    this.root = el('div', { class: `cab-view ${way}` }, this.canvas, this.svg, this.over);
    /** @type {Placing} */
    this.p = { x0: 0, y0: 0, scale: 0.2 };
    this.width = 0;
    this.height = 0;
  }

  /**
   * What must be seen, mm: along the car and, on the page, upward.
   * @param {Model} model
   */
  static span(model, /** @type {'side'|'above'} */ way) {
    const { cabin, boot } = model.job.car;
    const s = stationsOf(cabin);
    const right = Math.max(lengthOf(cabin), boot.separate ? boot.x_mm + boot.length_mm : 0);
    if (way === 'above') {
      const half = Math.max(...s.map((q) => q.width_mm), boot.separate ? boot.width_mm : 0) / 2;
      return { right, low: -half, high: half };
    }
    return { right, low: Math.min(0, boot.separate ? boot.floor_mm : 0, ...s.map((q) => q.floor_mm)), high: Math.max(...s.map((q) => q.roof_mm)) };
  }

  /**
   * Largest scale at which the cabin fits, px per mm.
   * @param {Model} model
   * @param {'side'|'above'} way
   * @param {number} width @param {number} most height of the frame, px
   */
  static scale(model, way, width, most) {
    const b = Projection.span(model, way);
    const room = roomFor(way, width);
    return Math.max(0.03, Math.min((width - room.left - room.right) / b.right, (most - room.top - room.foot) / (b.high - b.low)));
  }

  /**
   * Fixes where millimetres fall, until the next call.
   * @param {Model} model
   * @param {number} width px
   * @param {number} scale px per mm
   * @param {number} [below] more room below, px
   */
  settle(model, width, scale, below = 0) {
    const b = Projection.span(model, this.way);
    const room = roomFor(this.way, width);
    this.p = { scale, x0: (width - b.right * scale + room.left - room.right) / 2, y0: room.top + b.high * scale };
    this.width = width;
    this.foot = room.top + (b.high - b.low) * scale;
    this.height = Math.round(this.foot + room.foot + below);
    this.root.style.setProperty('height', `${this.height}px`);
    setAttr(this.svg, 'viewBox', `0 0 ${width} ${this.height}`);
  }

  /** @param {Model} model @param {import('../car-outline.js').Outline} outline */
  draw(model, outline) {
    (this.way === 'side' ? drawSide : drawPlan)(this.layers, model, outline, this.p);
  }

  /** Where a place of the car falls, px; v is height or distance to the right. @param {number} x @param {number} v */
  at(x, v) {
    return { x: px(this.p, x), y: py(this.p, v) };
  }
}
