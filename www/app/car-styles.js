// Proportions of the ten body styles: drawn by us, of no particular car.
// Lengths along the car are shares of the cabin's length L, heights are shares
// of the car's whole height T above the ground, so that a style keeps its
// character at any size a tape measures. Common practice, no source.

/**
 * @typedef {object} Frame the measures a style is drawn in
 * @property {number} L cabin length, mm
 * @property {number} tail x of the rearmost point of the inside of the car, mm
 * @property {(share: number) => number} z height of a share of T above the ground, mm
 */

/** @typedef {import('./car-path.js').Corner} Corner */

/**
 * @typedef {object} Style
 * @property {number} nose length ahead of the cabin, share of L
 * @property {number} clear cabin floor above the ground, mm
 * @property {number} skin roof above the inside of the roof, mm
 * @property {number} wheel tyre radius, mm
 * @property {number} frontAxle x of the front axle, share of L
 * @property {number} rearOverhang rear axle to the tail, mm
 * @property {number} beyond body behind the rearmost inside, mm
 * @property {(f: Frame) => Corner[]} front bonnet, from its leading edge to the foot of the screen
 * @property {(f: Frame) => Corner[]} roof from the head of the screen on, where the car was not measured section by section
 * @property {(f: Frame) => Corner[]} [folded] the line in place of the roof when that is put down
 * @property {(f: Frame) => Corner[]} rear from the foot of the rear window to the tail
 * @property {(f: Frame) => Corner[][]} panes side windows
 * @property {(f: Frame) => Corner[][]} doors shut lines, the sill at share 0.16
 * @property {number} [lamp] foot of the head lamp, share of T
 * @property {boolean} [spare] carries its spare wheel on the tail
 * @property {(f: Frame) => Corner[][]} [lines] further lines of its own
 */

const HUGE = 9999;

/**
 * Shut lines of a front and, where asked, a rear door.
 * @param {Frame} f
 * @param {number} a foot of the screen, share of L
 * @param {number} b between the doors
 * @param {number} [c] behind the rear door
 * @param {number} [belt]
 */
function doorLines(f, a, b, c, belt = 0.66) {
  const { L, z } = f;
  const sill = z(0.175);
  /** @type {Corner[][]} */
  const lines = [[[a * L, z(belt)], [(a + 0.012) * L, z(0.36), 250], [(a + 0.05) * L, sill, 90], [b * L, sill, 60], [b * L, z(belt)]]];
  if (c) lines.push([[b * L, sill], [(c - 0.115) * L, sill, 70], [(c - 0.05) * L, z(0.34), 260], [c * L, z(0.5), 150], [c * L, z(belt)]]);
  return lines;
}

/**
 * A pane between two leaning pillars.
 * @param {Frame} f
 * @param {[number, number]} low x shares along the belt
 * @param {[number, number]} high x shares along the top
 * @param {[number, number]} belt z shares
 * @param {[number, number]} top
 * @param {number} [round]
 * @returns {Corner[]}
 */
function pane(f, low, high, belt, top, round = 45) {
  return [
    [low[0] * f.L, f.z(belt[0]), round], [high[0] * f.L, f.z(top[0]), round * 2],
    [high[1] * f.L, f.z(top[1]), round], [low[1] * f.L, f.z(belt[1]), round],
  ];
}

/** @type {Style} */
const hatch = {
  nose: 0.4, clear: 280, skin: 60, wheel: 315, frontAxle: -0.085, rearOverhang: 640, beyond: 85,
  front: ({ L, z }) => [[-0.385 * L, z(0.47), 150], [-0.33 * L, z(0.565), 260], [-0.16 * L, z(0.632), HUGE], [-0.01 * L, z(0.665), 130]],
  roof: ({ L, z }) => [[0.27 * L, z(0.955), 420], [0.5 * L, z(1.015), HUGE], [0.72 * L, z(0.99), HUGE], [0.9 * L, z(0.945), 150]],
  rear: ({ tail, z }) => [[tail + 5, z(0.68), 150], [tail + 75, z(0.585), 90]],
  panes: (f) => [
    pane(f, [0.1, 0.47], [0.305, 0.475], [0.675, 0.678], [0.925, 0.952]),
    pane(f, [0.5, 0.765], [0.503, 0.735], [0.679, 0.69], [0.952, 0.937]),
    pane(f, [0.79, 0.905], [0.765, 0.84], [0.695, 0.745], [0.932, 0.915], 35),
  ],
  doors: (f) => doorLines(f, 0.1, 0.485, 0.775),
};

