import assert from 'node:assert/strict';
import { test } from 'node:test';
import { qByHand } from '../../app/workshop/by-hand.js';
import { gains } from '../../app/workshop/remedies.js';
import { settingRows } from '../../app/workshop/settings-table.js';
import { markedText, spokenOf } from '../../app/workshop/sheet-marks.js';
import { nearestPoint, reachWords, tradeScales } from '../../app/workshop/trade-chart.js';
import { rewired, statedCoils, wirings } from '../../app/workshop/wirings.js';

test('every even wiring is offered, with its load', () => {
  // Plain arithmetic of equal resistances: two dual 4 ohm drivers give 1, 4 and 16 ohm.
  assert.deepEqual(wirings(2, 2, 4).map((w) => w.ohm), [1, 4, 4, 16]);
  assert.ok(Math.abs(wirings(3, 1, 4)[0].ohm - 4 / 3) < 1e-12);
  assert.deepEqual(wirings(1, 2, 2).map((w) => [w.coilSeries, w.ohm]), [[1, 1], [2, 4]]);
  for (const w of wirings(4, 2, 2)) {
    assert.equal(w.coilSeries * w.coilParallel, 2);
    assert.equal(w.series * w.parallel, 4);
  }
});

test('joining the coils anew keeps the Q of the motor', () => {
  const d = { name: 'dual', coils: 2, coil_ohm: 4, re_ohm: 1.8, bl_tm: 10, le_mh: 1, mms_g: 150, fs_hz: 34 };
  assert.equal(statedCoils(d), 1);
  const s = rewired(d, 1, 2);
  assert.equal(s.re_ohm, 7.2);
  assert.equal(s.le_mh, 4);
  // Qes = 2 pi fs Mms Re/Bl^2 is the cone's and the magnet's business, not the wiring's (Small 1972).
  assert.ok(Math.abs(s.re_ohm / s.bl_tm ** 2 - d.re_ohm / d.bl_tm ** 2) < 1e-9);
  assert.equal(statedCoils(s), 2);
  assert.equal(rewired(s, 2, 1).re_ohm, 1.8);
  assert.equal(statedCoils({ ...d, re_ohm: 3.5 }), undefined);
});

test('five readings give the Q values they were made from', () => {
  // A driver of Re 3.5 ohm, fs 28 Hz, Qms 6, Qes 0.5: Zmax is Re (1 + Qms/Qes) = 45.5 ohm, and its
  // impedance is sqrt(3.5 x 45.5) = 12.619 ohm at 20.823630 and 37.649536 Hz (Small, JAES 20 (1972) 383).
  const q = qByHand({ re: 3.5, fs: 28, zmax: 45.5, f1: 20.82363, f2: 37.649536 });
  assert.ok(Math.abs(q.qms - 6) < 1e-5 && Math.abs(q.qes - 0.5) < 1e-6 && Math.abs(q.qts - 0.4615385) < 1e-6);
  assert.ok(Math.abs(q.middle - 28) < 1e-5);
  assert.equal(qByHand({ re: 3.5, fs: 28, zmax: 3.5, f1: 20, f2: 37 }), null);
  assert.equal(qByHand({ re: 3.5, fs: 28, zmax: 45, f1: 29, f2: 37 }), null);
});

test('the pasted text comes back whole, with what was read marked in it', () => {
  const text = 'Model X\nfs: 28,5 Hz  fs: 28,5 Hz\r\nfinish black\nQts 0.4';
  const readings = [{ key: 'fs_hz', source: 'fs: 28,5 Hz', line: 2, sure: true }, { key: 'fs_hz', source: 'fs: 28,5 Hz', line: 2, sure: false }, { key: 'qts', source: 'Qts 0.4', line: 4, sure: false }, { key: 'vas_l', source: 'elsewhere', line: 4, sure: true }];
  const pieces = markedText(text, readings, [{ number: 1 }]);
  assert.equal(pieces.map((p) => p.text).join(''), text.replace('\r\n', '\n'));
  assert.deepEqual(pieces.filter((p) => p.kind !== 'plain').map((p) => [p.kind, p.text]), [['unread', 'Model X'], ['sure', 'fs: 28,5 Hz'], ['doubtful', 'fs: 28,5 Hz'], ['doubtful', 'Qts 0.4']]);
});

