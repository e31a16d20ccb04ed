import assert from 'node:assert/strict';
import { test } from 'node:test';
import { boxSize, boxStand, driverSize, netFromHeight } from '../../app/car-box.js';
import { spread } from '../../app/car-labels.js';
import { carOutline, outlineInput } from '../../app/car-outline.js';
import { bounds, pathData, roundedLine } from '../../app/car-path.js';
import { sitter } from '../../app/car-people.js';
import { STYLES } from '../../app/car-styles.js';

const boot = { x_mm: 2000, length_mm: 700, width_mm: 1000, height_mm: 500, floor_mm: 270, seat_slope_deg: 22 };
const cuboid = (body, length, height) => ({ body, cabin: { shape: 'cuboid', length_mm: length, width_mm: 1400, height_mm: height }, boot: { ...boot, x_mm: length - 700 } });

/** Points of an outline, its curves followed in small steps. */
function follow(steps) {
  const points = [];
  let at = { x: 0, z: 0 };
  for (const s of steps) {
    if (s.op === 'Z') continue;
    if (s.op === 'Q') {
      for (let i = 1; i <= 8; i += 1) {
        const t = i / 8;
        points.push([(1 - t) ** 2 * at.x + 2 * t * (1 - t) * s.cx + t * t * s.x, (1 - t) ** 2 * at.z + 2 * t * (1 - t) * s.cz + t * t * s.z]);
      }
    } else points.push([s.x, s.z]);
    at = s;
  }
  return points;
}

function within(polygon, x, z) {
  let inside = false;
  for (let i = 0, j = polygon.length - 1; i < polygon.length; j = i, i += 1) {
    const [xi, zi] = polygon[i];
    const [xj, zj] = polygon[j];
    if (zi > z !== zj > z && x < ((xj - xi) * (z - zi)) / (zj - zi) + xi) inside = !inside;
  }
  return inside;
}

test('every body style draws a closed car that stands on its wheels, at any size', () => {
  for (const body of Object.keys(STYLES)) {
    for (const [length, height] of [[1500, 1000], [2400, 1150], [4200, 1500]]) {
      const o = carOutline(outlineInput(cuboid(body, length, height)));
      assert.equal(o.body.at(-1)?.op, 'Z');
      for (const w of o.wheels) assert.ok(Math.abs(w.z - w.r - o.ground) < 1e-9, `${body}: a wheel off the road`);
      assert.ok(o.wheels[0].x < o.wheels[1].x);
      assert.ok(o.box.left < 0 && o.box.right > length && o.box.high > height && o.box.low === o.ground);
      const polygon = follow(o.body);
      assert.ok(within(polygon, length * 0.55, height * 0.5), `${body}: the middle of the cabin is outside the car`);
      assert.ok(within(polygon, length * 0.5, height - 5) , `${body}: the roof cuts into the cabin`);
      assert.doesNotMatch(pathData(o.body, { x0: 0, y0: 0, scale: 0.2 }), /NaN|Infinity|undefined/);
    }
  }
});

test('a measured roof lies under the drawn one, all along', () => {
  const stations = [[0, 700], [620, 1070], [1200, 1160], [1880, 1110], [2420, 840]].map(([x_mm, roof_mm]) => ({ x_mm, roof_mm, floor_mm: 0, width_mm: 1300 }));
  const o = carOutline(outlineInput({ body: 'hatch', cabin: { shape: 'stations', length_mm: 0, width_mm: 0, height_mm: 0, stations }, boot: { ...boot, x_mm: 1900, length_mm: 520 } }));
  const polygon = follow(o.body);
  for (const { x_mm, roof_mm } of stations.slice(1)) assert.ok(within(polygon, x_mm - 1, roof_mm - 1), `roof at ${x_mm} mm`);
  const higher = carOutline(outlineInput({ body: 'hatch', cabin: { shape: 'stations', length_mm: 0, width_mm: 0, height_mm: 0, stations: stations.map((s) => ({ ...s, roof_mm: s.roof_mm + 200 })) }, boot })).box.high;
  assert.ok(Math.abs(higher - o.box.high - 200) < 1);
});

test('a rounded line keeps to its corners and never leaves them by more than its rounding', () => {
  const steps = roundedLine([[0, 0, 100], [1000, 0, 100], [1000, 500, 100], [0, 500, 100]], true);
  assert.deepEqual(bounds(steps), { left: 0, right: 1000, low: 0, high: 500 });
  for (const [x, z] of follow(steps)) assert.ok(x >= 0 && x <= 1000 && z >= 0 && z <= 500);
  // The parabola through the middle of a right corner passes a quarter of the
  // way from the corner to its chord's ends: 25 mm in for a rounding of 100.
  const corner = follow(steps).reduce((best, [x, z]) => Math.min(best, Math.hypot(1000 - x, z)), Infinity);
  assert.ok(Math.abs(corner - Math.hypot(25, 25)) < 1e-6, String(corner));
});

const box = { type: 'sealed', net_l: 25, front_l: 0, panel_mm: 18, width_mm: 486, height_mm: 0, depth_mm: 245 };
const input = { box, driver: { size_in: 10, volume_l: 1.8, sd_cm2: 330 }, drivers: 1, place: { x_mm: 2170, z_mm: 430, fires: 'rear' }, boot };

test('outside height and net volume undo each other', () => {
  for (const net_l of [6, 25, 80]) {
    const at = { ...input, box: { ...box, net_l } };
    assert.ok(Math.abs(netFromHeight(at, boxSize(at).height) - net_l) < 1e-9);
  }
  // By hand: (25 + 1.8) litres over (486 - 36)(245 - 36) mm², and two panels.
  assert.ok(Math.abs(boxSize(input).height - (26.8e6 / (450 * 209) + 36)) < 1e-9);
});

test('the box stands on the boot floor with its mouth where the job says', () => {
  const rear = boxStand(input);
  assert.deepEqual([rear.x1, rear.z0], [2170, 270]);
  const front = boxStand({ ...input, place: { ...input.place, fires: 'front' } });
  assert.equal(front.x0, 2170);
  assert.ok(Math.abs(driverSize({ sd_cm2: 314.159265 }).cone - 200) < 1e-6); // a disc of 200 mm
});

test('a figure sits on its seat, feet on the floor, at any ear height', () => {
  for (const z of [830, 920, 1060]) {
    const s = sitter({ x: 1200, z }, 0);
    const low = Math.min(...s.person.flatMap((l) => l.line.map((p) => p.z)));
    assert.ok(low >= 0 && low < 330, String(low));
    assert.ok(s.hip.z < s.head.z && s.hip.z >= 190);
  }
});

test('labels keep their order, their room and the row', () => {
  for (const wishes of [[10, 12, 14, 300, 900], [500, 500, 500], [0, 990, 1000]]) {
    const got = spread(wishes, 120, 1000);
    got.forEach((x, i) => {
      assert.ok(x >= 60 - 1e-9 && x <= 940 + 1e-9);
      if (i > 0) assert.ok(x - got[i - 1] >= 120 - 1e-9);
    });
  }
  assert.deepEqual(spread([100, 400], 120, 1000), [100, 400]);
});
