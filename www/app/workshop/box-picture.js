// Draws a box in section: the shapes of box-section.js turned the way the box
// fires and fitted to the paper, with the numbers that belong to it.

import { setAttr, svg } from '../dom.js';
import { formatWithUnit } from '../format.js';
import { airLitres } from './box-geometry.js';
import { boxSection } from './box-section.js';
import { say } from './words.js';

/** @typedef {import('./box-section.js').Point} Point */

const WIDTH = 340;
const TALLEST = 250;
const MARGIN = { left: 46, right: 16, top: 14, foot: 30 };

/**
 * Turns a point of the section onto paper, y downward.
 * @param {string} fires
 * @returns {(p: Point) => [number, number]}
 */
export function turnFor(fires) {
  if (fires === 'up') return ([a, c]) => [c, -a];
  if (fires === 'down') return ([a, c]) => [c, a];
  return ([a, c]) => [a, c];
}

/** @param {[number, number][]} points @param {boolean} [closed] */
function pathOf(points, closed) {
  return points.map(([x, y], i) => `${i ? 'L' : 'M'}${Math.round(x * 10) / 10} ${Math.round(y * 10) / 10}`).join('') + (closed ? 'Z' : '');
}

/** One picture; it is drawn anew when something about the box changed. */
export class BoxPicture {
  constructor() {
    this.root = svg('svg', { class: 'box-section', role: 'img' });
    this.drawn = '';
    /** @type {import('./box-section.js').Section|null} */
    this.section = null;
  }

  /**
   * @param {import('./box-geometry.js').SectionInput} input
   * @param {import('../units.js').System} system
   */
  update(input, system) {
    const key = JSON.stringify([input, system]);
    if (key === this.drawn) return;
    this.drawn = key;
    const section = boxSection(input);
    this.section = section;
    const turn = turnFor(input.place.fires);
    const all = section.shapes.flatMap((s) => s.points.map(turn));
    const xs = all.map((p) => p[0]);
    const ys = all.map((p) => p[1]);
    const [x0, x1, y0, y1] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
    // The number of a gap stands beside the box.
    const wide = WIDTH - MARGIN.left - (input.place.gap_mm ? 56 : MARGIN.right);
    const scale = Math.min(wide / Math.max(1, x1 - x0), (TALLEST - MARGIN.top - MARGIN.foot) / Math.max(1, y1 - y0));
    const left = MARGIN.left + (wide - (x1 - x0) * scale) / 2;
    const put = (/** @type {Point} */ p) => {
      const [x, y] = turn(p);
      return /** @type {[number, number]} */ ([left + (x - x0) * scale, MARGIN.top + (y - y0) * scale]);
    };
    const height = MARGIN.top + MARGIN.foot + (y1 - y0) * scale;
    setAttr(this.root, 'viewBox', `0 0 ${WIDTH} ${Math.round(height)}`);
    setAttr(this.root, 'aria-label', say('picture', { what: pictureWords(input, section, system) }));
    const outline = section.shapes[0];
    this.root.replaceChildren(
      // The air of the box first, so that everything lies on it.
      ...(outline?.kind === 'wall' ? [svg('path', { class: 'cut air', d: pathOf(outline.points.map(put), true) })] : []),
      ...section.shapes.map((s) => svg('path', { class: `cut ${s.kind}`, d: pathOf(s.points.map(put), s.closed) })),
      ...(outline?.kind === 'wall' ? this.#measures(outline.points.map(put), outline.points.map(turn), MARGIN.top + (y1 - y0) * scale, system) : []),
      ...section.notes.flatMap((n) => this.#note(n, input, system, put)),
    );
  }

  /**
   * Width and height of the box as it lies on the paper.
   * @param {[number, number][]} at px
   * @param {[number, number][]} mm
   * @param {number} foot px, of all that is drawn
   * @param {import('../units.js').System} system
   */
  #measures(at, mm, foot, system) {
    const ends = (/** @type {[number, number][]} */ list, /** @type {0|1} */ k) => /** @type {const} */ ([Math.min(...list.map((p) => p[k])), Math.max(...list.map((p) => p[k]))]);
    const [[x0, x1], [y0, y1]] = [ends(at, 0), ends(at, 1)];
    const size = (/** @type {0|1} */ k) => { const [a, b] = ends(mm, k); return formatWithUnit(b - a, 'wood_mm', system); };
    return [...measure([x0, foot + 12], [x1, foot + 12], size(0)), ...measure([x0 - 12, y0], [x0 - 12, y1], size(1))];
  }

  /**
   * @param {import('./box-section.js').Note} n
   * @param {import('./box-geometry.js').SectionInput} input
   * @param {import('../units.js').System} system
   * @param {(p: Point) => [number, number]} put
   */
  #note(n, input, system, put) {
    const text = noteWords(n, input, system);
    if (!text) return [];
    if (n.line) return measure(put(n.line[0]), put(n.line[1]), text);
    const [x, y] = put(n.at);
    return [svg('text', { class: n.key === 'rear' || n.key === 'front' ? 'cut-number loud' : 'cut-number', x: Math.min(WIDTH - 24, Math.max(24, x)), y: y + 4, 'text-anchor': 'middle' }, text)];
  }
}

