// Columns of numbers to the `d` of a path. This runs for every curve on every
// step of a drag.

/**
 * Where one curve lies on the paper: x in px for each point (shared by all
 * curves of a chart), value to px by two numbers.
 * @param {Float64Array} xs px
 * @param {ArrayLike<number>} values
 * @param {number} y0 px at value zero
 * @param {number} perUnit px per unit, upward positive
 * @param {number} low px, values below are drawn at this edge (outside the clip)
 * @param {number} high px, likewise above
 * @returns {string}
 */
export function curvePath(xs, values, y0, perUnit, low, high) {
  const n = Math.min(xs.length, values.length);
  const perPixel = n > 1 ? (n - 1) / Math.max(1, /** @type {number} */ (xs[n - 1]) - /** @type {number} */ (xs[0])) : 1;
  if (perPixel > 2) return decimatedPath(xs, values, n, y0, perUnit, low, high);
  let d = '';
  let pen = 'M';
  for (let i = 0; i < n; i += 1) {
    const v = /** @type {number} */ (values[i]);
    if (v - v !== 0) { // not finite: lift the pen
      pen = 'M';
      continue;
    }
    const y = y0 - v * perUnit;
    d += pen + Math.round(/** @type {number} */ (xs[i]) * 10) / 10 + ' ' + Math.round((y > low ? low : y < high ? high : y) * 10) / 10;
    pen = 'L';
  }
  return d;
}

/**
 * More points than the paper has pixels: the lowest and highest of each pixel
 * column, so that no peak is lost.
 * @param {Float64Array} xs
 * @param {ArrayLike<number>} values
 * @param {number} n
 * @param {number} y0
 * @param {number} perUnit
 * @param {number} low
 * @param {number} high
 */
function decimatedPath(xs, values, n, y0, perUnit, low, high) {
  let d = '';
  let pen = 'M';
  let i = 0;
  const clip = (/** @type {number} */ v) => Math.round(Math.min(low, Math.max(high, y0 - v * perUnit)) * 10) / 10;
  while (i < n) {
    const column = Math.round(/** @type {number} */ (xs[i]));
    let least = Infinity;
    let most = -Infinity;
    for (; i < n && Math.round(/** @type {number} */ (xs[i])) === column; i += 1) {
      const v = /** @type {number} */ (values[i]);
      if (v < least) least = v;
      if (v > most) most = v;
    }
    if (!Number.isFinite(least) || !Number.isFinite(most)) {
      pen = 'M';
      continue;
    }
    d += `${pen}${column} ${clip(least)}`;
    if (most > least) d += `L${column} ${clip(most)}`;
    pen = 'L';
  }
  return d;
}

/**
 * The value of a column at a frequency, straight between its neighbours on a
 * logarithmic axis.
 * @param {Float64Array} freq ascending, Hz
 * @param {ArrayLike<number>} values
 * @param {number} hz
 * @returns {number} NaN where the column has none
 */
export function valueAt(freq, values, hz) {
  const n = Math.min(freq.length, values.length);
  if (n === 0) return NaN;
  let a = 0;
  let b = n - 1;
  if (hz <= /** @type {number} */ (freq[0])) return /** @type {number} */ (values[0]);
  if (hz >= /** @type {number} */ (freq[b])) return /** @type {number} */ (values[b]);
  while (b - a > 1) {
    const mid = (a + b) >> 1;
    if (/** @type {number} */ (freq[mid]) <= hz) a = mid;
    else b = mid;
  }
  const f0 = /** @type {number} */ (freq[a]);
  const f1 = /** @type {number} */ (freq[b]);
  const t = Math.log(hz / f0) / Math.log(f1 / f0);
  const v0 = /** @type {number} */ (values[a]);
  return v0 + (/** @type {number} */ (values[b]) - v0) * t;
}

/**
 * Lowest and highest finite value, and where.
 * @param {ArrayLike<number>} values
 * @param {number} [from] first index
 * @param {number} [to] one past the last
 */
export function extremes(values, from = 0, to = values.length) {
  let low = Infinity;
  let high = -Infinity;
  let lowAt = -1;
  let highAt = -1;
  for (let i = from; i < to; i += 1) {
    const v = /** @type {number} */ (values[i]);
    if (v < low) { low = v; lowAt = i; }
    if (v > high && v < Infinity) { high = v; highAt = i; }
  }
  return { low, high, lowAt, highAt };
}
