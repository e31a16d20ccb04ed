import assert from 'node:assert/strict';
import { test } from 'node:test';
import { curvePath, extremes, valueAt } from '../../app/chart-path.js';
import { chooseSpan, frequencyAxis, frequencyTicks, valueTicks } from '../../app/chart-scale.js';
import { toCSV } from '../../app/chart-table.js';
import { limitRuns, widerRuns } from '../../app/views/curve-data.js';

const freq = Float64Array.from({ length: 400 }, (_, i) => 10 * 50 ** (i / 399));

test('a straight line per octave is read exactly between its points', () => {
  // 12 dB an octave is linear in log frequency, so interpolation must be exact.
  const values = freq.map((hz) => 40 * Math.log10(hz / 80));
  for (const hz of [10, 13.7, 79.99, 250, 500]) assert.ok(Math.abs(valueAt(freq, values, hz) - 40 * Math.log10(hz / 80)) < 1e-9);
  assert.equal(valueAt(freq, values, 1), values[0]);
  assert.equal(valueAt(freq, values, 1e5), values[399]);
});

test('the axis and its inverse undo each other and stay inside', () => {
  const axis = frequencyAxis(10, 500, 40, 940);
  assert.ok(Math.abs(axis.toPx(Math.sqrt(5000)) - 490) < 1e-9); // geometric mean in the middle
  for (const hz of [10, 31.5, 63, 500]) assert.ok(Math.abs(axis.toHz(axis.toPx(hz)) / hz - 1) < 1e-12);
  assert.ok(Math.abs(axis.toHz(-100) - 10) < 1e-9 && Math.abs(axis.toHz(5000) - 500) < 1e-9);
  assert.deepEqual(frequencyTicks(10, 500).filter((t) => t.named).map((t) => t.hz), [10, 20, 30, 50, 100, 200, 300, 500]);
});

test('a decimated curve keeps its narrowest peak and its gaps', () => {
  const n = 5000;
  const xs = Float64Array.from({ length: n }, (_, i) => i * 300 / n);
  const values = new Float64Array(n);
  values[2345] = 50;
  const d = curvePath(xs, values, 100, 1, 1000, -1000);
  assert.match(d, / 50(?=[ML]|$)/); // y = 100 - 50
  assert.ok(d.split(/[ML]/).length < 700);
  const gap = curvePath(Float64Array.of(0, 1, 2, 3), [1, NaN, 2, 3], 0, 1, 10, -10);
  assert.equal(gap, 'M0 -1M2 -2L3 -3');
});

test('the span holds the values, falls on round numbers and stays put under a finger', () => {
  const rule = { step: 10, span: 60 };
  const first = chooseSpan(rule, 40, 123, null);
  assert.deepEqual(first, [70, 130]);
  assert.deepEqual(chooseSpan(rule, 40, 126, first), first);
  assert.deepEqual(chooseSpan(rule, 40, 117, first), first);
  assert.deepEqual(chooseSpan(rule, 40, 131, first), [80, 140]);
  assert.deepEqual(chooseSpan({ step: 5, foot: 0 }, 0, 0, null), [0, 5]);
  assert.deepEqual(valueTicks(80, 140, 6).ticks, [80, 90, 100, 110, 120, 130, 140]);
});

test('extremes pass over what is not a number', () => {
  assert.deepEqual(extremes([NaN, 3, -1, Infinity]), { low: -1, high: 3, lowAt: 2, highAt: 1 });
});

test('CSV after RFC 4180: quotes doubled, CRLF, point as decimal mark', () => {
  assert.equal(
    toCSV([{ name: 'Frequency', unit: 'Hz', values: [10, 20.5], digits: 1 }, { name: 'a "b", c', unit: '', values: [NaN, -3], digits: 1 }]),
    '"Frequency (Hz)","a ""b"", c"\r\n10,\r\n20.5,-3\r\n',
  );
});

test('neighbours with one limit become one run that touches the next', () => {
  const runs = limitRuns(Float64Array.of(10, 20, 40, 80), [1, 1, 2, 2]);
  assert.deepEqual(runs.map((r) => [r.from, r.to, r.code]), [[10, 40, 1], [40, 80, 2]]);
});

test('a limit that rules less than a sixth of an octave is not told', () => {
  const run = (from, to, code) => ({ from, to, code, label: String(code) });
  const told = (runs) => widerRuns(runs).map((r) => [r.from, r.to, r.code]);
  // 40 to 44 Hz is 0.14 of an octave, 40 to 45 Hz 0.17.
  assert.deepEqual(told([run(10, 40, 1), run(40, 44, 2), run(44, 500, 1)]), [[10, 500, 1]]);
  assert.deepEqual(told([run(10, 40, 1), run(40, 45, 2), run(45, 500, 1)]), [[10, 40, 1], [40, 45, 2], [45, 500, 1]]);
  assert.deepEqual(told([run(10, 10.5, 3), run(10.5, 500, 1)]), [[10, 500, 1]]);
  assert.deepEqual(told([run(10, 10.5, 3)]), [[10, 10.5, 3]]);
});
