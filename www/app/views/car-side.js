// The scene from the side: car, seats and people, box, sub, doors, amplifier.

import { boxCorners, boxStand, driverSection, driverSize, mouthOn, towardsMouth } from '../car-box.js';
import { carOutline, outlineInput } from '../car-outline.js';
import { pathData, px, py, roundedLine } from '../car-path.js';
import { sitter, steeringWheel } from '../car-people.js';
import { boxInput } from './sheet-box.js';

/** @typedef {import('./model.js').Model} Model */
/** @typedef {import('./model.js').Part} Part */
/** @typedef {import('./ink.js').Ink} Ink */
/** @typedef {import('../car-path.js').Placing} Placing */
/** @typedef {{x: number, y: number}} Spot px */

/**
 * Inks of the scene, from the lowest to the topmost.
 * @typedef {object} Layers
 * @property {Ink} under body and wheels
 * @property {Ink} cabin
 * @property {Ink} seats
 * @property {Ink} amplifier
 * @property {Ink} box
 * @property {Ink} sub
 * @property {Ink} over fine lines of the body
 * @property {Ink} doors
 */

/**
 * Where things ended up, px: a spot in each part for its label's line, and the
 * edges of the box that can be dragged.
 * @typedef {object} Placed
 * @property {Record<Part, Spot>} spots
 * @property {{left: number, right: number, top: number, foot: number}|null} boxEdges
 * @property {{left: number, right: number, roof: number, road: number, tail: number}} car
 */

/**
 * Height of the cabin floor at x, mm.
 * @param {Model} model
 * @param {number} x
 */
function floorAt(model, x) {
  const { cabin } = model.job.car;
  const s = cabin.shape === 'stations' ? cabin.stations ?? [] : [];
  if (s.length < 2) return 0;
  for (let i = 1; i < s.length; i += 1) {
    const a = /** @type {import('../job.js').Station} */ (s[i - 1]);
    const b = /** @type {import('../job.js').Station} */ (s[i]);
    if (x <= b.x_mm || i === s.length - 1) {
      const t = Math.min(1, Math.max(0, (x - a.x_mm) / Math.max(1, b.x_mm - a.x_mm)));
      return a.floor_mm + (b.floor_mm - a.floor_mm) * t;
    }
  }
  return 0;
}

/**
 * The air of the cabin as it is calculated.
 * @param {import('../job.js').Cabin} cabin
 * @returns {import('../car-path.js').Corner[]}
 */
export function cabinCorners(cabin) {
  const s = cabin.shape === 'stations' && cabin.stations?.length ? cabin.stations : [
    { x_mm: 0, floor_mm: 0, roof_mm: cabin.height_mm }, { x_mm: cabin.length_mm, floor_mm: 0, roof_mm: cabin.height_mm },
  ];
  return [
    ...s.map((q) => /** @type {import('../car-path.js').Corner} */ ([q.x_mm, q.roof_mm])),
    ...[...s].reverse().map((q) => /** @type {import('../car-path.js').Corner} */ ([q.x_mm, q.floor_mm])),
  ];
}

/**
 * @param {Layers} ink
 * @param {Model} model
 * @param {import('../car-outline.js').Outline} o
 * @param {Placing} p
 * @returns {Placed}
 */
