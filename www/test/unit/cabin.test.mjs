import assert from 'node:assert/strict';
import { test } from 'node:test';
import { cutOutline } from '../../app/cabin/cut.js';
import { followers } from '../../app/cabin/follow.js';
import { choiceOf, OPENING_CHOICES, openingFor } from '../../app/cabin/openings.js';
import { edges, fromOklab, readColour, shadeOf, shades, toOklab } from '../../app/cabin/palette.js';
import { between, filled } from '../../app/cabin/picture.js';
import { addStation, asCuboid, asStations, measures, removeStation, sectionAt, shiftMarks, volumeM3 } from '../../app/cabin/shape.js';
import { setAt } from '../../app/pointer.js';

const station = (x_mm, floor_mm, roof_mm, width_mm) => ({ x_mm, floor_mm, roof_mm, width_mm });
/** An invented hatchback. */
const hatch = [station(0, 260, 700, 1160), station(620, 0, 1070, 1290), station(1200, 0, 1160, 1310), station(1880, 280, 1110, 1200), station(2420, 280, 840, 1000)];
const cabin = (stations = hatch) => ({ shape: 'stations', length_mm: 2400, width_mm: 1300, height_mm: 1150, stations });
const seat = (id, x_mm, y_mm, z_mm) => ({ id, x_mm, y_mm, z_mm, occupied: id === 'wheel' });
const job = (over = {}) => ({
  car: {
    body: 'small_hatch', cabin: cabin(), boot: { separate: false, x_mm: 1900, length_mm: 520, width_mm: 1000, height_mm: 470, floor_mm: 280, opening_width_mm: 960, opening_height_mm: 560 },
    seats: [seat('wheel', 1160, 340, 920), seat('rear_right', 1890, 320, 910)], openings: [], finish: {},
  },
  subs: [{ place: { x_mm: 2170, y_mm: 0, z_mm: 443 } }], doors: { place: { x_mm: 430, y_mm: 590, z_mm: 320 } }, assumed: [], ...over,
});

test('the air between sections is that of the solids of geometry', () => {
  // A cuboid, a wedge (half of it) and a frustum of a square pyramid,
  // h (a² + ab + b²)/3: any handbook of geometry, such as Bronshtein and
  // Semendyayev, from memory.
  assert.ok(Math.abs(volumeM3([station(0, 0, 1000, 1400), station(2500, 0, 1000, 1400)]) - 3.5) < 1e-12);
  assert.ok(Math.abs(volumeM3([station(0, 0, 1000, 1400), station(2500, 1000, 1000, 1400)]) - 1.75) < 1e-12);
  assert.ok(Math.abs(volumeM3([station(0, 0, 1200, 1200), station(900, 300, 900, 600)]) - 0.9 * (1.44 + 0.72 + 0.36) / 3) < 1e-12);
});

test('a section more, put on the lines there are, changes nothing but the count', () => {
  const { stations, at } = addStation(hatch);
  assert.equal(stations.length, 6);
  assert.equal(at, 3, 'in the longest gap');
  assert.ok(Math.abs(volumeM3(stations) / volumeM3(hatch) - 1) < 1e-3);
  const back = removeStation(stations, at);
  assert.deepEqual(back, hatch);
  let most = hatch;
  for (let more = addStation(most); more; more = addStation(most)) most = more.stations;
  assert.equal(most.length, 8);
  assert.equal(removeStation(hatch, 0), null);
  assert.equal(removeStation(hatch, 4), null);
  assert.equal(removeStation(hatch.slice(0, 3), 1), null, 'three are the fewest');
});

test('every reading of the tape can be taken and reads back', () => {
  const all = measures(cabin());
  assert.equal(all.length, 5 * 4 - 1, 'each place but the first has four');
  for (const m of all) {
    const reading = (m.min + m.max) / 2;
    let next = { car: { cabin: cabin() } };
    for (const [pointer, value] of m.put(reading)) next = setAt(next, pointer, value);
    const again = measures(next.car.cabin).find((q) => q.key === m.key);
    assert.ok(Math.abs(again.value - reading) < 1e-9, m.key);
    for (const q of measures(next.car.cabin)) {
      if (q.key !== m.key && !(m.kind === 'floor' && q.key === `height${m.station}`)) assert.equal(q.value, all.find((o) => o.key === q.key).value, `${m.key} moved ${q.key}`);
    }
  }
  const box = { shape: 'cuboid', length_mm: 2400, width_mm: 1300, height_mm: 1150 };
  assert.deepEqual(measures(box).map((m) => m.value), [2400, 1150, 1300]);
});

