// The cabin's shape as a tape measure sees it: pure arithmetic on the document,
// in millimetres. Every change is returned as pointers and values for the
// store; nothing here touches the page.

/** @typedef {import('../job.js').Cabin} Cabin */
/** @typedef {import('../job.js').Station} Station */
/** @typedef {[pointer: string, value: any]} Change */

export const LEAST_STATIONS = 3;
export const MOST_STATIONS = 8;
/** Nearest that two stations may stand, and the lowest room between floor and roof. */
const APART = 60;
const LOWEST = 120;
const LEAST_LENGTH = 700;
const MOST_LENGTH = 8000;

/**
 * The cross-sections of a cabin, front to rear; those of a cuboid are its ends.
 * @param {Cabin} cabin
 * @returns {Station[]}
 */
export function stationsOf(cabin) {
  if (cabin.shape === 'stations' && cabin.stations && cabin.stations.length > 1) return cabin.stations;
  const end = { floor_mm: 0, roof_mm: cabin.height_mm, width_mm: cabin.width_mm };
  return [{ x_mm: 0, ...end }, { x_mm: cabin.length_mm, ...end }];
}

/** @param {Cabin} cabin */
export const lengthOf = (cabin) => /** @type {Station} */ (stationsOf(cabin).at(-1)).x_mm;

/**
 * The cross-section at x, straight between stations; beyond the ends that of
 * the end.
 * @param {Station[]} stations
 * @param {number} x
 * @returns {Station}
 */
export function sectionAt(stations, x) {
  const first = /** @type {Station} */ (stations[0]);
  if (x <= first.x_mm) return { ...first, x_mm: x };
  for (let i = 1; i < stations.length; i += 1) {
    const a = /** @type {Station} */ (stations[i - 1]);
    const b = /** @type {Station} */ (stations[i]);
    if (x > b.x_mm) continue;
    const t = (x - a.x_mm) / Math.max(1e-9, b.x_mm - a.x_mm);
    const mix = (/** @type {number} */ p, /** @type {number} */ q) => p + (q - p) * t;
    return { x_mm: x, floor_mm: mix(a.floor_mm, b.floor_mm), roof_mm: mix(a.roof_mm, b.roof_mm), width_mm: mix(a.width_mm, b.width_mm) };
  }
  return { .../** @type {Station} */ (stations.at(-1)), x_mm: x };
}

/**
 * Air inside, cubic metres. Height and width are straight lines between two
 * stations, so the area is a parabola and Simpson's rule is exact.
 * @param {Station[]} stations
 */
export function volumeM3(stations) {
  let total = 0;
  for (let i = 1; i < stations.length; i += 1) {
    const a = /** @type {Station} */ (stations[i - 1]);
    const b = /** @type {Station} */ (stations[i]);
    const ha = a.roof_mm - a.floor_mm;
    const hb = b.roof_mm - b.floor_mm;
    total += (b.x_mm - a.x_mm) / 6 * (ha * a.width_mm + hb * b.width_mm + (ha + hb) * (a.width_mm + b.width_mm));
  }
  return total * 1e-9;
}

/**
 * One number that a tape can take, and what a new reading of it changes.
 * @typedef {object} Measure
 * @property {string} key stays the same while the shape keeps its stations
 * @property {'along'|'height'|'floor'|'width'} kind
 * @property {number} station index; -1 for a cuboid
 * @property {number} x where along the car it stands
 * @property {number} low lower end of what it measures (floor, datum, left side)
 * @property {number} high upper end
 * @property {number} value the reading
 * @property {number} min
 * @property {number} max
 * @property {string} pointer the value of the document behind it
 * @property {(reading: number) => Change[]} put
 */

/**
 * All that a tape can measure of the cabin, in the order of a walk along the
 * car: at each place how far from the front, floor above the lowest floor,
 * floor to roof, and how wide. Where floor to roof was measured, another floor
 * takes the roof along; where it was assumed, the roof stays.
 * @param {Cabin} cabin
 * @param {(pointer: string) => boolean} [assumed] nobody measured the value
 * @returns {Measure[]}
 */
export function measures(cabin, assumed = () => true) {
  if (cabin.shape !== 'stations' || !cabin.stations?.length) return cuboidMeasures(cabin);
  const list = cabin.stations;
  return list.flatMap((s, i) => {
    const at = `/car/cabin/stations/${i}`;
    const base = { station: i, x: s.x_mm };
    const before = list[i - 1];
    const after = list[i + 1];
    /** @type {Measure[]} */
    const out = [];
    if (before) {
      out.push({
        ...base, key: `along${i}`, kind: 'along', low: 0, high: s.x_mm, value: s.x_mm, pointer: `${at}/x_mm`,
        min: Math.max(before.x_mm + APART, after ? 0 : LEAST_LENGTH), max: after ? after.x_mm - APART : MOST_LENGTH,
        put: (v) => [[`${at}/x_mm`, v]],
      });
    }
    const roof = `${at}/roof_mm`;
    out.push({
      ...base, key: `floor${i}`, kind: 'floor', low: 0, high: s.floor_mm, value: s.floor_mm, pointer: `${at}/floor_mm`,
      min: -500, max: assumed(roof) ? s.roof_mm - LOWEST : 2000,
      put: (v) => [[`${at}/floor_mm`, v], ...(assumed(roof) ? [] : [/** @type {Change} */ ([roof, s.roof_mm - s.floor_mm + v])])],
    }, {
      ...base, key: `height${i}`, kind: 'height', low: s.floor_mm, high: s.roof_mm, value: s.roof_mm - s.floor_mm, pointer: roof,
      min: LOWEST, max: 3000, put: (v) => [[roof, s.floor_mm + v]],
    }, {
      ...base, key: `width${i}`, kind: 'width', low: -s.width_mm / 2, high: s.width_mm / 2, value: s.width_mm, pointer: `${at}/width_mm`,
      min: 300, max: 3000, put: (v) => [[`${at}/width_mm`, v]],
    });
    return out;
  });
}

