// Small drawings of cars for the two short ways in, with the lines of the
// large one.

import { carOutline, outlineInput } from '../car-outline.js';
import { pathData, px, py } from '../car-path.js';
import { svg } from '../dom.js';
import { drawSide, outlineOf } from '../views/car-side.js';
import { Ink } from '../views/ink.js';
import { Model } from '../views/model.js';

/** @typedef {import('../views/model.js').BodyPreset} BodyPreset */

/** A body style as its outline takes it. @param {BodyPreset} preset */
export function outlineOfBody(preset) {
  return carOutline(outlineInput({ ...preset, body: preset.key }));
}

/**
 * Scale at which every one of the cars fits a picture, px for a mm.
 * @param {BodyPreset[]} bodies
 * @param {number} width
 * @param {number} height
 */
export function commonScale(bodies, width, height) {
  return Math.min(...bodies.map((b) => {
    const { box } = outlineOfBody(b);
    return Math.min((width - 4) / (box.right - box.left), (height - 4) / (box.high - box.low));
  }));
}

/**
 * A body style alone, standing on its wheels.
 * @param {BodyPreset} preset
 * @param {number} width
 * @param {number} height
 * @param {number} scale px for a mm
 */
export function bodyPicture(preset, width, height, scale) {
  const o = outlineOfBody(preset);
  const p = { x0: width / 2 - (o.box.left + o.box.right) / 2 * scale, y0: height - 2 + o.ground * scale, scale };
  return svg('svg', { class: 'body-picture', viewBox: `0 0 ${width} ${height}`, 'aria-hidden': 'true', focusable: 'false' },
    svg('path', { class: 'body-fill', d: pathData(o.body, p) }),
    ...o.panes.map((pane) => svg('path', { class: 'glass', d: pathData(pane, p) })),
    svg('path', { class: 'body-line', d: pathData(o.body, p) }),
    ...o.wheels.flatMap((w) => [
      svg('circle', { class: 'tyre', cx: px(p, w.x), cy: py(p, w.z), r: w.r * scale }),
      svg('circle', { class: 'fine', cx: px(p, w.x), cy: py(p, w.z), r: w.r * scale * 0.6 }),
    ]));
}

/** Layers of the drawing from below to above. */
const LAYERS = ['under', 'cabin', 'seats', 'amplifier', 'box', 'sub', 'over', 'doors'];

/**
 * A whole job from the side, to scale, redrawn in place.
 */
export class JobPicture {
  /** @param {string} spoken what a screen reader says of it; '' for nothing */
  constructor(spoken) {
    const groups = LAYERS.map((name) => svg('g', { class: `layer ${name}` }));
    this.layers = /** @type {import('../views/car-side.js').Layers} */ (Object.fromEntries(LAYERS.map((name, i) => [name, new Ink(/** @type {SVGGElement} */ (groups[i]))])));
    this.road = svg('path', { class: 'road' });
    this.root = svg('svg', { class: 'job-picture', role: spoken ? 'img' : null, 'aria-label': spoken || null, 'aria-hidden': spoken ? null : 'true' }, ...groups, this.road);
    this.drawn = '';
  }

  /**
   * @param {import('../job.js').Job} job
   * @param {import('../units.js').System} system
   * @param {number} width px
   * @param {number} most highest it may be, px
   */
  draw(job, system, width, most) {
    const model = new Model(job, null, new Float64Array(), [], false, system, job.aim.seat);
    const outline = outlineOf(model);
    const { box } = outline;
    const scale = Math.min((width - 8) / (box.right - box.left), (most - 8) / (box.high - box.low));
    const p = { x0: (width - (box.right - box.left) * scale) / 2 - box.left * scale, y0: 4 + box.high * scale, scale };
    const height = Math.ceil((box.high - box.low) * scale) + 8;
    this.root.setAttribute('viewBox', `0 0 ${width} ${height}`);
    this.root.style.setProperty('aspect-ratio', `${width} / ${height}`);
    const road = py(p, outline.ground);
    this.road.setAttribute('d', `M0 ${road}H${width}`);
    return drawSide(this.layers, model, outline, p);
  }
}