/** @type {Style} */
const smallHatch = {
  ...hatch, nose: 0.37, clear: 285, wheel: 292, frontAxle: -0.075, rearOverhang: 500, beyond: 75,
  front: ({ L, z }) => [[-0.36 * L, z(0.45), 150], [-0.315 * L, z(0.56), 240], [-0.16 * L, z(0.632), HUGE], [-0.01 * L, z(0.668), 130]],
  roof: ({ L, z }) => [[0.26 * L, z(0.965), 420], [0.5 * L, z(1.015), HUGE], [0.78 * L, z(0.985), HUGE], [0.955 * L, z(0.94), 130]],
  rear: ({ tail, z }) => [[tail + 12, z(0.67), 140], [tail + 68, z(0.57), 90]],
  panes: (f) => [
    pane(f, [0.1, 0.55], [0.3, 0.555], [0.68, 0.684], [0.93, 0.953]),
    pane(f, [0.585, 0.89], [0.588, 0.86], [0.685, 0.715], [0.952, 0.925]),
  ],
  doors: (f) => doorLines(f, 0.1, 0.57),
};

/** @type {Style} */
const saloon = {
  ...hatch, nose: 0.46, clear: 270, wheel: 322, frontAxle: -0.11, rearOverhang: 900, beyond: 95,
  front: ({ L, z }) => [[-0.445 * L, z(0.47), 150], [-0.38 * L, z(0.575), 280], [-0.18 * L, z(0.642), HUGE], [-0.01 * L, z(0.672), 130]],
  roof: ({ L, z }) => [[0.3 * L, z(0.965), 460], [0.53 * L, z(1.015), HUGE], [0.76 * L, z(0.975), HUGE]],
  rear: ({ L, tail, z }) => [[1.13 * L, z(0.705), 240], [tail - 40, z(0.69), 120], [tail + 55, z(0.62), 70]],
  panes: (f) => [
    pane(f, [0.1, 0.5], [0.33, 0.505], [0.68, 0.683], [0.925, 0.952]),
    pane(f, [0.53, 0.82], [0.533, 0.755], [0.684, 0.69], [0.952, 0.937]),
    pane(f, [0.845, 0.955], [0.785, 0.82], [0.692, 0.722], [0.93, 0.9], 30),
  ],
  doors: (f) => doorLines(f, 0.1, 0.515, 0.85),
  lines: ({ tail, z }) => [[[tail + 30, z(0.585)], [tail - 130, z(0.575)]]],
};

/** @type {Style} */
const estate = {
  ...hatch, nose: 0.36, wheel: 322, clear: 272, frontAxle: -0.085, rearOverhang: 860,
  front: ({ L, z }) => [[-0.345 * L, z(0.47), 150], [-0.295 * L, z(0.575), 260], [-0.14 * L, z(0.642), HUGE], [-0.01 * L, z(0.672), 130]],
  roof: ({ L, z }) => [[0.23 * L, z(0.96), 420], [0.42 * L, z(1.012), HUGE], [0.7 * L, z(1.0), HUGE], [0.945 * L, z(0.95), 130]],
  rear: ({ tail, z }) => [[tail + 12, z(0.68), 140], [tail + 75, z(0.6), 90]],
  panes: (f) => [
    pane(f, [0.085, 0.405], [0.265, 0.41], [0.68, 0.683], [0.925, 0.952]),
    pane(f, [0.43, 0.655], [0.433, 0.645], [0.684, 0.69], [0.952, 0.948]),
    pane(f, [0.68, 0.93], [0.67, 0.89], [0.69, 0.715], [0.948, 0.925]),
  ],
  doors: (f) => doorLines(f, 0.085, 0.418, 0.668),
};

