// The car from the side, from its own inside dimensions and its body style.
// Pure geometry in millimetres; x rearward from the front of the cabin, z up
// from the cabin floor.

import { bounds, roundedLine } from './car-path.js';
import { styleOf } from './car-styles.js';

/** @typedef {import('./car-path.js').Step} Step */
/** @typedef {import('./car-path.js').Corner} Corner */

/**
 * What the outline needs to know of a car.
 * @typedef {object} OutlineInput
 * @property {string} body
 * @property {number} lengthMM inside length of the cabin
 * @property {number} heightMM inside height of the cabin
 * @property {number} tailMM x of the rearmost inside point, boot included
 * @property {[x: number, z: number][]} [roofMM] the inside of the roof from front to rear, where it was measured
 * @property {boolean} [roofOff] the roof is down
 */

/**
 * @typedef {object} Outline
 * @property {Step[]} body closed outline of the body, wheel arches cut out
 * @property {Step[][]} panes side windows
 * @property {Step[][]} lines door shut lines and the style's own lines
 * @property {Step[][]} lamps head lamp, tail lamp and, on some, the spare wheel
 * @property {{x: number, z: number, r: number}[]} wheels front and rear
 * @property {number} ground z of the road
 * @property {{left: number, right: number, low: number, high: number}} box what it all fills
 */

/**
 * What the outline needs, from a car of the document.
 * @param {{body: string, cabin: {shape: string, length_mm: number, height_mm: number, stations?: {x_mm: number, roof_mm: number}[]},
 *   boot: {x_mm: number, length_mm: number}, openings?: {kind: string}[]}} car
 * @returns {OutlineInput}
 */
export function outlineInput({ body, cabin, boot, openings = [] }) {
  const stations = cabin.shape === 'stations' && cabin.stations && cabin.stations.length > 1 ? cabin.stations : undefined;
  const lengthMM = stations ? Math.max(...stations.map((s) => s.x_mm)) : cabin.length_mm;
  return {
    body,
    lengthMM,
    heightMM: stations ? Math.max(...stations.map((s) => s.roof_mm)) : cabin.height_mm,
    tailMM: Math.max(lengthMM, boot.x_mm + boot.length_mm),
    roofMM: stations?.map((s) => [s.x_mm, s.roof_mm]),
    roofOff: openings.some((o) => o.kind === 'roof_off'),
  };
}

/**
 * Draws the car. Every length must be positive; the document's own checks see
 * to that.
 * @param {OutlineInput} input
 * @returns {Outline}
 */
export function carOutline(input) {
  const style = styleOf(input.body);
  const L = input.lengthMM;
  const ground = -style.clear;
  const whole = input.heightMM + style.clear + style.skin;
  const z = (/** @type {number} */ share) => ground + share * whole;
  const frame = { L, tail: input.tailMM, z };

  const nose = -style.nose * L;
  const tail = input.tailMM + style.beyond;
  const wheels = [
    { x: style.frontAxle * L, z: ground + style.wheel, r: style.wheel },
    { x: tail - style.rearOverhang, z: ground + style.wheel, r: style.wheel },
  ];
  const upper = upperLine(style, frame, input);
  const body = closeBelow(upper, z, nose, tail, wheels);
  const under = (/** @type {Corner[]} */ corners) => corners.map(([x, high, r]) => /** @type {Corner} */ ([x, Math.min(high, heightAt(upper, x) - 62), r]));
  // A spare wheel hangs on the tail, seen edge on.
  const spare = style.spare ? roundedLine([[tail + 5, z(0.5) - 340, 70], [tail + 5, z(0.5) + 340, 70], [tail + 215, z(0.5) + 340, 70], [tail + 215, z(0.5) - 340, 70]], true) : undefined;

  const box = bounds(body);
  return {
    body,
    panes: input.roofOff && style.folded ? [] : style.panes(frame).map((c) => roundedLine(under(c), true)),
    lines: [...style.doors(frame), ...(style.lines?.(frame) ?? [])].map((c) => roundedLine(under(c))),
    lamps: [...lamps(frame, nose, tail, style.lamp ?? 0.42), ...(spare ? [spare] : [])],
    wheels,
    ground,
    box: { ...box, right: spare ? tail + 215 : box.right, low: ground },
  };
}

