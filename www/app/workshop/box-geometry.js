// A box in section, as lengths and places: which chambers there are, how deep
// each is, where cones, ports and passive radiators stand, and whether a port
// goes in. Nothing here draws.
//
// The section is laid out along the way the cone fires: "along" runs from the
// back of the box to the face with the cone, "across" is the longer of the two
// other sides. Lengths in mm.

import { boxSize } from '../car-box.js';

/**
 * @typedef {import('../job.js').Box} Box
 * @typedef {import('../job.js').Port} Port
 * @typedef {import('../job.js').Segment} Segment
 * @typedef {import('../job.js').Driver} Driver
 * @typedef {import('../car-box.js').BoxInput} BoxInput
 */

const MM3_PER_L = 1e6;

/**
 * @typedef {object} SectionInput
 * @property {Box} box
 * @property {Driver} driver
 * @property {number} drivers how many, all cones
 * @property {import('../job.js').Place} place
 * @property {import('../job.js').Boot} boot
 * @property {number[]} [portLengths] mm, worked out by the engine, in its order
 */

/** Litres in a line. @param {Segment[]|undefined|null} line */
export function lineLitres(line) {
  let mm3 = 0;
  for (const s of line ?? []) {
    // A flare between two areas is a cut cone: its root areas change evenly.
    mm3 += s.length_mm * 100 * (s.start_cm2 + Math.sqrt(s.start_cm2 * s.end_cm2) + s.end_cm2) / 3;
  }
  return mm3 / MM3_PER_L;
}

/** @param {Segment[]|undefined|null} line mm along the centre line */
export function lineLength(line) {
  return (line ?? []).reduce((sum, s) => sum + s.length_mm, 0);
}

/** Air in all chambers, litres. @param {Box} box */
export function airLitres(box) {
  if (box.type === 'line') return lineLitres(box.line);
  if (box.type === 'infinite_baffle') return 0;
  return box.net_l + (box.type.startsWith('bandpass') ? box.front_l : 0);
}

/**
 * Outside size of the box in the section: along the way the cone fires, across
 * it, and the third side that the section does not show.
 * @param {SectionInput} input
 */
export function sectionSize({ box, driver, drivers, place, boot, portLengths }) {
  const whole = { ...box, net_l: airLitres(box), front_l: 0, type: box.type === 'line' ? 'sealed' : box.type };
  const size = boxSize({ box: whole, driver, drivers, place, boot, portLengthMM: portLengths?.[0] });
  const sides = place.fires === 'up' || place.fires === 'down' ? [size.height, size.width, size.depth]
    : place.fires === 'left' || place.fires === 'right' ? [size.width, size.depth, size.height] : [size.depth, size.width, size.height];
  const [along, one, other] = /** @type {[number, number, number]} */ (sides);
  return { along, across: Math.max(one, other), third: Math.min(one, other) };
}

/**
 * Where a port lies: its clear width in the section and its centre line from
 * the mouth inward. A port that is too long for the box runs on beyond it, so
 * that the picture shows by how much.
 * @typedef {object} PortLay
 * @property {number} bore clear width, mm
 * @property {number} length mm
 * @property {[number, number][]} path along, across
 * @property {'straight'|'bent'|'too_long'|'too_wide'} fit
 * @property {number} straightMM the longest straight one
 * @property {number} bentMM the longest with one bend
 */

/** Clear width of a port in the section. @param {Port} port */
export function portBore(port) {
  return port.shape === 'slot' ? Math.min(port.width_mm ?? 0, port.height_mm ?? 0) : port.diameter_mm ?? 0;
}

/** Area of all ports alike together, cm2. @param {Port} port */
export function portArea(port) {
  const one = port.shape === 'slot' ? (port.width_mm ?? 0) * (port.height_mm ?? 0) : Math.PI / 4 * (port.diameter_mm ?? 0) ** 2;
  return Math.max(1, port.count) * one / 100;
}

/**
 * Lays a port into a chamber from its mouth, straight if it goes, else round
 * one corner. Before the inner end as much space as the port is wide stays
 * free (common practice, no source).
 * @param {object} o
 * @param {number} o.length mm along the centre line
 * @param {number} o.bore mm
 * @param {[number, number]} o.mouth along, across
 * @param {[number, number]} o.inward unit step from the mouth into the chamber
 * @param {number} o.reach mm of clear chamber ahead of the mouth
 * @param {[number, number]} o.turn unit step after the bend
 * @param {number} o.side mm of clear chamber after the bend
 * @returns {PortLay}
 */
