import assert from 'node:assert/strict';
import { test } from 'node:test';
import { formatValue, formatWithUnit } from '../../app/format.js';
import { parseQuantity } from '../../app/parse.js';
import { QUANTITIES, toShown, toStored, unitOf } from '../../app/units.js';

const read = (text, quantity, system = 'metric', min = -1e9, max = 1e9) => parseQuantity(text, quantity, unitOf(quantity, system), min, max);

/** @param {string} text @param {number} want */
function reads(text, want, ...rest) {
  const got = read(text, ...rest);
  assert.ok(got.ok, `${text}: ${JSON.stringify(got)}`);
  assert.ok(Math.abs(got.value - want) <= 1e-9 * Math.max(1, Math.abs(want)), `${text}: ${got.value}, want ${want}`);
}

test('decimal comma and point, thousands marks, signs', () => {
  reads('25', 25, 'litres');
  reads('25,5', 25.5, 'litres');
  reads('25.5', 25.5, 'litres');
  reads('.5', 0.5, 'litres');
  reads('1.234,5', 1234.5, 'watts');
  reads('1,234.5', 1234.5, 'watts');
  reads('1 234,5', 1234.5, 'watts');
  reads('1,234,567', 1234567, 'watts');
  reads('-3,5', -3.5, 'decibels');
  reads('−3.5', -3.5, 'decibels');
});

test('one mark before three digits is what the allowed span makes of it', () => {
  reads('1,500', 1500, 'watts', 'metric', 5, 20000);
  reads('1,500', 1.5, 'decibels', 'metric', -20, 20);
  reads('0,125', 0.125, 'plain', 'metric', 0, 1000);
});

test('units after the number: exact definitions of inch (25.4 mm, 1959), foot, ounce and degrees', () => {
  reads('14 in', 355.6, 'mm');
  reads('14"', 355.6, 'mm');
  reads('14 1/2 in', 368.3, 'mm');
  reads('3/4"', 19.05, 'mm');
  reads('35,5 cm', 355, 'mm');
  reads('2.5 m', 2500, 'mm');
  reads('1 ft3', 28.316846592, 'litres');
  reads('0.9 cu ft', 0.9 * 28.316846592, 'litres');
  reads('1.2 kW', 1200, 'watts');
  reads('2 oz', 56.69904625, 'grams');
  reads('68 °F', 20, 'celsius');
  reads('0.9', 0.9 * 28.316846592, 'litres', 'imperial');
  reads('25 l', 25, 'litres', 'imperial');
});

test('what is no number is refused with its reason', () => {
  for (const [text, why] of [['', 'empty'], ['  ', 'empty'], ['abc', 'not_a_number'], ['1..2', 'not_a_number'], ['1,2,3', 'not_a_number'], ['5/0', 'not_a_number'], ['25 kg', 'unknown_unit'], ['25 __proto__', 'unknown_unit'], ['25 constructor', 'unknown_unit']]) {
    assert.deepEqual(read(text, 'litres'), { ok: false, why }, text);
  }
  assert.deepEqual(read('4', 'litres', 'metric', 5, 50), { ok: false, why: 'too_small' });
  assert.deepEqual(read('51', 'litres', 'metric', 5, 50), { ok: false, why: 'too_large' });
});

test('what is shown reads back as the value, in both systems', () => {
  let seed = 7;
  const random = () => (seed = (seed * 16807) % 2147483647) / 2147483647;
  for (const name of Object.keys(QUANTITIES)) {
    for (const system of ['metric', 'imperial']) {
      const u = unitOf(name, system);
      for (let i = 0; i < 40; i += 1) {
        const stored = 10 ** (random() * 4 - 1);
        assert.ok(Math.abs(toStored(toShown(stored, u), u) - stored) < 1e-9 * Math.max(1, stored));
        const got = read(formatValue(stored, name, system), name, system);
        assert.ok(got.ok, `${name} ${stored}`);
        const half = 0.51 * 10 ** -u.digits / u.scale;
        assert.ok(Math.abs(got.value - stored) <= half, `${name} ${system} ${stored} came back as ${got.value}`);
        assert.ok(read(formatWithUnit(stored, name, system).replace('\u00a0', ' '), name, system).ok, formatWithUnit(stored, name, system));
      }
    }
  }
});
