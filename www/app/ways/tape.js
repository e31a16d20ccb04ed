// A body style drawn to a tape's length, width and height, as the engine does
// it: everything along an axis in proportion.

/** @typedef {import('../views/model.js').BodyPreset} BodyPreset */
/** @typedef {import('./answers.js').Answers} Answers */

/** How far a tape may lie from what is usual for the style: the same bounds as the engine's. */
export const LEAST = 0.5;
export const MOST = 1.8;

/**
 * @param {BodyPreset} preset
 * @param {Pick<Answers, 'length_mm'|'width_mm'|'height_mm'>} tape
 * @returns {BodyPreset}
 */
export function toTape(preset, tape) {
  const { cabin, boot } = preset;
  const x = (tape.length_mm ?? cabin.length_mm) / cabin.length_mm;
  const y = (tape.width_mm ?? cabin.width_mm) / cabin.width_mm;
  const z = (tape.height_mm ?? cabin.height_mm) / cabin.height_mm;
  if (x === 1 && y === 1 && z === 1) return preset;
  const mm = Math.round;
  return {
    ...preset,
    cabin: {
      ...cabin, length_mm: mm(x * cabin.length_mm), width_mm: mm(y * cabin.width_mm), height_mm: mm(z * cabin.height_mm),
      stations: cabin.stations?.map((s) => ({ x_mm: mm(x * s.x_mm), floor_mm: mm(z * s.floor_mm), roof_mm: mm(z * s.roof_mm), width_mm: mm(y * s.width_mm) })),
    },
    boot: {
      ...boot, x_mm: mm(x * boot.x_mm), length_mm: mm(x * boot.length_mm), width_mm: mm(y * boot.width_mm), height_mm: mm(z * boot.height_mm), floor_mm: mm(z * boot.floor_mm),
      wheel_arches_mm: boot.wheel_arches_mm === undefined ? undefined : mm(y * boot.wheel_arches_mm),
    },
    seats: preset.seats.map((s) => ({ ...s, x_mm: mm(x * s.x_mm), y_mm: mm(y * s.y_mm), z_mm: mm(z * s.z_mm) })),
  };
}