/**
 * A dimension line with small end ticks and its number.
 * @param {[number, number]} a px
 * @param {[number, number]} b px
 * @param {string} text
 */
function measure(a, b, text) {
  const flat = Math.abs(a[1] - b[1]) < 0.5;
  const tick = (/** @type {[number, number]} */ p) => (flat ? `M${p[0]} ${p[1] - 4}v8` : `M${p[0] - 4} ${p[1]}h8`);
  const line = svg('path', { class: 'cut measure', d: `M${a[0]} ${a[1]}L${b[0]} ${b[1]}${tick(a)}${tick(b)}` });
  // Too short for its number along it: the number stands beside.
  if (Math.hypot(a[0] - b[0], a[1] - b[1]) < 40) return [line, svg('text', { class: 'cut-number', x: Math.max(a[0], b[0]) + 8, y: (a[1] + b[1]) / 2 + 4 }, text)];
  const [x, y] = [(a[0] + b[0]) / 2 - (flat ? 0 : 6), (a[1] + b[1]) / 2 + (flat ? 13 : 0)];
  return [
    line,
    svg('text', { class: 'cut-number', x, y, 'text-anchor': 'middle', transform: flat ? null : `rotate(-90 ${x} ${y})` }, text),
  ];
}

/** @param {import('./box-section.js').Note} n @param {import('./box-geometry.js').SectionInput} input @param {import('../units.js').System} system */
function noteWords(n, { box }, system) {
  switch (n.key) {
    case 'rear': return formatWithUnit(box.net_l, 'litres', system);
    case 'front': return formatWithUnit(box.front_l, 'litres', system);
    case 'boot': return say('behind');
    case 'count': return `× ${n.value}`;
    case 'added': return `+ ${formatWithUnit(n.value ?? 0, 'grams', system)}`;
    case 'port': case 'front_port': return n.value ? formatWithUnit(n.value, 'mm', system) : '';
    default: return formatWithUnit(n.value ?? 0, 'wood_mm', system);
  }
}

/** The picture in words. @param {import('./box-geometry.js').SectionInput} input @param {import('./box-section.js').Section} section @param {import('../units.js').System} system */
function pictureWords(input, section, system) {
  const { size } = section;
  const mm = (/** @type {number} */ v) => formatWithUnit(v, 'wood_mm', system);
  const said = [say(/** @type {any} */ (`type_${input.box.type}`))];
  if (input.box.type !== 'infinite_baffle') said.push(say('picture_size', { air: formatWithUnit(airLitres(input.box), 'litres', system), along: mm(size.along), across: mm(size.across) }));
  for (const [name, lay] of Object.entries(section.ports)) said.push(say(name === 'front' ? 'picture_front' : 'picture_port', { length: mm(lay.length), fit: say(`fit_${lay.fit}`) }));
  return said.join(', ');
}