export function drawSide(ink, model, o, p) {
  const { car } = model.job;
  for (const layer of Object.values(ink)) layer.begin();

  ink.under.path('body', pathData(o.body, p), 'body-fill');
  o.panes.forEach((pane, i) => ink.under.path(`glass${i}`, pathData(pane, p), 'glass'));
  ink.under.path('outline', pathData(o.body, p), 'body-line');
  o.wheels.forEach((w, i) => {
    const at = { cx: px(p, w.x), cy: py(p, w.z) };
    ink.under.draw(`tyre${i}`, 'circle', { ...at, r: w.r * p.scale, class: 'tyre' });
    ink.under.draw(`rim${i}`, 'circle', { ...at, r: w.r * p.scale * 0.64, class: 'fine' });
    ink.under.draw(`hub${i}`, 'circle', { ...at, r: w.r * p.scale * 0.14, class: 'fine' });
  });

  ink.cabin.path('air', pathData(roundedLine(cabinCorners(car.cabin), true), p), 'air');
  if (car.boot.separate) {
    const b = car.boot;
    const lean = Math.tan(b.seat_slope_deg * Math.PI / 180) * b.height_mm;
    ink.cabin.path('boot', pathData(roundedLine([[b.x_mm, b.floor_mm], [b.x_mm + lean, b.floor_mm + b.height_mm], [b.x_mm + b.length_mm, b.floor_mm + b.height_mm, 60], [b.x_mm + b.length_mm, b.floor_mm, 30]], true), p), 'air');
  }

  const seats = drawSeats(ink.seats, model, p);
  const amplifier = drawAmplifier(ink.amplifier, model, p, seats.front);
  const { box, sub, edges } = drawSubs(ink, model, p, amplifier);

  o.panes.forEach((pane, i) => ink.over.path(`pane${i}`, pathData(pane, p), 'fine'));
  o.lines.forEach((line, i) => ink.over.path(`line${i}`, pathData(line, p), 'fine'));
  o.lamps.forEach((lamp, i) => ink.over.path(`lamp${i}`, pathData(lamp, p), 'fine'));
  const doors = drawDoors(ink.doors, model, p);
  for (const layer of Object.values(ink)) layer.end();

  const { lengthMM, heightMM } = outlineInput(car);
  return {
    spots: { seats: seats.spot, amplifier: amplifier.spot, box, sub, doors, cabin: { x: px(p, lengthMM * 0.59), y: py(p, heightMM * 0.8) } },
    boxEdges: edges,
    car: { left: px(p, 0), right: px(p, lengthMM), roof: py(p, o.box.high), road: py(p, o.ground), tail: px(p, o.box.right) },
  };
}

/**
 * @param {Ink} ink
 * @param {Placing} p
 * @param {string} key
 * @param {import('../car-people.js').Limb[]} limbs
 * @param {string} kind
 */
function drawLimbs(ink, p, key, limbs, kind) {
  const d = limbs.map((limb) => pathData(roundedLine(limb.line.map((q, i, all) => [q.x, q.z, i > 0 && i < all.length - 1 ? 9999 : 0])), p));
  // Outline first, filling over it: the limbs of one figure become one shape.
  limbs.forEach((limb, i) => ink.path(`${key}a${i}`, d[i] ?? '', `${kind}-edge`, { 'stroke-width': limb.width * p.scale + 2.2 }));
  limbs.forEach((limb, i) => ink.path(`${key}b${i}`, d[i] ?? '', `${kind}-fill`, { 'stroke-width': limb.width * p.scale }));
}

/**
 * @param {Ink} ink
 * @param {Model} model
 * @param {Placing} p
 */
function drawSeats(ink, model, p) {
  // Seats beside each other hide each other: one figure for each row, taken
  // where any seat of the row is.
  /** @type {{x: number, z: number, occupied: boolean, ids: string[]}[]} */
  const rows = [];
  for (const s of model.job.car.seats) {
    const row = rows.find((r) => Math.abs(r.x - s.x_mm) < 150);
    if (!row) rows.push({ x: s.x_mm, z: s.z_mm, occupied: s.occupied, ids: [s.id] });
    else {
      row.occupied ||= s.occupied;
      row.ids.push(s.id);
    }
  }
  rows.sort((a, b) => b.x - a.x);
  let spot = { x: px(p, 1000), y: py(p, 900) };
  let front = { x: 900, z: 300 };
  rows.forEach((row) => {
    const atWheel = row.ids.includes('wheel');
    const s = sitter(row, floorAt(model, row.x - 550), atWheel);
    const key = row.ids[0] ?? '';
    drawLimbs(ink, p, `${key}-seat`, s.seat, 'seat');
    if (atWheel) drawLimbs(ink, p, `${key}-wheel`, steeringWheel(s), 'seat');
    const head = { cx: px(p, s.head.x), cy: py(p, s.head.z), r: s.head.r * p.scale };
    if (row.occupied || atWheel) {
      drawLimbs(ink, p, `${key}-person`, s.person, 'person');
      ink.draw(`${key}-head`, 'circle', { ...head, class: 'head' });
    } else {
      ink.draw(`${key}-head`, 'circle', { ...head, class: 'ghost-head' });
    }
    if (row.ids.includes(model.seat)) {
      spot = { x: px(p, row.x), y: py(p, row.z) };
      ink.draw('ear', 'circle', { cx: spot.x, cy: spot.y, r: 3, class: 'ear' });
    }
    if (atWheel) front = s.hip;
  });
  return { spot, front };
}

