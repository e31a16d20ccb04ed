import assert from 'node:assert/strict';
import { test } from 'node:test';
import { createEngine } from '../../app/engine.js';
import { partsOf, turns } from './loopback.mjs';

const ok = (reply, floats = []) => ({ reply: JSON.stringify(reply), floats: Float64Array.from(floats) });

/** An engine that echoes, and whose long calls end when the test says so. */
function echo(version = 'v1') {
  const calls = [];
  const long = [];
  return {
    version,
    calls,
    long,
    call(name, request, onProgress) {
      calls.push([name, JSON.parse(request)]);
      if (name === 'refuse') return { error: { kind: 'bad_request', say: 'No such box.' } };
      if (name === 'throw') throw new Error('unreachable');
      if (name === 'gone') return undefined;
      if (name === 'long') return new Promise((resolve) => long.push({ resolve, onProgress }));
      return ok({ name, request: JSON.parse(request) }, [1, 2, 3]);
    },
  };
}

const kind = (k) => (error) => error.name === 'EngineError' && error.kind === k && error.message.length > 0;

test('a call brings back the reply and the numbers', async () => {
  const engine = createEngine(partsOf(echo()));
  const { reply, floats } = await engine.call('evaluate', { a: 1 });
  assert.deepEqual(reply, { name: 'evaluate', request: { a: 1 } });
  assert.deepEqual([...floats], [1, 2, 3]);
  engine.close();
});

test("an engine's error is data: its kind and its sentence survive", async () => {
  const engine = createEngine(partsOf(echo()));
  await assert.rejects(engine.call('refuse', {}), (e) => kind('bad_request')(e) && e.message === 'No such box.');
  engine.close();
});

test('of requests with one key only the newest is computed; the others are superseded', async () => {
  const wasm = echo();
  const engine = createEngine(partsOf(wasm));
  await engine.call('hello', {});
  const results = await Promise.allSettled([1, 2, 3, 4].map((n) => engine.call('evaluate', { n }, { latest: 'drag' })));
  assert.deepEqual(results.map((r) => r.status), ['rejected', 'rejected', 'rejected', 'fulfilled']);
  assert.ok(results.slice(0, 3).every((r) => kind('superseded')(r.reason)));
  assert.deepEqual(wasm.calls.slice(1, 2), [['evaluate', { n: 4 }]]);
  engine.close();
});

test('an answer that is already worked out arrives, though a newer request follows it', async () => {
  const wasm = echo();
  const engine = createEngine(partsOf(wasm));
  await engine.call('hello', {});
  // While one is computed, the hand moves on.
  const { call } = wasm;
  let second;
  wasm.call = (...args) => {
    second ??= engine.call('evaluate', { n: 2 }, { latest: 'drag' });
    return call(...args);
  };
  const first = await engine.call('evaluate', { n: 1 }, { latest: 'drag' });
  assert.equal(first.reply.request.n, 1);
  assert.equal((await second).reply.request.n, 2);
  engine.close();
});

test('requests with different keys do not supersede each other', async () => {
  const engine = createEngine(partsOf(echo()));
  const results = await Promise.all(['a', 'b'].map((latest) => engine.call('evaluate', { latest }, { latest })));
  assert.deepEqual(results.map((r) => r.reply.request.latest), ['a', 'b']);
  engine.close();
});

test('a long call reports progress and its partial answers', async () => {
  const wasm = echo();
  const engine = createEngine(partsOf(wasm));
  const seen = [];
  const answer = engine.call('long', {}, { background: true, onProgress: (p) => seen.push(p) });
  await turns();
  assert.equal(wasm.long[0].onProgress(1, 4, 'first box', JSON.stringify({ best: 3 })), true);
  await turns();
  wasm.long[0].resolve(ok({ end: true }));
  assert.deepEqual((await answer).reply, { end: true });
  assert.deepEqual(seen, [{ done: 1, of: 4, say: 'first box', soFar: { best: 3 } }]);
  engine.close();
});