/**
 * The line over the car from the bonnet to the tail. A roof that was measured
 * is drawn as measured, its skin above it.
 * @param {import('./car-styles.js').Style} style
 * @param {import('./car-styles.js').Frame} frame
 * @param {OutlineInput} input
 * @returns {Corner[]}
 */
function upperLine(style, frame, { roofMM, roofOff }) {
  const front = style.front(frame);
  const rear = style.rear(frame);
  if (roofOff && style.folded) return [...front, ...style.folded(frame), ...rear];
  const foot = front[front.length - 1];
  const cowl = foot?.[0] ?? 0;
  const low = roofMM?.[0]?.[1];
  // The screen stands in front of the first section, never inside it.
  if (foot && low !== undefined) foot[1] = Math.max(foot[1], low + 25);
  /** @type {Corner[]} */
  const measured = (roofMM ?? []).filter(([x]) => x > cowl + 150).map(([x, roof], i, all) => [x, roof + style.skin, i === all.length - 1 ? 130 : 420]);
  return [...front, ...(measured.length > 1 ? measured : style.roof(frame)), ...rear];
}

/**
 * Height of a line of corners at x, straight between them.
 * @param {Corner[]} line
 * @param {number} x
 */
function heightAt(line, x) {
  for (let i = 1; i < line.length; i += 1) {
    const [xa, za] = /** @type {Corner} */ (line[i - 1]);
    const [xb, zb] = /** @type {Corner} */ (line[i]);
    if (x >= xa && x <= xb && xb > xa) return za + (zb - za) * (x - xa) / (xb - xa);
  }
  return Infinity;
}

/**
 * The body's outline from its upper line, a front, a tail and a sill with two
 * arches.
 * @param {Corner[]} above
 * @param {(share: number) => number} z
 * @param {number} nose
 * @param {number} tail
 * @param {{x: number, z: number, r: number}[]} wheels
 * @returns {Step[]}
 */
function closeBelow(above, z, nose, tail, wheels) {
  const sill = z(0.15);
  const upper = roundedLine([
    [nose + 90, sill], [nose + 25, z(0.17), 45], [nose, z(0.29), 120],
    ...above,
    [tail, z(0.36), 90], [tail - 15, z(0.2), 110], [tail - 120, sill, 60], [tail - 150, sill],
  ]);
  const [front, rear] = /** @type {[{x: number, z: number, r: number}, {x: number, z: number, r: number}]} */ ([wheels[0], wheels[1]]);
  return [...upper, ...arch(rear, sill), ...arch(front, sill), { op: 'Z' }];
}

/**
 * An arch over a wheel, met from behind along the sill.
 * @param {{x: number, z: number, r: number}} wheel
 * @param {number} sill
 * @returns {Step[]}
 */
function arch(wheel, sill) {
  const r = wheel.r * 1.12;
  const drop = Math.max(-r, Math.min(r, wheel.z - sill));
  const half = Math.sqrt(r * r - drop * drop);
  return [
    { op: 'L', x: wheel.x + half, z: sill },
    { op: 'A', r, large: drop > 0, x: wheel.x - half, z: sill },
  ];
}

/**
 * @param {import('./car-styles.js').Frame} frame
 * @param {number} nose
 * @param {number} tail
 * @param {number} low foot of the head lamp, share of the car's height
 */
function lamps({ z }, nose, tail, low) {
  return [
    roundedLine([[nose + 26, z(low), 20], [nose + 56, z(low + 0.055), 20], [nose + 200, z(low + 0.08), 40], [nose + 155, z(low + 0.015), 20]], true),
    roundedLine([[tail - 18, z(0.47), 15], [tail - 30, z(0.56), 15], [tail - 110, z(0.555), 25], [tail - 95, z(0.47), 25]], true),
  ];
}
