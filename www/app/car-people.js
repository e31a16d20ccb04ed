// Seats and the people in them, from the one point a tape gives: between the
// ears. Proportions of a middling adult; common practice, no source. Drawing
// only: nothing is calculated from them.

/** @typedef {{x: number, z: number}} Point */

/**
 * A limb or cushion: a line with a thickness, mm.
 * @typedef {object} Limb
 * @property {Point[]} line
 * @property {number} width
 */

/**
 * @typedef {object} Sitter
 * @property {Point & {r: number}} head
 * @property {Limb[]} seat cushion, back and head rest
 * @property {Limb[]} person torso, arm and legs
 * @property {Point} hip
 */

/**
 * @param {Point} ear between the ears
 * @param {number} floor height of the floor under the seat
 * @param {boolean} [atWheel] the hands are on the wheel, not on the lap
 * @returns {Sitter}
 */
export function sitter(ear, floor, atWheel = false) {
  const hip = { x: ear.x - 105, z: Math.max(ear.z - 640, floor + 190) };
  const rise = ear.z - hip.z;
  const shoulder = { x: ear.x + 25, z: hip.z + rise * 0.7 };
  const knee = { x: hip.x - 410, z: hip.z + Math.min(120, rise * 0.2) };
  const fall = Math.max(60, knee.z - floor - 55);
  const ankle = { x: knee.x - Math.sqrt(Math.max(0, 420 * 420 - Math.min(fall, 415) ** 2)), z: knee.z - Math.min(fall, 415) };
  const toe = { x: ankle.x - 150, z: ankle.z + 25 };
  const elbow = { x: shoulder.x - 150, z: shoulder.z - 225 };
  const hand = atWheel ? { x: hip.x - 372, z: hip.z + 372 } : { x: elbow.x - 250, z: hip.z + 75 };
  return {
    head: { x: ear.x - 12, z: ear.z + 12, r: 98 },
    hip,
    seat: [
      { line: [{ x: hip.x - 330, z: hip.z - 95 }, { x: hip.x + 95, z: hip.z - 150 }], width: 120 },
      { line: [{ x: hip.x + 100, z: hip.z - 125 }, { x: hip.x + 118, z: hip.z + 40 }, { x: ear.x + 150, z: hip.z + rise * 0.8 }], width: 110 },
      { line: [{ x: ear.x + 150, z: ear.z - 55 }, { x: ear.x + 166, z: ear.z + 45 }], width: 80 },
    ],
    person: [
      { line: [hip, { x: hip.x + 35, z: hip.z + rise * 0.35 }, shoulder], width: 185 },
      { line: [shoulder, { x: ear.x - 5, z: ear.z - 40 }], width: 90 },
      { line: [hip, knee], width: 135 },
      { line: [knee, ankle, toe], width: 92 },
      { line: [shoulder, elbow, hand], width: 72 },
    ],
  };
}

/**
 * The steering wheel of the seat at the wheel, edge on.
 * @param {Sitter} s
 * @returns {Limb[]}
 */
export function steeringWheel(s) {
  const hub = { x: s.hip.x - 400, z: s.hip.z + 300 };
  return [
    { line: [hub, { x: hub.x - 260, z: hub.z - 100 }], width: 26 },
    { line: [{ x: hub.x + 62, z: hub.z - 165 }, { x: hub.x - 62, z: hub.z + 165 }], width: 24 },
  ];
}
