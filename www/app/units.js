// Quantities as the document holds them and as the reader sees them. The
// document's own unit is always metric and named in its key; imperial is a way
// of showing and typing it, never of storing it.

/**
 * One way of writing a quantity. shown = stored * scale + shift.
 * @typedef {object} Unit
 * @property {string} sign what stands after the number
 * @property {string} spoken the same, for a screen reader
 * @property {number} scale
 * @property {number} [shift]
 * @property {number} digits decimals shown
 * @property {number} step one press of an arrow key, in shown units
 */

/**
 * A kind of quantity.
 * @typedef {object} Quantity
 * @property {Unit} metric
 * @property {Unit} imperial
 * @property {Record<string, [scale: number, shift?: number]>} suffixes what may be typed
 *   after the number, in lower case; stored = typed * scale + shift
 */

/** @typedef {'metric'|'imperial'} System */

const INCH = 25.4; // mm, exact (international inch, 1959)
const CUBIC_FOOT = 28.316846592; // l, exact from the inch
const OUNCE = 28.349523125; // g, exact (avoirdupois)
const POUND = 0.45359237; // kg, exact

/**
 * @param {string} sign @param {string} spoken @param {number} digits @param {number} step
 * @param {number} [scale] @param {number} [shift] @returns {Unit}
 */
const unit = (sign, spoken, digits, step, scale = 1, shift = 0) => ({ sign, spoken, scale, shift, digits, step });

/**
 * A quantity written the same way in both systems.
 * @param {Unit} u @param {Quantity['suffixes']} suffixes @returns {Quantity}
 */
const same = (u, suffixes) => ({ metric: u, imperial: u, suffixes });

const LENGTHS = {
  mm: /** @type {[number]} */ ([1]), cm: /** @type {[number]} */ ([10]), m: /** @type {[number]} */ ([1000]),
  in: /** @type {[number]} */ ([INCH]), inch: /** @type {[number]} */ ([INCH]), inches: /** @type {[number]} */ ([INCH]),
  '"': /** @type {[number]} */ ([INCH]), '″': /** @type {[number]} */ ([INCH]),
  ft: /** @type {[number]} */ ([12 * INCH]), "'": /** @type {[number]} */ ([12 * INCH]),
};
/** @type {Quantity['suffixes']} */
const VOLUMES = {
  l: [1], lt: [1], ltr: [1], litre: [1], litres: [1], liter: [1], liters: [1], dm3: [1], m3: [1000], 'm³': [1000], cc: [0.001], ml: [0.001],
  ft3: [CUBIC_FOOT], 'ft³': [CUBIC_FOOT], cuft: [CUBIC_FOOT], 'cu ft': [CUBIC_FOOT], 'cu.ft': [CUBIC_FOOT], cf: [CUBIC_FOOT],
  in3: [INCH ** 3 / 1e6], 'in³': [INCH ** 3 / 1e6], 'cu in': [INCH ** 3 / 1e6],
};