/** @type {Style} */
const offRoaderLong = {
  nose: 0.38, clear: 470, skin: 70, wheel: 385, frontAxle: -0.12, rearOverhang: 720, beyond: 75,
  front: ({ L, z }) => [[-0.375 * L, z(0.5), 70], [-0.37 * L, z(0.625), 90], [-0.18 * L, z(0.652), HUGE], [-0.015 * L, z(0.665), 90]],
  roof: ({ L, z }) => [[0.155 * L, z(0.962), 170], [0.4 * L, z(0.995), HUGE], [0.75 * L, z(0.993), HUGE], [0.975 * L, z(0.975), 110]],
  rear: ({ tail, z }) => [[tail + 45, z(0.68), 90], [tail + 65, z(0.5), 60]],
  panes: (f) => [
    pane(f, [0.055, 0.375], [0.185, 0.377], [0.685, 0.685], [0.925, 0.938], 28),
    pane(f, [0.4, 0.65], [0.402, 0.648], [0.685, 0.685], [0.938, 0.938], 28),
    pane(f, [0.68, 0.955], [0.68, 0.935], [0.685, 0.69], [0.938, 0.928], 28),
  ],
  doors: (f) => doorLines(f, 0.055, 0.388, 0.665),
  };

/** @type {Style} */
const offRoaderShort = {
  ...offRoaderLong, nose: 0.46, frontAxle: -0.15, rearOverhang: 520, spare: true,
  front: ({ L, z }) => [[-0.455 * L, z(0.5), 60], [-0.45 * L, z(0.635), 80], [-0.2 * L, z(0.657), HUGE], [-0.015 * L, z(0.665), 80]],
  roof: ({ L, z }) => [[0.15 * L, z(0.965), 140], [0.4 * L, z(0.992), HUGE], [0.75 * L, z(0.99), HUGE], [0.985 * L, z(0.975), 100]],
  rear: ({ tail, z }) => [[tail + 50, z(0.68), 80], [tail + 65, z(0.5), 50]],
  panes: (f) => [
    pane(f, [0.06, 0.53], [0.185, 0.53], [0.685, 0.685], [0.925, 0.937], 28),
    pane(f, [0.57, 0.945], [0.57, 0.93], [0.685, 0.69], [0.937, 0.928], 28),
  ],
  doors: (f) => doorLines(f, 0.06, 0.55),
};

/** @type {Style} */
const panelVan = {
  nose: 0.25, lamp: 0.335, clear: 430, skin: 65, wheel: 345, frontAxle: -0.02, rearOverhang: 900, beyond: 60,
  front: ({ L, z }) => [[-0.245 * L, z(0.38), 140], [-0.215 * L, z(0.48), 240], [-0.09 * L, z(0.555), 200], [-0.005 * L, z(0.6), 160]],
  roof: ({ L, z }) => [[0.16 * L, z(0.95), 260], [0.3 * L, z(0.995), HUGE], [0.7 * L, z(1.0), HUGE], [0.985 * L, z(0.985), 120]],
  rear: ({ tail, z }) => [[tail + 45, z(0.6), 100], [tail + 50, z(0.4), 60]],
  panes: (f) => [pane(f, [0.05, 0.315], [0.185, 0.318], [0.6, 0.605], [0.88, 0.895], 35)],
  doors: (f) => [...doorLines(f, 0.05, 0.33, undefined, 0.59), [[0.33 * f.L, f.z(0.59)], [0.33 * f.L, f.z(0.91)]], [[0.36 * f.L, f.z(0.175)], [0.36 * f.L, f.z(0.92), 40], [0.62 * f.L, f.z(0.92), 40], [0.62 * f.L, f.z(0.175)]]],
  lines: ({ L, z }) => [[[0.4 * L, z(0.545)], [0.985 * L, z(0.545)]]],
};

