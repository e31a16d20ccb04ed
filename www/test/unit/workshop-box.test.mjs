import assert from 'node:assert/strict';
import fs from 'node:fs';
import { test } from 'node:test';
import { airLitres, foldLine, gapRatio, layPort, lineLitres, portArea, sectionSize } from '../../app/workshop/box-geometry.js';
import { addedFor } from '../../app/workshop/box-parts.js';
import { boxSection, offset } from '../../app/workshop/box-section.js';
import { turnFor } from '../../app/workshop/box-picture.js';
import { BOX_TYPES, reads, startTubes, withType } from '../../app/workshop/box-starts.js';

const boot = { x_mm: 2000, length_mm: 700, width_mm: 1000, height_mm: 500, floor_mm: 270, seat_slope_deg: 22, separate: false, opening_width_mm: 900, opening_height_mm: 500 };
const driver = { name: 'ten', sd_cm2: 330, size_in: 10, outside_mm: 267, depth_mm: 140, volume_l: 1.6, fs_hz: 32, mms_g: 112, xmax_mm: 11 };
const sub = { id: 'sub', driver, series: 1, parallel: 1, place: { x_mm: 2650, y_mm: 0, z_mm: 450, fires: 'rear' }, channel: { filters: [], gain_db: 0, delay_ms: 0, inverted: false, amplifier: {} },
  box: { type: 'sealed', net_l: 30, front_l: 0, lining: 0, ql: 0, qa: 0, panel_mm: 18, width_mm: 600, height_mm: 0, depth_mm: 330 } };
const job = { assumed: [], subs: [sub], car: { boot } };

/** The section of a box of a type as it begins. */
function begun(type, change = {}, place = {}, drivers = 1) {
  const box = { ...withType(job, 0, type, {}).subs[0].box, ...change };
  return { box, driver, drivers, place: { ...sub.place, ...place }, boot, portLengths: change.lengths };
}

test('the fields of each type are those that the engine reads', () => {
  const engine = new URL('../../../internal/enclosure/', import.meta.url);
  const text = fs.readdirSync(engine).filter((f) => f.endsWith('.go') && !f.endsWith('_test.go')).map((f) => fs.readFileSync(new URL(f, engine), 'utf8')).join('\n');
  const found = new Map();
  const words = (list) => [...list.matchAll(/"([a-z_0-9]+)"/g)].map((m) => m[1]);
  const shared = words(/reads := \[\]string\{([^}]*)\}/.exec(text)[1]);
  for (const m of text.matchAll(/register\(Kind\{Key: "(\w+)"[\s\S]*?Reads:\s*(\[\]string\{([^}]*)\}|reads)/g)) found.set(m[1], m[3] === undefined ? shared : words(m[3]));
  assert.deepEqual([...found.keys()].sort(), Object.keys(BOX_TYPES).sort());
  for (const [type, fields] of found) assert.deepEqual([...BOX_TYPES[type]].sort(), fields.sort(), type);
});

test('choosing a type begins what it reads, marks that assumed, and loses nothing', () => {
  for (const type of Object.keys(BOX_TYPES)) {
    const next = withType(job, 0, type, {});
    const box = next.subs[0].box;
    assert.equal(box.type, type);
    for (const field of BOX_TYPES[type]) if (['net_l', 'front_l', 'port', 'front', 'passive', 'line', 'vent'].includes(field)) assert.ok(box[field], `${type} has ${field}`);
    for (const mark of next.assumed) assert.notEqual(mark.split('/').slice(1).reduce((at, step) => at[step], next), undefined, mark);
    // There and back: what was typed is still there.
    assert.equal(withType(next, 0, 'sealed', {}).subs[0].box.net_l, 30);
  }
  const own = withType({ ...job, subs: [{ ...sub, box: { ...sub.box, port: { shape: 'slot', count: 1, width_mm: 200, height_mm: 40, tuning_hz: 33 } } }] }, 0, 'vented', {});
  assert.equal(own.subs[0].box.port.tuning_hz, 33);
  assert.deepEqual(own.assumed.filter((p) => p.includes('/port/')), []);
});

