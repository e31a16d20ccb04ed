import assert from 'node:assert/strict';
import { test } from 'node:test';
import { EVEN_MIX, answered, inOrder, ownDrivers, readAnswers, requestOf, stepsOf, withShare, without } from '../../app/ways/answers.js';
import { along } from '../../app/ways/band-strip.js';
import { bootLitres, clampSpace, crates, shareOfBoot, sideOf, spaceLitres, toSide, wholeBoot } from '../../app/ways/boot-space.js';
import { mixAt, pointOf } from '../../app/ways/mix.js';
import { cut } from '../../app/ways/quick-line.js';
import { toTape } from '../../app/ways/tape.js';

/** A boot 800 mm long under a seat back that leans 45 degrees: easy by hand. */
const boot = /** @type {any} */ ({ x_mm: 2000, length_mm: 800, width_mm: 1100, height_mm: 500, floor_mm: 200, seat_slope_deg: 45, wheel_arches_mm: 1000 });
const near = (a, b, tolerance = 1e-9) => assert.ok(Math.abs(a - b) <= tolerance, `${a} is not ${b}`);

test('the litres of a boot are those of a prism: area of its side times its width', () => {
  // Trapezium of parallel sides 800 and 800 - 500, height 500 (school
  // geometry): 275 000 mm2; times 1000 mm between the arches: 275 l.
  near(bootLitres(boot), 275);
  near(spaceLitres(boot, wholeBoot(boot)), 275);
  // The first 300 mm of floor lie wholly under the lean: half a square.
  near(spaceLitres(boot, { ...wholeBoot(boot), length_mm: 300 }), 45);
  // A slab 100 mm high, 800 below and 700 above.
  near(spaceLitres(boot, { ...wholeBoot(boot), height_mm: 100 }), 75);
  // With the seats folded the lean is gone.
  near(bootLitres({ ...boot, seats_folded: true }), 400);
});

test('a share of the boot holds that share of its litres', () => {
  for (const share of [0.1, 0.3, 0.5, 1]) near(spaceLitres(boot, shareOfBoot(boot, share)), share * 275, 0.3);
});

test('a part is no larger than the boot, and a half lies on its side', () => {
  const large = clampSpace(boot, { x_mm: 0, y_mm: 900, length_mm: 9000, width_mm: 9000, height_mm: 9000 });
  assert.deepEqual(large, { x_mm: 0, y_mm: 0, length_mm: 800, width_mm: 1000, height_mm: 500 });
  const left = toSide(boot, large, 'left');
  assert.deepEqual([left.y_mm, left.width_mm], [-250, 500]);
  assert.equal(sideOf(boot, left), 'left');
  assert.equal(sideOf(boot, toSide(boot, left, 'right')), 'right');
  assert.equal(sideOf(boot, toSide(boot, left, 'whole')), 'whole');
});

test('crates are counted where they stand whole', () => {
  // 800 mm free: rows of 400 mm, one crate of 600 in 1000 mm of width; but a
  // second row would stand under the lean (at 300 mm up the seat is at 300).
  const none = { ...wholeBoot(boot), length_mm: 0 };
  assert.equal(crates(boot, none).count, 1);
  assert.equal(crates(boot, wholeBoot(boot)).count, 0);
  // A van's floor: 2 m by 1.2 m by 1.3 m, no lean: five rows of two, four high.
  const van = { ...boot, length_mm: 2000, width_mm: 1200, wheel_arches_mm: 0, height_mm: 1300, seat_slope_deg: 0 };
  assert.equal(crates(van, { ...none, width_mm: 1200 }).count, 40);
});

test('the request holds what was answered and nothing else', () => {
  assert.deepEqual(requestOf({}), {});
  const answers = readAnswers({ body: 'estate', music: ['pop', 7], loud: '', budget: -3, space: { x_mm: 0, y_mm: 0.4, length_mm: 301.6, width_mm: 1000, height_mm: 400 }, junk: 1 });
  assert.deepEqual(requestOf(answers), { body: 'estate', music: ['pop'], space: { from_seat_mm: 0, middle_mm: 0, length_mm: 302, width_mm: 1000, height_mm: 400 } });
  assert.deepEqual(readAnswers('nonsense'), {});
  assert.deepEqual(readAnswers({ space: { length_mm: 'x' } }), {});
});

