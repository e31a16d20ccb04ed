// Even wirings of several drivers with several voice coils each: every coil
// gets the same share. Pure.

/** @typedef {import('../job.js').Driver} Driver */

/**
 * @typedef {object} Wiring
 * @property {number} coilSeries coils of one driver in a string
 * @property {number} coilParallel strings of coils in one driver
 * @property {number} series drivers in a string
 * @property {number} parallel strings of drivers
 * @property {number} ohm nominal load
 */

/**
 * Every even wiring, by rising load. Those in which some coils would work
 * harder than others, or lie idle, are left out.
 * @param {number} drivers
 * @param {number} coils on each
 * @param {number} ohm nominal impedance of one coil
 * @returns {Wiring[]}
 */
export function wirings(drivers, coils, ohm) {
  /** @type {Wiring[]} */
  const out = [];
  for (let coilSeries = 1; coilSeries <= coils; coilSeries += 1) {
    if (coils % coilSeries) continue;
    for (let series = 1; series <= drivers; series += 1) {
      if (drivers % series) continue;
      const coilParallel = coils / coilSeries;
      const parallel = drivers / series;
      out.push({ coilSeries, coilParallel, series, parallel, ohm: ohm * coilSeries * series / (coilParallel * parallel) });
    }
  }
  return out.sort((a, b) => a.ohm - b.ohm);
}

/**
 * How many coils in a string the data sheet's Re goes with: Re is 0.6 to 1.05
 * of the nominal impedance (common practice). Undefined where nothing fits.
 * @param {Driver} driver
 */
export function statedCoils(driver) {
  const { coil_ohm: ohm, re_ohm: re } = driver;
  if (!ohm || !re) return undefined;
  return wirings(1, Math.max(1, driver.coils ?? 1), ohm).find((w) => re >= 0.6 * w.ohm && re <= 1.05 * w.ohm)?.coilSeries;
}

/**
 * The driver with its coils joined anew. Coils on one former share the core,
 * so that resistance and inductance go with the square of the turns in a
 * string and the force factor with the turns; cone and every Q stay.
 * @param {Driver} driver
 * @param {number} from coils in a string that its values hold for
 * @param {number} to
 * @returns {Driver}
 */
export function rewired(driver, from, to) {
  if (from === to) return driver;
  const ratio = to / from;
  const next = { ...driver };
  for (const key of /** @type {const} */ (['re_ohm', 'le_mh', 'l2_mh', 'r2_ohm', 'semi_k'])) {
    const v = next[key];
    if (typeof v === 'number') next[key] = Number((v * ratio * ratio).toPrecision(5));
  }
  if (typeof next.bl_tm === 'number') next.bl_tm = Number((next.bl_tm * ratio).toPrecision(5));
  return next;
}