test('a contradiction offers the values it speaks of', () => {
  const label = (k) => ({ qes: 'Qes', qms: 'Qms', qts: 'Qts', vas_l: 'Vas', semi_n: 'n' })[k];
  const readings = ['qes', 'qms', 'qts', 'vas_l', 'semi_n'].map((key) => ({ key }));
  assert.deepEqual(spokenOf('Qts from Qes and Qms is 0.458, 0.52 was entered.', 'qts', readings, label), ['qes', 'qms', 'qts']);
  assert.deepEqual(spokenOf('It is wrong.', 'vas_l', readings, label), ['vas_l']);
});

test('points of the trade-off lie where their numbers are, and are found by touch', () => {
  const lines = [{ type: 'sealed', name: 'Sealed', points: [{ net_l: 10, reach_hz: 40, level_db: 108, box: {} }, { net_l: 40, reach_hz: 30, level_db: 111, box: {} }] }, { type: 'vented', name: 'Vented', points: [{ net_l: 20, reach_hz: 26, level_db: 114, box: {} }, { net_l: 60, reach_hz: 22, level_db: 116, box: {} }] }];
  const s = tradeScales(lines);
  // Litres in ratios: doubling is the same step everywhere.
  assert.ok(Math.abs((s.x(20) - s.x(10)) - (s.x(40) - s.x(20))) < 1e-9);
  assert.ok(s.reach(22) < s.reach(40), 'deeper is higher up');
  assert.ok(s.level(116) < s.level(108), 'louder is higher up');
  for (const [i, line] of lines.entries()) {
    for (const [k, p] of line.points.entries()) {
      assert.deepEqual(nearestPoint(lines, s.x(p.net_l) + 2, s.reach(p.reach_hz) - 2), { line: i, point: k });
      assert.deepEqual(nearestPoint(lines, s.x(p.net_l), s.level(p.level_db)), { line: i, point: k });
    }
  }
  assert.match(reachWords(10), /or lower/);
  assert.doesNotMatch(reachWords(24), /or lower/);
});

test('a remedy says what it brings, with its sign', () => {
  assert.match(gains({ level_db: 1.24, reach_hz: 0 }), /^\+1\.2/);
  assert.match(gains({ level_db: -0.3, reach_hz: -4 }), /^−0\.3.*4.*deeper/);
  assert.match(gains({ level_db: 0, reach_hz: 0 }), /no change/);
});

test('the settings are those of the channel, in a processor\u2019s units', () => {
  const channel = { gain_db: -3, delay_ms: 2.5, inverted: true, amplifier: {}, filters: [
    { kind: 'highpass', shape: 'butterworth', order: 4, freq_hz: 25 }, { kind: 'lowpass', shape: 'linkwitz_riley', order: 4, freq_hz: 80 }, { kind: 'lowpass', shape: 'bessel', order: 2, freq_hz: 60, off: true }, { kind: 'peak', freq_hz: 45, gain_db: -6, q: 4 }] };
  const rows = Object.fromEntries(settingRows([{ name: 'Sub', channel }], 'metric').map((r) => [r.name, r.cells[0]]));
  assert.match(rows['High-pass'], /Butterworth, 24 dB\/oct, 25/);
  assert.match(rows['Low-pass'], /Linkwitz-Riley, 24 dB\/oct, 80/);
  assert.doesNotMatch(rows['Low-pass'], /60/);
  // 2.5 ms at 48 kHz is 120 samples, and 860 mm of air at 344 m/s.
  assert.match(rows['Delay, at 48 kHz'], /^120 /);
  assert.match(rows['Delay, as distance'], /^860/);
  assert.equal(rows.Polarity, 'Inverted');
  assert.match(rows['Equaliser 1'], /45.*−6 dB, Q 4/);
});
