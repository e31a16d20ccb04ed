// The scene from above: the same car, its nose to the left and its right side
// up the page as the plan's depth, so that x keeps its place.

import { boxStand, driverSection, driverSize, mouthOn, towardsMouth } from '../car-box.js';
import { outlineInput } from '../car-outline.js';
import { pathData, px, py, roundedLine } from '../car-path.js';
import { boxInput } from './sheet-box.js';

/** @typedef {import('./model.js').Model} Model */
/** @typedef {import('../car-path.js').Corner} Corner */

/**
 * Widths of the inside along the car, mm.
 * @param {Model} model
 */
function widths(model) {
  const { cabin } = model.job.car;
  return cabin.shape === 'stations' && cabin.stations?.length ? cabin.stations.map((s) => ({ x: s.x_mm, width: s.width_mm }))
    : [{ x: 0, width: cabin.width_mm }, { x: cabin.length_mm, width: cabin.width_mm }];
}

/**
 * What the plan fills, mm; "z" is the place across the car, right-hand side up.
 * @param {Model} model
 * @param {import('../car-outline.js').Outline} outline
 */
export function planBounds(model, outline) {
  const half = Math.max(...widths(model).map((w) => w.width)) / 2 + 130;
  return { left: outline.box.left, right: outline.box.right, low: -half, high: half };
}

/**
 * @param {import('./car-side.js').Layers} ink
 * @param {Model} model
 * @param {import('../car-outline.js').Outline} outline
 * @param {import('../car-path.js').Placing} p
 * @returns {import('./car-side.js').Placed}
 */
export function drawPlan(ink, model, outline, p) {
  const { car, doors, subs } = model.job;
  const b = planBounds(model, outline);
  for (const layer of Object.values(ink)) layer.begin();
  const half = b.high;
  const body = roundedLine([
    [b.left, half * 0.62, 260], [b.left + 260, half * 0.97, 420], [0, half, 300], [b.right - 500, half, 500], [b.right, half * 0.8, 160],
    [b.right, -half * 0.8, 160], [b.right - 500, -half, 500], [0, -half, 300], [b.left + 260, -half * 0.97, 420], [b.left, -half * 0.62, 260],
  ], true);
  ink.under.path('body', pathData(body, p), 'body-fill');
  ink.over.path('outline', pathData(body, p), 'body-line');

  const w = widths(model);
  ink.cabin.path('air', pathData(roundedLine([...w.map((q) => /** @type {Corner} */ ([q.x, q.width / 2])), ...[...w].reverse().map((q) => /** @type {Corner} */ ([q.x, -q.width / 2]))], true), p), 'air');
  const boot = car.boot;
  ink.cabin.draw('boot', 'rect', { x: px(p, boot.x_mm), y: py(p, boot.width_mm / 2), width: boot.length_mm * p.scale, height: boot.width_mm * p.scale, class: 'air' });

  let seat = { x: px(p, 1000), y: py(p, 0) };
  for (const s of car.seats) {
    const at = { x: px(p, s.x_mm), y: py(p, s.y_mm) };
    ink.seats.draw(`${s.id}-seat`, 'rect', { x: at.x - 330 * p.scale, y: at.y - 240 * p.scale, width: 500 * p.scale, height: 480 * p.scale, rx: 90 * p.scale, class: 'seat-plan' });
    const there = s.occupied || s.id === 'wheel';
    if (there) ink.seats.draw(`${s.id}-shoulders`, 'rect', { x: at.x - 110 * p.scale, y: at.y - 215 * p.scale, width: 200 * p.scale, height: 430 * p.scale, rx: 95 * p.scale, class: 'head' });
    ink.seats.draw(`${s.id}-head`, 'circle', { cx: at.x, cy: at.y, r: 98 * p.scale, class: there ? 'head' : 'ghost-head' });
    if (s.id === model.seat) seat = at;
  }
  ink.seats.draw('ear', 'circle', { cx: seat.x, cy: seat.y, r: 3, class: 'ear' });

  let box = { x: px(p, boot.x_mm), y: py(p, 0) };
  let sub = box;
  subs.forEach((s, i) => {
    const input = boxInput(model, i);
    if (!input) return;
    const stand = boxStand(input);
    const mouth = mouthOn(input, stand);
    const r = driverSize(s.driver).outside / 2;
    const y0 = s.place.y_mm;
    if (s.box.type !== 'infinite_baffle') {
      ink.box.draw(`box${i}`, 'rect', { x: px(p, stand.x0), y: py(p, y0 + stand.size.width / 2), width: stand.size.depth * p.scale, height: stand.size.width * p.scale, class: 'box' });
    }
    if (s.place.fires === 'up' || s.place.fires === 'down') ink.sub.draw(`cone${i}`, 'circle', { cx: px(p, mouth.x), cy: py(p, y0), r: r * p.scale, class: 'cone' });
    else {
      const section = driverSection(driverSize(s.driver));
      const at = { x: mouth.x, z: y0 };
      for (const [name, kind] of /** @type {const} */ ([['basket', 'cone'], ['cone', 'cone-line'], ['flange', 'flange']])) {
        ink.sub.path(`${name}${i}`, pathData(roundedLine(section[name].map((uv) => { const q = towardsMouth(uv, at, s.place.fires); return [q.x, q.z]; })), p), kind);
      }
    }
    if (i === 0) {
      box = { x: px(p, stand.x0 + stand.size.depth * 0.3), y: py(p, y0 - stand.size.width * 0.4) };
      sub = { x: px(p, mouth.x), y: py(p, y0) };
    }
  });
  for (const side of [1, -1]) {
    ink.doors.draw(`door${side}`, 'circle', { cx: px(p, doors.place.x_mm), cy: py(p, side * doors.place.y_mm), r: driverSize(doors.driver).outside / 2 * p.scale, class: doors.fitted ? 'door-speaker' : 'door-speaker absent' });
  }
  const wheel = car.seats.find((s) => s.id === 'wheel');
  const amp = { x: (wheel?.x_mm ?? 1000) - 480, y: wheel?.y_mm ?? 0 };
  ink.amplifier.draw('amp', 'rect', { x: px(p, amp.x), y: py(p, amp.y + 110), width: 150 * p.scale, height: 220 * p.scale, rx: 2, class: 'amp' });
  for (const layer of Object.values(ink)) layer.end();

  const { lengthMM } = outlineInput(car);
  return {
    spots: {
      seats: seat, box, sub, doors: { x: px(p, doors.place.x_mm), y: py(p, -doors.place.y_mm) },
      amplifier: { x: px(p, amp.x + 40), y: py(p, amp.y - 60) }, cabin: { x: px(p, lengthMM * 0.58), y: py(p, 0) },
    },
    boxEdges: null,
    car: { left: px(p, 0), right: px(p, lengthMM), roof: py(p, half), road: py(p, -half), tail: px(p, b.right) },
  };
}