test('another floor takes a measured roof along, and leaves one that is assumed', () => {
  const floor = (assumed) => Object.fromEntries(measures(cabin(), () => assumed).find((m) => m.key === 'floor3').put(300));
  assert.deepEqual(floor(true), { '/car/cabin/stations/3/floor_mm': 300 });
  assert.deepEqual(floor(false), { '/car/cabin/stations/3/floor_mm': 300, '/car/cabin/stations/3/roof_mm': 1130 });
});

test('a station cannot pass its neighbours, nor the roof its floor', () => {
  for (const m of measures(cabin())) assert.ok(m.value >= m.min && m.value <= m.max, m.key);
  const along = measures(cabin()).filter((m) => m.kind === 'along');
  for (const m of along) {
    const i = m.station;
    assert.ok(m.min > hatch[i - 1].x_mm && (i === 4 || m.max < hatch[i + 1].x_mm));
  }
});

test('changing over keeps the air or the tape, and back again', () => {
  const toBox = Object.fromEntries(asCuboid(cabin(), false));
  const { '/car/cabin/length_mm': l, '/car/cabin/width_mm': w, '/car/cabin/height_mm': h } = toBox;
  assert.ok(Math.abs(l * w * h * 1e-9 / volumeM3(hatch) - 1) < 2e-3);
  assert.deepEqual(asCuboid(cabin(), true), [['/car/cabin/shape', 'cuboid']], 'what was measured stays');
  const scaled = Object.fromEntries(asStations({ ...cabin(), shape: 'cuboid', length_mm: 2662 }, false))['/car/cabin/stations'];
  assert.deepEqual(scaled.map((s) => s.x_mm), hatch.map((s) => Math.round(s.x_mm * 1.1)));
  assert.equal(Math.max(...scaled.map((s) => s.width_mm)), 1300);
  assert.equal(Math.max(...scaled.map((s) => s.roof_mm - s.floor_mm)), 1150);
  assert.equal(Object.fromEntries(asStations({ shape: 'cuboid', length_mm: 2400, width_mm: 1300, height_mm: 1150 }, false))['/car/cabin/stations'].length, 4);
});

test('marks of assumed values go with the element they are about', () => {
  const marks = ['/a/0/x', '/a/1/x', '/a/2/x', '/b'];
  assert.deepEqual(shiftMarks(marks, '/a', 1, 1), ['/a/0/x', '/a/2/x', '/a/3/x', '/b']);
  assert.deepEqual(shiftMarks(marks, '/a', 1, -1), ['/a/0/x', '/a/1/x', '/b']);
});

test('what nobody measured follows the shape; what was measured stays', () => {
  const change = [['/car/cabin/stations/4/x_mm', 2620]];
  assert.deepEqual(followers(job(), change), []);
  const assumed = ['/car/boot/x_mm', '/subs/0/place/x_mm', '/car/seats/1/x_mm'];
  assert.deepEqual(Object.fromEntries(followers(job({ assumed }), change)), { '/car/boot/x_mm': 2100, '/subs/0/place/x_mm': 2370 });
  const short = Object.fromEntries(followers(job({ assumed }), [['/car/cabin/stations/4/x_mm', 1940]]));
  assert.equal(short['/car/seats/1/x_mm'], 1880, 'ears stay inside');
  const raised = followers(job({ assumed: ['/car/boot/floor_mm', '/subs/0/place/z_mm'] }), [['/car/cabin/stations/3/floor_mm', 380], ['/car/cabin/stations/4/floor_mm', 380]]);
  assert.deepEqual(raised, [['/car/boot/floor_mm', 380], ['/subs/0/place/z_mm', 543]]);
});

