// Shades for pictures of pressure: one hue from paper to ink, in even steps of
// lightness, so that they keep their order for every eye, in print and in the
// sun. Interpolated in Oklab (B. Ottosson, 2020), whose steps look even.

/** @typedef {[r: number, g: number, b: number]} Rgb 0 to 255 */

/**
 * Reads #rgb and #rrggbb, alpha ignored.
 * @param {string} text
 * @param {Rgb} otherwise
 * @returns {Rgb}
 */
export function readColour(text, otherwise) {
  const hex = /^\s*#([0-9a-f]{3,8})\s*$/i.exec(text)?.[1];
  if (!hex) return otherwise;
  const pairs = hex.length < 6 ? [...hex].map((c) => c + c) : hex.match(/../g) ?? [];
  const [r = 0, g = 0, b = 0] = pairs.map((p) => parseInt(p, 16));
  return [r, g, b];
}

/** @param {number} v 0 to 255 */
const toLinear = (v) => (v <= 10.31475 ? v / 255 / 12.92 : ((v / 255 + 0.055) / 1.055) ** 2.4);
/** @param {number} v 0 to 1 */
const fromLinear = (v) => Math.round(255 * Math.min(1, Math.max(0, v <= 0.0031308 ? 12.92 * v : 1.055 * v ** (1 / 2.4) - 0.055)));

/** @param {Rgb} rgb @returns {[number, number, number]} */
export function toOklab(rgb) {
  const [r, g, b] = /** @type {Rgb} */ (rgb.map(toLinear));
  const l = Math.cbrt(0.4122214708 * r + 0.5363325363 * g + 0.0514459929 * b);
  const m = Math.cbrt(0.2119034982 * r + 0.6806995451 * g + 0.1073969566 * b);
  const s = Math.cbrt(0.0883024619 * r + 0.2817188376 * g + 0.6299787005 * b);
  return [0.2104542553 * l + 0.793617785 * m - 0.0040720468 * s, 1.9779984951 * l - 2.428592205 * m + 0.4505937099 * s, 0.0259040371 * l + 0.7827717662 * m - 0.808675766 * s];
}

/** @param {[number, number, number]} lab @returns {Rgb} */
export function fromOklab([L, a, b]) {
  const l = (L + 0.3963377774 * a + 0.2158037573 * b) ** 3;
  const m = (L - 0.1055613458 * a - 0.0638541728 * b) ** 3;
  const s = (L - 0.0894841775 * a - 1.291485548 * b) ** 3;
  return [fromLinear(4.0767416621 * l - 3.3077115913 * m + 0.2309699292 * s), fromLinear(-1.2684380046 * l + 2.6097574011 * m - 0.3413193965 * s), fromLinear(-0.0041960863 * l - 0.7034186147 * m + 1.707614701 * s)];
}

/**
 * n shades from paper through a hue towards ink; the first is nearly paper, the
 * last dark enough to end on and light enough for ink lines to show.
 * @param {Rgb} paper
 * @param {Rgb} hue
 * @param {Rgb} ink
 * @param {number} n
 * @returns {Rgb[]}
 */
export function shades(paper, hue, ink, n) {
  const p = toOklab(paper);
  const h = toOklab(hue);
  const end = toOklab(ink)[0] * 0.35 + h[0] * 0.65;
  return Array.from({ length: n }, (_, i) => {
    const t = (i + 0.4) / (n - 0.6);
    const tint = Math.min(1, t * 1.15);
    return fromOklab([p[0] + (end - p[0]) * t, p[1] + (h[1] - p[1]) * tint, p[2] + (h[2] - p[2]) * tint]);
  });
}

/**
 * Level lines of a picture: equal steps down from the loudest, so that pictures
 * at different frequencies compare.
 * @param {number} high dB
 * @param {number} step dB
 * @param {number} n shades
 * @returns {number[]} n - 1 edges, rising
 */
export function edges(high, step, n) {
  const top = Math.ceil(high / step - 1e-9) * step;
  return Array.from({ length: n - 1 }, (_, i) => top - (n - 1 - i) * step);
}

/** Which shade a value has. @param {number} v @param {number[]} rising */
export function shadeOf(v, rising) {
  let i = 0;
  while (i < rising.length && v >= /** @type {number} */ (rising[i])) i += 1;
  return i;
}
