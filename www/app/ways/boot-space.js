// The part of the boot that may go: a stretch of its floor from the foot of
// the seat back, up to a height, under the leaning seat back and the shelf.
// Pure geometry, millimetres; x from the foot of the seat back, z from the
// boot floor.

/** @typedef {import('../job.js').Boot} Boot */
/** @typedef {import('./replies.js').Space} Space */
/** @typedef {[x: number, z: number]} Point */

const MM3_PER_L = 1e6;

/** The yardstick for what stays: a shopping crate of the common 600 x 400 mm footprint (EN 13199-1), 300 mm high. */
export const CRATE = { long: 600, short: 400, high: 300 };

/** Width of the boot that a box may use, between the wheel arches. @param {Boot} boot */
export function usableWidth(boot) {
  return boot.wheel_arches_mm ? Math.min(boot.width_mm, boot.wheel_arches_mm) : boot.width_mm;
}

/** How far back the seat back comes for each millimetre of height. @param {Boot} boot */
function lean(boot) {
  return boot.seats_folded ? 0 : Math.tan(boot.seat_slope_deg * Math.PI / 180);
}

/**
 * The side view of the floor from 0 to `length`, as high as the seat back and
 * `height` allow: corners from the foot of the seat back, rearward and up.
 * @param {Boot} boot
 * @param {number} length
 * @param {number} height
 * @returns {Point[]}
 */
export function profile(boot, length, height) {
  const l = Math.min(length, boot.length_mm);
  const h = Math.min(height, boot.height_mm);
  const t = lean(boot);
  if (t > 0 && h * t >= l) return [[0, 0], [l, 0], [l, l / t]];
  return [[0, 0], [l, 0], [l, h], [h * t, h]];
}

/**
 * Area inside corners that follow each other round a shape, mm2 (the shoelace
 * formula, after Gauss).
 * @param {Point[]} corners
 */
function areaOf(corners) {
  let twice = 0;
  corners.forEach(([x, z], i) => {
    const [nx, nz] = /** @type {Point} */ (corners[(i + 1) % corners.length]);
    twice += x * nz - nx * z;
  });
  return Math.abs(twice) / 2;
}

/** Litres of the whole boot under its shelf. @param {Boot} boot */
export function bootLitres(boot) {
  return areaOf(profile(boot, boot.length_mm, boot.height_mm)) * usableWidth(boot) / MM3_PER_L;
}

/** Litres of the part that may go. @param {Boot} boot @param {Space} space */
export function spaceLitres(boot, space) {
  return areaOf(profile(boot, space.length_mm, space.height_mm)) * Math.min(space.width_mm, usableWidth(boot)) / MM3_PER_L;
}

/** The whole boot as a space. @param {Boot} boot @returns {Space} */
export function wholeBoot(boot) {
  return { x_mm: 0, y_mm: 0, length_mm: boot.length_mm, width_mm: usableWidth(boot), height_mm: boot.height_mm };
}

/**
 * The stretch of floor, at full height and width, that holds a share of the
 * boot.
 * @param {Boot} boot
 * @param {number} share 0 to 1
 * @returns {Space}
 */
export function shareOfBoot(boot, share) {
  const whole = wholeBoot(boot);
  const want = share * bootLitres(boot);
  let low = 0;
  let high = boot.length_mm;
  for (let i = 0; i < 40; i += 1) {
    const mid = (low + high) / 2;
    if (spaceLitres(boot, { ...whole, length_mm: mid }) < want) low = mid;
    else high = mid;
  }
  return { ...whole, length_mm: Math.round(high) };
}

/**
 * The same part in a boot it was not drawn for: no larger than that boot.
 * @param {Boot} boot
 * @param {Space} space
 * @returns {Space}
 */
export function clampSpace(boot, space) {
  const width = Math.min(space.width_mm, usableWidth(boot));
  const side = Math.max(0, (usableWidth(boot) - width) / 2);
  return {
    x_mm: 0,
    y_mm: Math.max(-side, Math.min(side, space.y_mm)),
    length_mm: Math.max(60, Math.min(space.length_mm, boot.length_mm)),
    width_mm: width,
    height_mm: Math.max(60, Math.min(space.height_mm, boot.height_mm)),
  };
}

/** Which part of the width: all of it, or a half. @param {Boot} boot @param {Space} space @returns {'whole'|'left'|'right'} */
export function sideOf(boot, space) {
  if (space.width_mm > usableWidth(boot) * 0.75) return 'whole';
  return space.y_mm < 0 ? 'left' : 'right';
}

/**
 * @param {Boot} boot
 * @param {Space} space
 * @param {'whole'|'left'|'right'} side
 * @returns {Space}
 */
export function toSide(boot, space, side) {
  const width = usableWidth(boot);
  if (side === 'whole') return { ...space, width_mm: width, y_mm: 0 };
  return { ...space, width_mm: width / 2, y_mm: width / 4 * (side === 'left' ? -1 : 1) };
}

/**
 * Crates that stand on the floor behind the part that goes, and where they
 * show from the side: upright stacks from the tail forward, each lying the way
 * that takes more of them. Beside a half-width part none are counted, so that
 * the number is never too kind.
 * @param {Boot} boot
 * @param {Space} space
 * @returns {{count: number, seen: {x: number, z: number, w: number, h: number}[]}}
 */
export function crates(boot, space) {
  const width = usableWidth(boot);
  const free = boot.length_mm - Math.min(space.length_mm, boot.length_mm);
  const t = lean(boot);
  const ways = [[CRATE.short, CRATE.long], [CRATE.long, CRATE.short]].map(([along = 0, across = 0]) => {
    const beside = Math.floor(width / across);
    /** @type {{x: number, z: number, w: number, h: number}[]} */
    const seen = [];
    for (let i = 0; i < Math.floor(free / along); i += 1) {
      const x = boot.length_mm - (i + 1) * along;
      for (let z = 0; z + CRATE.high <= boot.height_mm && (z + CRATE.high) * t <= x; z += CRATE.high) seen.push({ x, z, w: along, h: CRATE.high });
    }
    return { count: seen.length * beside, seen };
  });
  const [a, b] = /** @type {[typeof ways[0], typeof ways[0]]} */ (ways);
  return b.count > a.count ? b : a;
}
