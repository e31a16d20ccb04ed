// The values of a driver: what each is a quantity of and what it may be.

/** @typedef {import('../units.js').QuantityName} QuantityName */

/** In the order of a form. @type {[key: string, quantity: QuantityName, min: number, max: number][]} */
export const DRIVER_KEYS = [
  ['size_in', 'inches', 2, 34], ['re_ohm', 'ohms', 0.05, 100], ['fs_hz', 'fine_hz', 5, 500], ['qes', 'plain', 0.03, 20], ['qms', 'plain', 0.1, 100], ['qts', 'plain', 0.03, 20],
  ['vas_l', 'litres', 0.1, 3000], ['sd_cm2', 'cm2', 5, 5000], ['mms_g', 'grams', 0.3, 5000], ['bl_tm', 'tesla_metres', 0.3, 150], ['cms_mm_n', 'plain', 0.001, 20], ['rms_kg_s', 'plain', 0.01, 200],
  ['le_mh', 'millihenries', 0.001, 60], ['xmax_mm', 'fine_mm', 0.3, 150], ['power_w', 'watts', 1, 20000], ['coils', 'whole', 1, 4], ['coil_ohm', 'ohms', 0.2, 100],
  ['depth_mm', 'wood_mm', 10, 1000], ['cut_out_mm', 'wood_mm', 30, 1000], ['outside_mm', 'wood_mm', 30, 1100], ['volume_l', 'litres', 0.01, 100], ['mass_kg', 'plain', 0.05, 300], ['price', 'plain', 0, 1e7],
];

/** @param {string} key @returns {QuantityName} */
export function quantityOf(key) {
  return DRIVER_KEYS.find(([k]) => k === key)?.[1] ?? 'plain';
}