/**
 * @param {Ink} ink
 * @param {Model} model
 * @param {Placing} p
 * @param {{x: number, z: number}} hip of the front seat: the amplifier is drawn under it
 */
function drawAmplifier(ink, model, p, hip) {
  const floor = floorAt(model, hip.x - 100);
  const x = hip.x - 260;
  ink.draw('amp', 'rect', { x: px(p, x), y: py(p, floor + 70), width: 330 * p.scale, height: 55 * p.scale, rx: 1.5, class: 'amp' });
  return { spot: { x: px(p, x + 165), y: py(p, floor + 42) }, end: { x: x + 330, z: floor + 40 } };
}

/**
 * @param {Layers} ink
 * @param {Model} model
 * @param {Placing} p
 * @param {{end: {x: number, z: number}}} amplifier
 */
function drawSubs(ink, model, p, amplifier) {
  /** @type {Spot} */
  let box = { x: px(p, model.job.car.boot.x_mm), y: py(p, model.job.car.boot.floor_mm) };
  let sub = box;
  /** @type {Placed['boxEdges']} */
  let edges = null;
  model.job.subs.forEach((s, i) => {
    const input = boxInput(model, i);
    if (!input) return;
    const stand = boxStand(input);
    const baffle = s.box.type === 'infinite_baffle';
    if (baffle) {
      const half = Math.max(220, driverSize(s.driver).outside * 0.6);
      const level = s.place.fires === 'up' || s.place.fires === 'down';
      ink.box.path(`box${i}`, pathData(roundedLine(level ? [[s.place.x_mm - half, s.place.z_mm], [s.place.x_mm + half, s.place.z_mm]] : [[s.place.x_mm, s.place.z_mm - half], [s.place.x_mm, s.place.z_mm + half]]), p), 'baffle');
    } else {
      const corners = boxCorners(stand);
      ink.box.path(`box${i}`, pathData(roundedLine(corners, true), p), 'box');
      const t = s.box.panel_mm;
      const [a, b, c, d] = /** @type {[[number, number], [number, number], [number, number], [number, number]]} */ (/** @type {unknown} */ (corners));
      ink.box.path(`inside${i}`, pathData(roundedLine([[a[0] + t, a[1] + t], [b[0] - t, b[1] + t], [c[0] - t, c[1] - t], [d[0] + t, d[1] - t]], true), p), 'box-inside');
      if (s.box.type === 'vented' && s.box.port) drawPort(ink.box, p, i, s.box.port, stand, s.place.fires, input.portLengthMM);
    }
    const mouth = mouthOn(input, stand);
    drawDriver(ink.sub, p, i, s, mouth);
    const start = amplifier.end;
    const end = { x: baffle ? s.place.x_mm - 30 : stand.x0, z: baffle ? s.place.z_mm : stand.z0 + 45 };
    ink.amplifier.path(`cable${i}`, pathData(roundedLine([[start.x, start.z], [start.x + 90, start.z, 60], [Math.max(start.x + 160, end.x - 260), floorAt(model, end.x - 300) + 30, 120], [end.x, end.z]]), p), 'cable');
    if (i > 0) return;
    sub = { x: px(p, mouth.x + (s.place.fires === 'rear' ? -60 : s.place.fires === 'front' ? 60 : 0)), y: py(p, mouth.z) };
    box = baffle ? sub : { x: px(p, stand.x0 + stand.size.depth * (s.place.fires === 'rear' ? 0.3 : 0.75)), y: py(p, stand.z0 + stand.size.height * 0.16) };
    edges = baffle ? null : { left: px(p, stand.x0 + stand.lean / 2), right: px(p, stand.x1), top: py(p, stand.z1), foot: py(p, stand.z0) };
  });
  return { box, sub, edges };
}

