import assert from 'node:assert/strict';
import { test } from 'node:test';
import { rehearse } from '../../app/rehearse.js';

const job = { car: { cabin: { length_mm: 2000, stations: [{ x_mm: 0 }, { x_mm: 2000 }] } } };
const end = (/** @type {any} */ call) => call.request.job.car.cabin.stations.at(-1).x_mm;

/** An engine that only writes down what it is asked, and a page that can be touched. */
function stage(t) {
  const page = new EventTarget();
  globalThis.addEventListener = page.addEventListener.bind(page);
  t.after(() => { delete globalThis.addEventListener; });
  const calls = [];
  const engine = { call: async (name, request, options) => { calls.push({ name, request, options, at: performance.now() }); throw new Error('no answer'); } };
  return { page, calls, engine };
}

test('what a finger will ask for is asked beforehand: the same car, and others', async (t) => {
  const { calls, engine } = stage(t);
  await rehearse(engine, job);
  assert.ok(calls.length >= 16 && calls.length <= 32, `${calls.length} calls`);
  // Never in the place of a call that somebody waits for.
  assert.ok(calls.every((c) => c.name === 'evaluate' && c.options === undefined));
  const same = calls.filter((c) => end(c) === 2000).length;
  assert.equal(same, calls.length / 2);
  assert.equal(new Set(calls.map(end)).size, calls.length - same + 1, 'every other car is another one');
  assert.equal(job.car.cabin.stations[1].x_mm, 2000, 'the reader’s job is as it was');
});

test('a reader who touches the page is not made to wait for it', async (t) => {
  const { page, calls, engine } = stage(t);
  const touched = performance.now();
  const done = rehearse(engine, job);
  page.dispatchEvent(new Event('pointerdown'));
  await done;
  assert.ok(calls[0].at - touched >= 290, `asked ${Math.round(calls[0].at - touched)} ms after the touch`);
});