test('every type is drawn to scale, turned every way', () => {
  for (const type of Object.keys(BOX_TYPES)) {
    for (const fires of ['rear', 'front', 'up', 'down', 'left']) {
      const input = begun(type, { lengths: [220, 240] }, { fires });
      const section = boxSection(input);
      const points = section.shapes.flatMap((s) => s.points);
      assert.ok(points.length > 8 && points.every((p) => p.every(Number.isFinite)), `${type} ${fires}`);
      assert.ok(section.shapes.some((s) => s.kind === 'cone'), `${type} shows its cone`);
      const walls = section.shapes.filter((s) => s.kind === 'wall');
      assert.equal(walls.length, type === 'infinite_baffle' ? 0 : 2);
      if (walls.length && type !== 'line') {
        const [outer] = walls;
        const size = sectionSize(input);
        assert.equal(Math.max(...outer.points.map((p) => p[0])), size.along);
        assert.equal(Math.max(...outer.points.map((p) => p[1])), size.across);
      }
      const flange = section.shapes.filter((s) => s.kind === 'cone' && s.points.length === 2)[0].points;
      assert.ok(Math.abs(Math.hypot(flange[0][0] - flange[1][0], flange[0][1] - flange[1][1]) - 267) < 1e-9, 'the frame is as wide as the driver');
      const turn = turnFor(fires);
      assert.ok(points.every((p) => turn(p).every(Number.isFinite)));
    }
  }
});

test('a cone that fires up is drawn on top, one that fires down underneath with its gap', () => {
  const cone = (fires) => turnFor(fires)(boxSection(begun('sealed', {}, { fires })).shapes.find((s) => s.kind === 'cone').points[0])[1];
  const middle = (fires) => { const { along } = sectionSize(begun('sealed', {}, { fires })); return turnFor(fires)([along / 2, 0])[1]; };
  assert.ok(cone('up') < middle('up'));
  assert.ok(cone('down') > middle('down'));
  const down = boxSection(begun('sealed', {}, { fires: 'down', gap_mm: 60 }));
  const ground = down.shapes.find((s) => s.kind === 'ground');
  assert.equal(ground.points[0][0] - down.size.along, 60);
});

test('the air drawn between the walls is the air of the box', () => {
  // Walls are all there is besides driver and port: outside less panels, less 1.6 l of driver.
  const input = begun('sealed');
  const { along, across, third } = sectionSize(input);
  assert.ok(Math.abs((along - 36) * (across - 36) * (third - 36) / 1e6 - 1.6 - 30) < 1e-6);
});

test('a port lies straight, bent or not at all, and its centre line is as long as it is', () => {
  const lay = (length, bore = 80) => layPort({ length, bore, mouth: [330, 60], inward: [-1, 0], reach: 312, turn: [0, 1], side: 500 });
  const run = (l) => l.path.slice(1).reduce((sum, p, i) => sum + Math.hypot(p[0] - l.path[i][0], p[1] - l.path[i][1]), 0);
  assert.equal(lay(200).fit, 'straight');
  assert.equal(lay(233).fit, 'bent');
  assert.equal(lay(312 - 40 + 420).fit, 'bent');
  assert.equal(lay(312 - 40 + 421).fit, 'too_long');
  assert.equal(lay(200, 500).fit, 'too_wide');
  for (const l of [lay(200), lay(400), lay(900)]) assert.ok(Math.abs(run(l) - l.length) < 1e-9);
  // Both walls of a bent duct keep half a bore from its centre line.
  const bent = lay(400);
  for (const side of [40, -40]) {
    const wall = offset(bent.path, side);
    assert.ok(Math.abs(Math.abs(wall[0][1] - bent.path[0][1]) - 40) < 1e-9);
    assert.ok(Math.abs(Math.abs(wall[2][0] - bent.path[2][0]) - 40) < 1e-9);
  }
});

