// The box and its cone as they stand in the car, seen from the side. Sizes
// follow from the net volume, so that the drawing and the number cannot part.

/** @typedef {import('./car-path.js').Corner} Corner */

/**
 * @typedef {object} BoxInput
 * @property {{type: string, net_l: number, front_l: number, panel_mm: number, width_mm: number, height_mm: number, depth_mm: number, form?: string,
 *   port?: {shape: string, count: number, diameter_mm?: number, width_mm?: number, height_mm?: number, length_mm?: number}|null}} box
 * @property {{sd_cm2?: number|null, size_in?: number|null, depth_mm?: number|null, outside_mm?: number|null, volume_l?: number|null}} driver
 * @property {number} drivers how many
 * @property {{x_mm: number, z_mm: number, fires: string}} place where the mouth of the cone is
 * @property {{x_mm: number, length_mm: number, width_mm: number, height_mm: number, floor_mm: number, seat_slope_deg: number}} boot
 * @property {number} [portLengthMM] worked out by the engine
 */

/**
 * @typedef {object} BoxSize outside, mm; width across the car, depth along it
 * @property {number} width
 * @property {number} height
 * @property {number} depth
 */

const MM3_PER_L = 1e6;

/**
 * Litres taken up inside the box by what is in it.
 * @param {BoxInput} input
 */
export function displacedLitres({ box, driver, drivers, portLengthMM }) {
  const port = box.port;
  let area = 0;
  if (port && box.type === 'vented') {
    area = port.shape === 'round' ? Math.PI / 4 * (port.diameter_mm ?? 0) ** 2 : (port.width_mm ?? 0) * (port.height_mm ?? 0);
    area *= port.count;
  }
  const length = portLengthMM ?? port?.length_mm ?? 0;
  return (driver.volume_l ?? 0) * drivers + area * length / MM3_PER_L;
}

/**
 * Outside size of a box of the stated net volume. Width and depth are those of
 * the document; where it has none, they are chosen to stand well in the boot.
 * The height is what the volume then needs.
 * @param {BoxInput} input
 * @returns {BoxSize}
 */
export function boxSize(input) {
  const { box, boot } = input;
  const t = box.panel_mm;
  const litres = box.net_l + (box.type.startsWith('bandpass') ? box.front_l : 0) + displacedLitres(input);
  const width = box.width_mm || Math.min(boot.width_mm * 0.8, 820);
  const depth = box.depth_mm || Math.min(boot.length_mm * 0.62, Math.max(280, 95 * Math.cbrt(litres)));
  const floor = Math.max(1, width - 2 * t) * Math.max(1, depth - 2 * t);
  return { width, depth, height: litres * MM3_PER_L / floor + 2 * t };
}

/**
 * Net litres of a box of this outside height: the other way round.
 * @param {BoxInput} input
 * @param {number} heightMM
 */
export function netFromHeight(input, heightMM) {
  const { box } = input;
  const { width, depth } = boxSize(input);
  const t = box.panel_mm;
  const inside = Math.max(1, width - 2 * t) * Math.max(1, depth - 2 * t) * Math.max(0, heightMM - 2 * t) / MM3_PER_L;
  return inside - displacedLitres(input) - (box.type.startsWith('bandpass') ? box.front_l : 0);
}

/**
 * Where the box stands: its four corners from the lower front, anticlockwise
 * as seen with the car facing left.
 * @param {BoxInput} input
 * @returns {{x0: number, x1: number, z0: number, z1: number, lean: number, size: BoxSize}}
 */
export function boxStand(input) {
  const { place, boot, box } = input;
  const size = boxSize(input);
  const z0 = boot.floor_mm;
  let x0;
  if (place.fires === 'rear') x0 = place.x_mm - size.depth;
  else if (place.fires === 'front') x0 = place.x_mm;
  else x0 = Math.max(boot.x_mm, Math.min(place.x_mm - size.depth / 2, boot.x_mm + boot.length_mm - size.depth));
  // A wedge leans with the seat back; the mean depth stays, and so the volume.
  const lean = box.form === 'wedge' ? Math.tan(boot.seat_slope_deg * Math.PI / 180) * size.height : 0;
  return { x0, x1: x0 + size.depth, z0, z1: z0 + size.height, lean, size };
}

/**
 * @param {ReturnType<typeof boxStand>} stand
 * @returns {Corner[]}
 */
export function boxCorners({ x0, x1, z0, z1, lean }) {
  return [[x0 - lean / 2, z0], [x1, z0], [x1, z1], [x0 + lean / 2, z1]];
}

/**
 * Outside and cone diameter and depth of a driver, mm, as far as its data tell.
 * @param {BoxInput['driver']} driver
 */
export function driverSize(driver) {
  const cone = driver.sd_cm2 ? 2 * Math.sqrt(driver.sd_cm2 * 100 / Math.PI) : (driver.size_in ?? 10) * 25.4 * 0.82;
  const outside = driver.outside_mm ?? (driver.size_in ? driver.size_in * 25.4 * 1.04 : cone * 1.22);
  return { cone, outside, depth: driver.depth_mm ?? outside * 0.46 };
}

/**
 * A driver in section: basket, cone and magnet as lines round its mouth, which
 * stands at the origin and fires along +u; v runs across.
 * @param {{cone: number, outside: number, depth: number}} size
 */
export function driverSection({ cone, outside, depth }) {
  const rim = outside / 2;
  const c = cone / 2;
  const coil = cone * 0.14;
  const magnet = cone * 0.33;
  return {
    flange: /** @type {[number, number][]} */ ([[0, -rim], [0, rim]]),
    cone: /** @type {[number, number][]} */ ([[-4, -c], [-depth * 0.5, -coil], [-depth * 0.5, coil], [-4, c]]),
    basket: /** @type {[number, number][]} */ ([[0, -c * 1.06], [-depth * 0.66, -magnet], [-depth, -magnet], [-depth, magnet], [-depth * 0.66, magnet], [0, c * 1.06]]),
  };
}

/**
 * Turns a point of a driver's section into the car.
 * @param {[number, number]} uv
 * @param {{x: number, z: number}} mouth
 * @param {string} fires
 * @returns {{x: number, z: number}}
 */
export function towardsMouth([u, v], mouth, fires) {
  switch (fires) {
    case 'front': return { x: mouth.x - u, z: mouth.z + v };
    case 'up': return { x: mouth.x + v, z: mouth.z + u };
    case 'down': return { x: mouth.x + v, z: mouth.z - u };
    default: return { x: mouth.x + u, z: mouth.z + v };
  }
}

/**
 * Where the mouth is on the box that is drawn.
 * @param {BoxInput} input
 * @param {ReturnType<typeof boxStand>} stand
 */
export function mouthOn({ place, box }, stand) {
  if (box.type === 'infinite_baffle') return { x: place.x_mm, z: place.z_mm };
  const mid = { x: (stand.x0 + stand.x1) / 2, z: (stand.z0 + stand.z1) / 2 };
  switch (place.fires) {
    case 'rear': return { x: stand.x1, z: mid.z };
    case 'front': return { x: stand.x0, z: mid.z };
    case 'up': return { x: mid.x, z: stand.z1 };
    case 'down': return { x: mid.x, z: stand.z0 };
    default: return mid;
  }
}