/** @param {Cabin} c @returns {Measure[]} */
function cuboidMeasures(c) {
  const one = (/** @type {Measure['kind']} */ kind, /** @type {string} */ key, /** @type {number} */ value, /** @type {Partial<Measure>} */ more) => ({
    key: kind, kind, station: -1, x: c.length_mm / 2, low: 0, high: value, value, min: 300, max: 3000, pointer: `/car/cabin/${key}`,
    put: (/** @type {number} */ v) => /** @type {Change[]} */ ([[`/car/cabin/${key}`, v]]), ...more,
  });
  return [
    one('along', 'length_mm', c.length_mm, { x: c.length_mm, min: LEAST_LENGTH, max: MOST_LENGTH }),
    one('height', 'height_mm', c.height_mm, {}),
    one('width', 'width_mm', c.width_mm, { low: -c.width_mm / 2, high: c.width_mm / 2 }),
  ];
}

/**
 * A station more, in the middle of the longest gap, on the lines that are there.
 * @param {Station[]} stations
 * @returns {{stations: Station[], at: number}|null} null where there are enough
 */
export function addStation(stations) {
  if (stations.length >= MOST_STATIONS) return null;
  const gap = (/** @type {number} */ i) => /** @type {Station} */ (stations[i]).x_mm - /** @type {Station} */ (stations[i - 1]).x_mm;
  let at = 1;
  for (let i = 2; i < stations.length; i += 1) if (gap(i) > gap(at)) at = i;
  if (gap(at) < 2 * APART) return null;
  const x = Math.round((/** @type {Station} */ (stations[at]).x_mm - gap(at) / 2) / 10) * 10;
  const s = sectionAt(stations, x);
  const made = { x_mm: x, floor_mm: Math.round(s.floor_mm), roof_mm: Math.round(s.roof_mm), width_mm: Math.round(s.width_mm) };
  return { stations: [...stations.slice(0, at), made, ...stations.slice(at)], at };
}

/**
 * One station fewer. The ends stay: they are where the cabin begins and ends.
 * @param {Station[]} stations
 * @param {number} i
 * @returns {Station[]|null} null where it must stay
 */
export function removeStation(stations, i) {
  if (stations.length <= LEAST_STATIONS || i <= 0 || i >= stations.length - 1) return null;
  return stations.filter((_, k) => k !== i);
}

/**
 * Marks of assumed values moved along with an array whose element i came or
 * went.
 * @param {string[]} assumed
 * @param {string} array pointer of the array
 * @param {number} i
 * @param {1|-1} by
 * @returns {string[]}
 */
export function shiftMarks(assumed, array, i, by) {
  return assumed.flatMap((mark) => {
    if (!mark.startsWith(`${array}/`)) return [mark];
    const [index = '', ...rest] = mark.slice(array.length + 1).split('/');
    const k = Number(index);
    if (by < 0 && k === i) return [];
    return [k >= i ? [array, k + by, ...rest].join('/') : mark];
  });
}

/**
 * The cabin described by its length, width and height: as it was before, if
 * somebody measured it so, else the cuboid of the same length, mean width and
 * air.
 * @param {Cabin} cabin
 * @param {boolean} measured
 * @returns {Change[]}
 */
export function asCuboid(cabin, measured) {
  /** @type {Change[]} */
  const changes = [['/car/cabin/shape', 'cuboid']];
  if (measured && cabin.length_mm > 0 && cabin.width_mm > 0 && cabin.height_mm > 0) return changes;
  const s = stationsOf(cabin);
  const length = lengthOf(cabin);
  let area = 0;
  for (let i = 1; i < s.length; i += 1) {
    const a = /** @type {Station} */ (s[i - 1]);
    const b = /** @type {Station} */ (s[i]);
    area += (b.x_mm - a.x_mm) * (a.width_mm + b.width_mm) / 2;
  }
  const width = Math.round(area / length);
  return [...changes, ['/car/cabin/length_mm', length], ['/car/cabin/width_mm', width], ['/car/cabin/height_mm', Math.round(volumeM3(s) * 1e9 / (length * width))]];
}

/**
 * The cabin described by stations. Stations that are there already and that
 * nobody measured are stretched to the length, width and height at hand, so
 * that the body style's lines stay; without any, four are set up.
 * @param {Cabin} cabin
 * @param {boolean} measured some station was measured: take them as they are
 * @returns {Change[]}
 */
export function asStations(cabin, measured) {
  /** @type {Change[]} */
  const shape = [['/car/cabin/shape', 'stations']];
  const there = cabin.stations ?? [];
  if (there.length >= LEAST_STATIONS && measured) return shape;
  const { length_mm: length, width_mm: width, height_mm: height } = cabin;
  if (there.length < LEAST_STATIONS) {
    const made = [0, 1 / 3, 2 / 3, 1].map((t) => ({ x_mm: Math.round(length * t), floor_mm: 0, roof_mm: height, width_mm: width }));
    return [['/car/cabin/stations', made], ...shape];
  }
  const kx = length / /** @type {Station} */ (there.at(-1)).x_mm;
  const kw = width / Math.max(...there.map((s) => s.width_mm));
  const kh = height / Math.max(...there.map((s) => s.roof_mm - s.floor_mm));
  const round = Math.round;
  return [['/car/cabin/stations', there.map((s) => ({ x_mm: round(s.x_mm * kx), floor_mm: round(s.floor_mm * kh), roof_mm: round(s.roof_mm * kh), width_mm: round(s.width_mm * kw) }))], ...shape];
}