/** @type {Style} */
const pickUp = {
  nose: 0.68, clear: 470, skin: 65, wheel: 375, frontAxle: -0.22, rearOverhang: 980, beyond: 1560,
  front: ({ L, z }) => [[-0.665 * L, z(0.5), 80], [-0.655 * L, z(0.615), 110], [-0.3 * L, z(0.652), HUGE], [-0.015 * L, z(0.67), 110]],
  roof: ({ L, z }) => [[0.27 * L, z(0.962), 240], [0.5 * L, z(1.0), HUGE], [0.75 * L, z(0.985), HUGE], [0.93 * L, z(0.95), 120]],
  rear: ({ L, tail, z }) => [[1.02 * L, z(0.64), 40], [1.04 * L, z(0.585), 25], [tail + 1535, z(0.59), 50], [tail + 1550, z(0.45), 40]],
  panes: (f) => [
    pane(f, [0.095, 0.52], [0.305, 0.522], [0.68, 0.682], [0.925, 0.935], 32),
    pane(f, [0.56, 0.905], [0.562, 0.86], [0.683, 0.69], [0.935, 0.918], 32),
  ],
  doors: (f) => [...doorLines(f, 0.095, 0.54), [[0.54 * f.L, f.z(0.175)], [0.9 * f.L, f.z(0.175), 60], [0.95 * f.L, f.z(0.3), 100], [0.955 * f.L, f.z(0.66)]]],
  lines: ({ L, z }) => [[[1.03 * L, z(0.585)], [1.03 * L, z(0.19)]]],
};

/** @type {Style} */
const coupe = {
  ...hatch, nose: 0.58, clear: 230, skin: 55, wheel: 325, frontAxle: -0.2, rearOverhang: 760, beyond: 110,
  front: ({ L, z }) => [[-0.56 * L, z(0.46), 150], [-0.48 * L, z(0.575), 300], [-0.22 * L, z(0.65), HUGE], [0.0, z(0.69), 150]],
  roof: ({ L, z }) => [[0.34 * L, z(0.975), 480], [0.53 * L, z(1.02), HUGE], [0.74 * L, z(0.97), HUGE], [0.98 * L, z(0.76), 420]],
  rear: ({ tail, z }) => [[tail - 190, z(0.705), 300], [tail + 60, z(0.69), 70], [tail + 95, z(0.6), 60]],
  panes: (f) => [
    pane(f, [0.13, 0.575], [0.385, 0.575], [0.7, 0.705], [0.93, 0.955]),
    pane(f, [0.605, 0.84], [0.605, 0.715], [0.707, 0.745], [0.953, 0.935], 40),
  ],
  doors: (f) => doorLines(f, 0.11, 0.585, undefined, 0.69),
};

/** @type {Style} */
const open = {
  ...coupe, nose: 0.56, rearOverhang: 720,
  front: ({ L, z }) => [[-0.54 * L, z(0.46), 150], [-0.46 * L, z(0.575), 300], [-0.22 * L, z(0.645), HUGE], [0.0, z(0.68), 60]],
  roof: ({ L, z }) => [[0.32 * L, z(0.96), 200], [0.55 * L, z(1.015), HUGE], [0.78 * L, z(0.97), HUGE], [0.96 * L, z(0.83), 120]],
  rear: ({ L, tail, z }) => [[1.05 * L, z(0.695), 70], [tail - 120, z(0.68), 250], [tail + 95, z(0.6), 70]],
  folded: ({ L, z }) => [[0.13 * L, z(0.672), 40], [0.64 * L, z(0.672), 120], [0.73 * L, z(0.73), 150], [0.9 * L, z(0.735), 200]],
  panes: (f) => [pane(f, [0.12, 0.56], [0.37, 0.56], [0.695, 0.7], [0.925, 0.945])],
  doors: (f) => doorLines(f, 0.12, 0.57, undefined, 0.68),
  lines: ({ L, z }) => [[[0.6 * L, z(0.69)], [0.6 * L, z(0.965)]], [[0.78 * L, z(0.69)], [0.74 * L, z(0.94)]], [[0.12 * L, z(0.69)], [1.02 * L, z(0.69)]]],
};

/** @type {Record<string, Style>} */
export const STYLES = {
  small_hatch: smallHatch, hatch, saloon, estate,
  off_roader_short: offRoaderShort, off_roader_long: offRoaderLong,
  panel_van: panelVan, pick_up: pickUp, coupe, open_car: open,
};

/**
 * The style of a body key; a hatch where the key is not known.
 * @param {string} key
 * @returns {Style}
 */
export function styleOf(key) {
  return Object.hasOwn(STYLES, key) ? /** @type {Style} */ (STYLES[key]) : hatch;
}
