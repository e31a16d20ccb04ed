// Lines of the drawing as data, in millimetres of the car: x rearward, z up.
// Kept apart from any document so that the same line serves the drawing, the
// thumbnails and the printed sheet.

/**
 * One step of a line.
 * @typedef {{op: 'M'|'L', x: number, z: number}
 *   | {op: 'Q', cx: number, cz: number, x: number, z: number}
 *   | {op: 'A', r: number, large: boolean, x: number, z: number}
 *   | {op: 'Z'}} Step
 */

/** A corner: x, z and how far its rounding may reach along each side, mm. @typedef {[x: number, z: number, round?: number]} Corner */

/**
 * A line through corners, each rounded by a parabola that meets its sides
 * tangentially. A rounding larger than half a side is cut to half of it, so a
 * row of generously rounded corners becomes one smooth quadratic spline.
 * @param {Corner[]} corners
 * @param {boolean} [closed]
 * @returns {Step[]}
 */
export function roundedLine(corners, closed = false) {
  const n = corners.length;
  /** @type {Step[]} */
  const steps = [];
  corners.forEach((corner, i) => {
    const before = closed || i > 0 ? corners[(i + n - 1) % n] : undefined;
    const after = closed || i < n - 1 ? corners[(i + 1) % n] : undefined;
    const [x, z, round = 0] = corner;
    if (!before || !after || round === 0) {
      steps.push({ op: steps.length ? 'L' : 'M', x, z });
      return;
    }
    const a = towards(corner, before, round);
    const b = towards(corner, after, round);
    steps.push({ op: steps.length ? 'L' : 'M', x: a[0], z: a[1] });
    steps.push({ op: 'Q', cx: x, cz: z, x: b[0], z: b[1] });
  });
  if (closed) steps.push({ op: 'Z' });
  return steps;
}

/**
 * @param {Corner} from
 * @param {Corner} to
 * @param {number} reach
 * @returns {[number, number]}
 */
function towards(from, to, reach) {
  const dx = to[0] - from[0];
  const dz = to[1] - from[1];
  const length = Math.hypot(dx, dz);
  if (length === 0) return [from[0], from[1]];
  const share = Math.min(reach / length, 0.5);
  return [from[0] + dx * share, from[1] + dz * share];
}

/**
 * Where millimetres of the car fall on the paper: px = x0 + x * scale and, as
 * paper runs downward, y0 - z * scale.
 * @typedef {{x0: number, y0: number, scale: number}} Placing
 */

/**
 * @param {Placing} p
 * @param {number} x
 */
export const px = (p, x) => p.x0 + x * p.scale;

/**
 * @param {Placing} p
 * @param {number} z
 */
export const py = (p, z) => p.y0 - z * p.scale;

/**
 * The `d` of an SVG path, to a tenth of a pixel.
 * @param {Step[]} steps
 * @param {Placing} p
 */
export function pathData(steps, p) {
  const at = (/** @type {number} */ x, /** @type {number} */ z) => `${tenth(px(p, x))} ${tenth(py(p, z))}`;
  return steps.map((s) => {
    switch (s.op) {
      case 'Z': return 'Z';
      case 'Q': return `Q${at(s.cx, s.cz)} ${at(s.x, s.z)}`;
      // Seen with z upward an arc of this module always turns anticlockwise.
      case 'A': return `A${tenth(s.r * p.scale)} ${tenth(s.r * p.scale)} 0 ${s.large ? 1 : 0} 0 ${at(s.x, s.z)}`;
      default: return s.op + at(s.x, s.z);
    }
  }).join('');
}

/** @param {number} v */
const tenth = (v) => Math.round(v * 10) / 10;

/**
 * The smallest upright rectangle that holds the points a line passes and
 * steers by.
 * @param {Step[]} steps
 */
export function bounds(steps) {
  const box = { left: Infinity, right: -Infinity, low: Infinity, high: -Infinity };
  const take = (/** @type {number} */ x, /** @type {number} */ z) => {
    box.left = Math.min(box.left, x);
    box.right = Math.max(box.right, x);
    box.low = Math.min(box.low, z);
    box.high = Math.max(box.high, z);
  };
  for (const s of steps) {
    if (s.op === 'Z') continue;
    take(s.x, s.z);
    if (s.op === 'Q') take(s.cx, s.cz);
  }
  return box;
}