export function layPort({ length, bore, mouth, inward, reach, turn, side }) {
  const straightMM = Math.max(0, reach - bore);
  // With a bend the centre line keeps half a bore from the far wall.
  const ahead = Math.max(0, reach - bore / 2);
  const bentMM = Math.max(straightMM, ahead + Math.max(0, side - bore));
  const at = (/** @type {[number, number]} */ from, /** @type {[number, number]} */ way, /** @type {number} */ by) => /** @type {[number, number]} */ ([from[0] + way[0] * by, from[1] + way[1] * by]);
  if (!(bore > 0) || bore >= side) return { bore, length, path: [mouth, at(mouth, inward, length)], fit: 'too_wide', straightMM, bentMM };
  if (length <= straightMM || ahead < bore) {
    return { bore, length, path: [mouth, at(mouth, inward, length)], fit: length <= straightMM ? 'straight' : 'too_long', straightMM, bentMM };
  }
  const corner = at(mouth, inward, ahead);
  return { bore, length, path: [mouth, corner, at(corner, turn, length - ahead)], fit: length <= bentMM ? 'bent' : 'too_long', straightMM, bentMM };
}

/**
 * One lane of a folded line: a straight run with its clear width at both ends.
 * @typedef {object} Lane
 * @property {[number, number]} from along, across
 * @property {[number, number]} to
 * @property {number} fromWidth mm
 * @property {number} toWidth mm
 */

/**
 * Folds a line into lanes that lie beside each other. The third side of the
 * box gives each area its width. The closed end is the first lane's start; the
 * mouth, the last lane's end, lies on the face with the cone.
 * @param {Segment[]} line
 * @param {number} room mm a lane may be long
 * @param {number} third mm clear, the side not shown
 * @param {number} wall mm between lanes
 * @returns {{lanes: Lane[], across: number}} lanes, and the clear width they take together
 */
export function foldLine(line, room, third, wall) {
  const total = lineLength(line);
  if (!(total > 0) || !(room > 0) || !(third > 0)) return { lanes: [], across: 0 };
  const count = Math.max(1, Math.ceil(total / room - 1e-9));
  const lane = total / count;
  /** @type {Lane[]} */
  const lanes = [];
  let across = 0;
  for (let i = 0; i < count; i += 1) {
    const a = areaAt(line, i * lane) * 100 / third;
    const b = areaAt(line, (i + 1) * lane) * 100 / third;
    const width = Math.max(a, b);
    const middle = across + width / 2;
    // Counted back from the mouth, so that the last lane runs towards it.
    const outward = (count - 1 - i) % 2 === 0;
    lanes.push({ from: [outward ? room - lane : room, middle], to: [outward ? room : room - lane, middle], fromWidth: a, toWidth: b });
    across += width + (i < count - 1 ? wall : 0);
  }
  return { lanes, across };
}

/** Area of a line at a distance from its closed end, cm2. @param {Segment[]} line @param {number} at mm */
export function areaAt(line, at) {
  let start = 0;
  for (const s of line) {
    if (at <= start + s.length_mm || s === line[line.length - 1]) {
      const share = Math.min(1, Math.max(0, (at - start) / s.length_mm));
      const root = Math.sqrt(s.start_cm2) + (Math.sqrt(s.end_cm2) - Math.sqrt(s.start_cm2)) * share;
      return root * root;
    }
    start += s.length_mm;
  }
  return 0;
}

/**
 * Where a place on a folded line lies in the section.
 * @param {Lane[]} lanes
 * @param {number} share of the whole length, from the closed end
 * @returns {[number, number]}
 */
export function onLine(lanes, share) {
  const at = Math.min(lanes.length - 1e-9, Math.max(0, share * lanes.length));
  const lane = lanes[Math.floor(at)];
  if (!lane) return [0, 0];
  const t = at - Math.floor(at);
  return [lane.from[0] + (lane.to[0] - lane.from[0]) * t, lane.from[1] + (lane.to[1] - lane.from[1]) * t];
}

/**
 * The open area round the edge under a box that fires at a surface, over the
 * area of its cones: the ring round a disc as large as the face.
 * @param {SectionInput} input
 * @returns {number|null} null without a gap
 */
export function gapRatio(input) {
  const { place, driver, drivers, box } = input;
  if (!place.gap_mm || !driver.sd_cm2) return null;
  const { across, third } = sectionSize(input);
  const cones = box.isobaric ? drivers / 2 : drivers;
  return 2 * Math.sqrt(Math.PI * across * third) * place.gap_mm / (driver.sd_cm2 * 100 * cones);
}