test('a step can be answered, and unanswered again', () => {
  assert.deepEqual(stepsOf(false), ['car', 'boot', 'music', 'loud', 'choices']);
  assert.ok(stepsOf(true).includes('spend'));
  const answers = { body: 'hatch', length_mm: 2500, loud: 'club' };
  assert.equal(answered(answers, 'car'), true);
  assert.equal(answered(answers, 'music'), false);
  assert.deepEqual(without(answers, 'car'), { loud: 'club' });
});

test('what matters adds up to one and keeps the proportion of the rest', () => {
  const mix = withShare({ deeper: 0.2, louder: 0.6, smaller: 0.2 }, 'deeper', 0.5);
  near(mix.deeper, 0.5);
  near(mix.louder, 0.375);
  near(mix.smaller, 0.125);
  near(withShare({ deeper: 1, louder: 0, smaller: 0 }, 'deeper', 0).louder, 0.5);
});

test('the triangle and the mix are the same thing: corners, middle and between', () => {
  // Barycentric coordinates: the middle is the mean of the corners.
  for (const mix of [EVEN_MIX, { deeper: 1, louder: 0, smaller: 0 }, { deeper: 0.5, louder: 0.1, smaller: 0.4 }]) {
    const { x, y } = pointOf(mix);
    const back = mixAt(x, y);
    for (const key of /** @type {const} */ (['deeper', 'louder', 'smaller'])) near(back[key], mix[key], 1e-12);
  }
  const outside = mixAt(120, -500);
  near(outside.louder, 1);
  near(outside.deeper + outside.louder + outside.smaller, 1);
});

test('choices follow what matters, and the engine where nothing was said', () => {
  const list = [
    { id: 'even', scores: { deeper: 0.5, louder: 0.5, smaller: 0.5 } },
    { id: 'deep', scores: { deeper: 1, louder: 0.4, smaller: 0 } },
    { id: 'tiny', scores: { deeper: 0, louder: 0.1, smaller: 1 } },
  ];
  const ids = (mix) => inOrder(list, mix).map((c) => c.id).join(' ');
  assert.equal(ids(null), 'even deep tiny');
  assert.equal(ids({ deeper: 1, louder: 0, smaller: 0 }), 'deep even tiny');
  assert.equal(ids({ deeper: 0, louder: 0, smaller: 1 }), 'tiny even deep');
  assert.deepEqual(list.map((c) => c.id), ['even', 'deep', 'tiny']);
});

test('an octave is as long anywhere on a scale of ratios', () => {
  const scale = { from: 80, to: 20, log: true };
  near(along(scale, 40), 0.5);
  near(along(scale, 400), 0);
  near(along({ from: 90, to: 130 }, 100), 0.25);
});

test('words are taken out of the line and the gap closed', () => {
  assert.equal(cut('10 sealed 25 l', [3, 9]), '10 25 l');
  assert.equal(cut('10, sealed', [0, 2]), 'sealed');
  assert.equal(cut('hatch', [0, 5]), '');
});

test('a car drawn to a tape keeps its shape', () => {
  const preset = /** @type {any} */ ({ cabin: { length_mm: 2000, width_mm: 1300, height_mm: 1200, stations: [{ x_mm: 1000, floor_mm: 100, roof_mm: 1200, width_mm: 1300 }] }, boot, seats: [{ x_mm: 1000, y_mm: 300, z_mm: 900 }] });
  assert.equal(toTape(preset, {}), preset);
  const longer = toTape(preset, { length_mm: 2500 });
  assert.deepEqual([longer.boot.length_mm, longer.boot.height_mm, longer.cabin.stations?.[0]?.x_mm, longer.seats[0]?.z_mm], [1000, 500, 1250, 900]);
});

test('the reader\'s own drivers go with the question, as far as they are drivers', () => {
  const own = ownDrivers([{ id: '1', driver: { name: 'mine', fs_hz: 30 } }, null, { id: '2' }, { driver: 'x' }]);
  assert.deepEqual(own, [{ name: 'mine', fs_hz: 30 }]);
  assert.deepEqual(ownDrivers('spoilt'), []);
  assert.deepEqual(requestOf({ loud: 'loud' }, own), { loud: 'loud', drivers: own });
  assert.deepEqual(requestOf({ loud: 'loud' }), { loud: 'loud' });
});