/** @satisfies {Record<string, Quantity>} */
export const QUANTITIES = {
  litres: { metric: unit('l', 'litres', 1, 0.5), imperial: unit('ft³', 'cubic feet', 2, 0.02, 1 / CUBIC_FOOT), suffixes: VOLUMES },
  air_m3: { metric: unit('m³', 'cubic metres', 2, 0.05), imperial: unit('ft³', 'cubic feet', 0, 1, 1000 / CUBIC_FOOT), suffixes: { m3: [1], 'm³': [1], l: [0.001], ft3: [CUBIC_FOOT / 1000], 'ft³': [CUBIC_FOOT / 1000], 'cu ft': [CUBIC_FOOT / 1000] } },
  mm: { metric: unit('mm', 'millimetres', 0, 5), imperial: unit('in', 'inches', 1, 0.25, 1 / INCH), suffixes: LENGTHS },
  wood_mm: { metric: unit('mm', 'millimetres', 0, 1), imperial: unit('in', 'inches', 2, 0.0625, 1 / INCH), suffixes: LENGTHS },
  fine_mm: { metric: unit('mm', 'millimetres', 1, 0.5), imperial: unit('in', 'inches', 2, 0.02, 1 / INCH), suffixes: LENGTHS },
  inches: { metric: unit('in', 'inches', 1, 0.5), imperial: unit('in', 'inches', 1, 0.5), suffixes: { in: [1], inch: [1], inches: [1], '"': [1], '″': [1], cm: [10 / INCH], mm: [1 / INCH] } },
  metres: { metric: unit('m', 'metres', 1, 0.5), imperial: unit('ft', 'feet', 1, 1, 1000 / (12 * INCH)), suffixes: { m: [1], cm: [0.01], mm: [0.001], ft: [12 * INCH / 1000], "'": [12 * INCH / 1000], in: [INCH / 1000] } },
  cm2: { metric: unit('cm²', 'square centimetres', 0, 5), imperial: unit('in²', 'square inches', 1, 1, 100 / INCH ** 2), suffixes: { cm2: [1], 'cm²': [1], mm2: [0.01], 'mm²': [0.01], m2: [1e4], in2: [INCH ** 2 / 100], 'in²': [INCH ** 2 / 100], 'sq in': [INCH ** 2 / 100] } },
  grams: { metric: unit('g', 'grams', 0, 1), imperial: unit('oz', 'ounces', 2, 0.1, 1 / OUNCE), suffixes: { g: [1], kg: [1000], oz: [OUNCE], lb: [1000 * POUND] } },
  celsius: { metric: unit('°C', 'degrees Celsius', 0, 1), imperial: unit('°F', 'degrees Fahrenheit', 0, 1, 1.8, 32), suffixes: { c: [1], '°c': [1], f: [1 / 1.8, -32 / 1.8], '°f': [1 / 1.8, -32 / 1.8] } },
  air_speed: { metric: unit('m/s', 'metres a second', 1, 0.5), imperial: unit('ft/s', 'feet a second', 0, 1, 1000 / (12 * INCH)), suffixes: { 'm/s': [1], 'ft/s': [12 * INCH / 1000] } },
  hz: same(unit('Hz', 'hertz', 0, 1), { hz: [1], khz: [1000] }),
  fine_hz: same(unit('Hz', 'hertz', 1, 0.5), { hz: [1], khz: [1000] }),
  watts: same(unit('W', 'watts', 0, 25), { w: [1], watt: [1], watts: [1], kw: [1000] }),
  ohms: same(unit('Ω', 'ohms', 2, 0.1), { ohm: [1], ohms: [1], 'ω': [1], r: [1], mohm: [0.001] }),
  millihenries: same(unit('mH', 'millihenries', 2, 0.1), { mh: [1], h: [1000], uh: [0.001], 'µh': [0.001] }),
  tesla_metres: same(unit('T·m', 'tesla metres', 1, 0.5), { tm: [1], 't·m': [1], 'n/a': [1] }),
  decibels: same(unit('dB', 'decibels', 1, 0.5), { db: [1] }),
  milliseconds: same(unit('ms', 'milliseconds', 1, 0.1), { ms: [1], s: [1000] }),
  degrees: same(unit('°', 'degrees', 0, 1), { '°': [1], deg: [1] }),
  percent: same(unit('%', 'per cent', 0, 1), { '%': [1] }),
  square_mm: same(unit('mm²', 'square millimetres', 0, 1), { mm2: [1], 'mm²': [1] }),
  volts: same(unit('V', 'volts', 1, 0.1), { v: [1] }),
  plain: same(unit('', '', 2, 0.05), {}),
  whole: same(unit('', '', 0, 1), {}),
};

/** @typedef {keyof typeof QUANTITIES} QuantityName */

/**
 * @param {QuantityName} name
 * @param {System} system
 * @returns {Unit}
 */
export function unitOf(name, system) {
  return QUANTITIES[name][system];
}

/**
 * Stored value to shown value.
 * @param {number} stored
 * @param {Unit} u
 */
export function toShown(stored, u) {
  return stored * u.scale + (u.shift ?? 0);
}

/**
 * Shown value to stored value.
 * @param {number} shown
 * @param {Unit} u
 */
export function toStored(shown, u) {
  return (shown - (u.shift ?? 0)) / u.scale;
}