/**
 * @param {Ink} ink
 * @param {Placing} p
 * @param {number} i
 * @param {import('../job.js').Port} port
 * @param {ReturnType<typeof boxStand>} stand
 * @param {string} fires
 * @param {number} [lengthMM]
 */
function drawPort(ink, p, i, port, stand, fires, lengthMM) {
  const bore = port.shape === 'round' ? port.diameter_mm ?? 80 : port.height_mm ?? 40;
  const length = Math.min(lengthMM ?? port.length_mm ?? 200, stand.size.depth * 0.8);
  const z = stand.z1 - 24 - bore;
  const front = fires === 'front';
  const x = front ? stand.x0 : stand.x1 - length;
  ink.draw(`port${i}`, 'rect', { x: px(p, x), y: py(p, z + bore), width: length * p.scale, height: bore * p.scale, class: 'port' });
}

/**
 * @param {Ink} ink
 * @param {Placing} p
 * @param {number} i
 * @param {import('../job.js').Sub} s
 * @param {{x: number, z: number}} mouth
 */
function drawDriver(ink, p, i, s, mouth) {
  const size = driverSize(s.driver);
  if (s.place.fires === 'left' || s.place.fires === 'right') {
    const at = { cx: px(p, mouth.x), cy: py(p, mouth.z) };
    ink.draw(`rim${i}`, 'circle', { ...at, r: size.outside / 2 * p.scale, class: 'cone' });
    ink.draw(`cone${i}`, 'circle', { ...at, r: size.cone / 2 * p.scale, class: 'cone-line' });
    ink.draw(`cap${i}`, 'circle', { ...at, r: size.cone * 0.15 * p.scale, class: 'cone-line' });
    return;
  }
  const section = driverSection(size);
  const line = (/** @type {[number, number][]} */ uv) => pathData(roundedLine(uv.map((q) => { const r = towardsMouth(q, mouth, s.place.fires); return [r.x, r.z]; })), p);
  ink.path(`basket${i}`, line(section.basket), 'cone');
  ink.path(`cone${i}`, line(section.cone), 'cone-line');
  ink.path(`flange${i}`, line(section.flange), 'flange');
}

/**
 * @param {Ink} ink
 * @param {Model} model
 * @param {Placing} p
 * @returns {Spot}
 */
function drawDoors(ink, model, p) {
  const { doors } = model.job;
  const at = { cx: px(p, doors.place.x_mm), cy: py(p, doors.place.z_mm) };
  const size = driverSize(doors.driver);
  const kind = doors.fitted ? '' : ' absent';
  ink.draw('rim', 'circle', { ...at, r: size.outside / 2 * p.scale, class: `door-speaker${kind}` });
  ink.draw('cone', 'circle', { ...at, r: size.cone / 2 * p.scale, class: `door-line${kind}` });
  ink.draw('cap', 'circle', { ...at, r: size.cone * 0.16 * p.scale, class: `door-line${kind}` });
  return { x: at.cx, y: at.cy };
}

/**
 * The outline of the car of a model.
 * @param {Model} model
 */
export function outlineOf(model) {
  return carOutline(outlineInput(model.job.car));
}