test('every opening stands on the skin of the car and is known again', () => {
  const { car } = job();
  for (const choice of OPENING_CHOICES) {
    const o = openingFor(car, choice);
    assert.equal(choiceOf(o), choice);
    const s = sectionAt(hatch, o.x_mm);
    assert.ok(o.x_mm >= 0 && o.x_mm <= 2420 && Math.abs(o.y_mm) <= s.width_mm / 2 + 1 && o.z_mm >= s.floor_mm && o.z_mm <= s.roof_mm + 1, choice);
    assert.ok(o.area_cm2 >= 1 && o.area_cm2 <= 60000);
  }
  assert.equal(openingFor(car, 'window_right').area_cm2, 700, 'ten centimetres of a pane of seventy');
});

test('a cut runs along the skin', () => {
  const { car } = job();
  assert.deepEqual(cutOutline(car, 'cabin', 'side', 0).filter(([x]) => x === 1200).map(([, z]) => z), [1160, 0]);
  const above = cutOutline(car, 'cabin', 'above', 920);
  // At 920 mm the screen is met where the roof has risen from 700 to 920 of 1070.
  assert.ok(Math.abs(Math.min(...above.map(([x]) => x)) - 620 * 220 / 370) <= 20);
  assert.equal(cutOutline(car, 'cabin', 'side', 700).length, 0, 'beyond the doors there is no cabin');
});

test('Oklab agrees with the published values', () => {
  // White and red of sRGB: CSS Color Module Level 4, sample conversions, from memory.
  for (const [rgb, lab] of [[[255, 255, 255], [1, 0, 0]], [[255, 0, 0], [0.62796, 0.22486, 0.12585]]]) {
    toOklab(rgb).forEach((v, i) => assert.ok(Math.abs(v - lab[i]) < 2e-4, `${rgb}: ${v}`));
  }
  for (const rgb of [[0, 0, 0], [20, 130, 240], [200, 40, 90]]) assert.deepEqual(fromOklab(toOklab(rgb)), rgb);
  assert.deepEqual(readColour(' #f4efe4', [0, 0, 0]), [244, 239, 228]);
  assert.deepEqual(readColour('#fff', [0, 0, 0]), [255, 255, 255]);
  assert.deepEqual(readColour('red', [1, 2, 3]), [1, 2, 3]);
});

test('shades keep their order in lightness, in every theme', () => {
  for (const [paper, hue, ink] of [['#fcfaf4', '#19607e', '#1d2a33'], ['#1c2d3a', '#7fcaec', '#e8eef0'], ['#fff', '#00456e', '#000']].map((t) => t.map((c) => readColour(c, [0, 0, 0])))) {
    const light = shades(paper, hue, ink, 8).map((rgb) => toOklab(rgb)[0]);
    const way = Math.sign(light.at(-1) - light[0]);
    for (let i = 1; i < light.length; i += 1) assert.ok((light[i] - light[i - 1]) * way > 0.02, `shade ${i}: ${light}`);
  }
});

test('level lines fall on whole steps below the loudest', () => {
  const rising = edges(131.4, 3, 8);
  assert.deepEqual(rising, [111, 114, 117, 120, 123, 126, 129]);
  assert.equal(shadeOf(110.9, rising), 0);
  assert.equal(shadeOf(111, rising), 1);
  assert.equal(shadeOf(131.4, rising), 7);
});

test('a picture is straight between its points and runs on to the edge', () => {
  const columns = 6;
  const rows = 4;
  const plane = (u, w) => 3 + 2 * u - 5 * w;
  const values = Float64Array.from({ length: 24 }, (_, k) => plane((k % columns + 0.5) / columns, (Math.floor(k / columns) + 0.5) / rows));
  for (const [u, w] of [[0.2, 0.3], [0.5, 0.5], [0.81, 0.66]]) assert.ok(Math.abs(between(values, columns, rows, u, w) - plane(u, w)) < 1e-12);
  values[0] = -1e4;
  values[7] = NaN;
  const whole = filled({ values, columns, rows }, -1e4);
  assert.ok(whole.every((v) => Number.isFinite(v) && v > -10));
  assert.equal(whole[3], values[3]);
});