test('a cancel rejects at once and tells the long call to stop', async () => {
  const wasm = echo();
  const engine = createEngine(partsOf(wasm));
  const stop = new AbortController();
  const answer = engine.call('long', {}, { signal: stop.signal });
  await turns();
  stop.abort();
  await assert.rejects(answer, kind('cancelled'));
  await turns();
  assert.equal(wasm.long[0].onProgress(2, 4, '', null), false);
  wasm.long[0].resolve({ error: { kind: 'cancelled', say: 'Stopped.' } });
  await turns();
  assert.equal((await engine.call('hello', {})).reply.name, 'hello');
  engine.close();
});

test('a signal that has fired already never reaches the engine', async () => {
  const wasm = echo();
  const engine = createEngine(partsOf(wasm));
  await assert.rejects(engine.call('evaluate', {}, { signal: AbortSignal.abort() }), kind('cancelled'));
  await turns();
  assert.equal(wasm.calls.length, 0);
  engine.close();
});

test('a worker that ignores a cancel is replaced, and what else waited is answered', async () => {
  const wasm = echo();
  const parts = partsOf(wasm);
  const engine = createEngine(parts);
  const stop = new AbortController();
  const stuck = engine.call('long', {}, { signal: stop.signal });
  await turns();
  const after = engine.call('evaluate', { after: true });
  stop.abort();
  await assert.rejects(stuck, kind('cancelled'));
  assert.deepEqual((await after).reply.request, { after: true });
  assert.equal(parts.spawned.length, 2);
  assert.ok(parts.spawned[0].ended);
  engine.close();
});

for (const [what, crash] of [
  ['the program exits', (parts) => parts.exits[0](2)],
  ['the script fails', (parts) => parts.spawned[0].fail('The script failed.')],
]) {
  test(`after a crash (${what}) pending calls reject and a new worker serves the next`, async () => {
    const wasm = echo();
    const parts = partsOf(wasm);
    const engine = createEngine(parts);
    const lost = engine.call('long', {});
    await turns();
    crash(parts);
    await assert.rejects(lost, kind('crashed'));
    assert.equal((await engine.call('hello', {})).reply.name, 'hello');
    assert.deepEqual(parts.states, ['ready', 'crashed', 'ready']);
    assert.ok(parts.spawned[0].ended);
    engine.close();
  });
}

for (const name of ['throw', 'gone']) {
  test(`an export that ends in the middle of a call (${name}) counts as a crash`, async () => {
    const parts = partsOf(echo());
    const engine = createEngine(parts);
    await assert.rejects(engine.call(name, {}), kind('crashed'));
    assert.equal((await engine.call('hello', {})).reply.name, 'hello');
    engine.close();
  });
}

test('an engine of another version is refused with a sentence', async () => {
  const engine = createEngine(partsOf(echo('v2'), 'v1'));
  await assert.rejects(engine.call('hello', {}), (e) => kind('version_mismatch')(e) && e.message.includes('v2'));
  engine.close();
});

test('an engine that does not load says so, and the next call tries again', async () => {
  const parts = partsOf(echo());
  const load = parts.load;
  let failures = 1;
  parts.load = async () => {
    if (failures-- > 0) throw new Error('the server answered 503');
    return load();
  };
  const engine = createEngine(parts);
  await assert.rejects(engine.call('hello', {}), (e) => kind('internal')(e) && e.message.includes('503'));
  assert.equal((await engine.call('hello', {})).reply.name, 'hello');
  engine.close();
});

test('a worker that never comes up is not started again and again', async () => {
  const parts = partsOf(echo());
  const spawn = parts.spawn;
  parts.spawn = async () => {
    const one = await spawn();
    one.port.postMessage = () => {};
    setImmediate(() => one.fail('The script is missing.'));
    return one;
  };
  const engine = createEngine(parts);
  await assert.rejects(engine.call('hello', {}), kind('crashed'));
  await turns(30);
  assert.equal(parts.spawned.length, 1);
  engine.close();
});

test('background work has a worker of its own: the front answers meanwhile', async () => {
  const wasm = echo();
  const parts = partsOf(wasm);
  const engine = createEngine(parts);
  const long = engine.call('long', {}, { background: true });
  await turns();
  assert.equal((await engine.call('evaluate', {})).reply.name, 'evaluate');
  wasm.long[0].resolve(ok({}));
  await long;
  assert.equal(parts.spawned.length, 2);
  engine.close();
});