test('a folded line keeps its length and its air', () => {
  const line = [{ length_mm: 1500, start_cm2: 500, end_cm2: 400, stuffing: 0 }, { length_mm: 1100, start_cm2: 400, end_cm2: 400, stuffing: 0 }];
  const { lanes } = foldLine(line, 700, 400, 18);
  assert.equal(lanes.length, 4);
  const length = lanes.reduce((sum, l) => sum + Math.abs(l.to[0] - l.from[0]), 0);
  assert.ok(Math.abs(length - 2600) < 1e-9);
  const air = lanes.reduce((sum, l) => sum + Math.abs(l.to[0] - l.from[0]) * (l.fromWidth + l.toWidth) / 2 * 400 / 1e6, 0);
  // The lane in which the two pieces meet is drawn straight through: 0.3 % more.
  assert.ok(Math.abs(air / lineLitres(line) - 1) < 4e-3, `${air} against ${lineLitres(line)}`);
  // The cone's frustum: 1.5 m from 500 to 400 cm2 holds 1.5/3 (5 + sqrt 20 + 4) dm2 m, plus 44 l.
  assert.ok(Math.abs(lineLitres(line) - (15 / 3 * (5 + Math.sqrt(20) + 4) + 44)) < 1e-9);
  assert.equal(lanes[3].to[0], 700, 'the mouth lies on the face');
  for (let i = 1; i < lanes.length; i += 1) assert.ok(Math.abs(lanes[i].from[0] - lanes[i - 1].to[0]) < 1e-9, 'each lane begins where the last one ends');
});

test('the mass to add tunes a passive radiator where it is wanted', () => {
  // fb = 1/(2 pi) sqrt(K/M): 200 g at 30 Hz means K = 7106 N/m; for 25 Hz it is 288 g in all.
  assert.ok(Math.abs(addedFor(120, 80, 30, 25) - (288 - 120)) < 1e-9);
  assert.ok(addedFor(120, 0, 30, 40) < 0);
});

test('areas and gaps are plain geometry', () => {
  assert.ok(Math.abs(portArea({ shape: 'round', count: 2, diameter_mm: 100 }) - 157.0796) < 1e-3);
  assert.equal(portArea({ shape: 'slot', count: 1, width_mm: 250, height_mm: 40 }), 100);
  // A disc as large as the face, its edge open over the gap.
  const input = begun('sealed', {}, { fires: 'down', gap_mm: 50 });
  const { across, third } = sectionSize(input);
  assert.ok(Math.abs(gapRatio(input) - 2 * Math.PI * Math.sqrt(across * third / Math.PI) * 50 / 33000) < 1e-9);
  assert.equal(gapRatio(begun('sealed')), null);
  assert.equal(airLitres({ type: 'bandpass4', net_l: 20, front_l: 15 }), 35);
  assert.equal(reads('sealed', 'port'), false);
});

test('ports begin at about a quarter of the cone, in tubes that can be had', () => {
  // Common practice, no source. Areas of a circle by hand: 100 mm is 78.5 cm2, 150 mm 176.7 cm2.
  assert.deepEqual(startTubes(330), { count: 1, diameter_mm: 100 });
  assert.deepEqual(startTubes(820), { count: 1, diameter_mm: 150 });
  for (const sd of [130, 220, 330, 480, 820, 1200, 1650]) {
    const { count, diameter_mm: d } = startTubes(sd);
    const share = count * Math.PI / 4 * d * d / 100 / sd;
    assert.ok(share > 0.18 && share < 0.33, `${sd} cm2: ${share}`);
  }
});

test('an outside size that nobody stated follows the type there and back; a stated one stays', () => {
  const keys = ['width_mm', 'height_mm', 'depth_mm'];
  const loose = { ...job, assumed: keys.map((k) => `/subs/0/box/${k}`) };
  const size = (j) => keys.map((k) => j.subs[0].box[k]);
  const holds = ([w, h, d]) => (w - 36) * (h - 36) * (d - 36) / 1e6;
  const sealed = withType(loose, 0, 'sealed', {});
  // 30 l of air and the driver's own 1.6 l, whole mm.
  assert.ok(Math.abs(holds(size(sealed)) - 31.6) < 0.1, String(size(sealed)));
  const line = withType(sealed, 0, 'line', {});
  assert.ok(Math.abs(holds(size(line)) - lineLitres(line.subs[0].box.line) - 1.6) < 0.2);
  assert.deepEqual(size(withType(line, 0, 'aperiodic', {})), size(sealed));
  const stated = withType(job, 0, 'bandpass4', {}).subs[0].box;
  assert.deepEqual([stated.width_mm, stated.depth_mm], [600, 330]);
});
