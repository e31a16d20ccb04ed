import assert from 'node:assert/strict';
import { test } from 'node:test';
import { autosave, keepJob, keptJobs, lastJob } from '../../app/autosave.js';
import { openStorage, StorageError } from '../../app/storage.js';
import { createStore } from '../../app/store.js';

/** What a browser's localStorage does, with room for so many characters. */
function local(room = 1e6) {
  const kept = new Map();
  return {
    get length() {
      return kept.size;
    },
    key: (i) => [...kept.keys()][i] ?? null,
    getItem: (key) => kept.get(key) ?? null,
    removeItem: (key) => void kept.delete(key),
    setItem(key, value) {
      const used = [...kept].reduce((n, [k, v]) => n + (k === key ? 0 : k.length + v.length), 0);
      if (used + key.length + value.length > room) throw new DOMException('full', 'QuotaExceededError');
      kept.set(key, value);
    },
  };
}

const refusing = {
  open() {
    throw new DOMException('denied', 'SecurityError');
  },
};

test('falls back from a refused database to localStorage, and then to memory', async () => {
  assert.equal((await openStorage({ indexedDB: refusing, localStorage: local() })).kind, 'localstorage');
  assert.equal((await openStorage({ indexedDB: refusing, localStorage: local(3) })).kind, 'memory');
  assert.equal((await openStorage({})).kind, 'memory');
});

for (const [name, from] of [['localstorage', () => ({ localStorage: local() })], ['memory', () => ({})]]) {
  test(`${name} keeps, lists in order and forgets`, async () => {
    const storage = await openStorage(from());
    assert.equal(storage.kind, name);
    await storage.put('job/b', { n: 2 });
    await storage.put('job/a', { n: 1 });
    await storage.put('other', 3);
    assert.deepEqual(await storage.list('job/'), [['job/a', { n: 1 }], ['job/b', { n: 2 }]]);
    await storage.remove('job/a');
    assert.equal(await storage.get('job/a'), undefined);
  });
}

test('a full storage is said, the job is not lost, and it is kept once there is room', async () => {
  const storage = await openStorage({ localStorage: local(700) });
  await storage.put('job/old', { filler: 'x'.repeat(400) });
  const store = createStore({ title: 'A' });
  const states = [];
  const saver = autosave(store, storage, 'one', (state) => states.push(state));
  store.set('/title', 'B'.repeat(150));
  await saver.flush();
  assert.equal(states.at(-1).kind, 'refused');
  assert.match(states.at(-1).say, /no room.*file/i);
  await storage.remove('job/old');
  await saver.flush();
  assert.equal(states.at(-1).kind, 'saved');
  assert.equal((await lastJob(storage)).job.title, 'B'.repeat(150));
  saver.stop();
});

test('a refusal is a StorageError with a sentence', async () => {
  const storage = await openStorage({ localStorage: local(60) });
  await assert.rejects(storage.put('k', 'x'.repeat(100)), (e) => e instanceof StorageError && e.message.endsWith('.'));
});

test('the job is kept by itself a moment after a change', async () => {
  const storage = await openStorage({});
  const store = createStore({ title: 'A' });
  const saver = autosave(store, storage, 'one', () => {});
  store.set('/title', 'B');
  await new Promise((resolve) => setTimeout(resolve, 600));
  assert.equal((await lastJob(storage)).job.title, 'B');
  saver.stop();
});

test('two open pages never write over each other', async () => {
  const storage = await openStorage({});
  await keepJob(storage, { id: 'one', title: 'A', saved: 5, writer: 'earlier', job: { title: 'A' } });
  const stores = [createStore({ title: 'A' }), createStore({ title: 'A' })];
  const states = [[], []];
  const savers = stores.map((store, i) => autosave(store, storage, 'one', (state) => states[i].push(state.kind)));
  stores[0].set('/title', 'from the first');
  await savers[0].flush();
  stores[1].set('/title', 'from the second');
  await savers[1].flush();
  const titles = (await keptJobs(storage)).map((kept) => kept.title).sort();
  assert.deepEqual(titles, ['from the first', 'from the second']);
  assert.ok(states[1].includes('copied') && !states[0].includes('copied'));
  assert.notEqual(savers[1].id, 'one');
  for (const saver of savers) saver.stop();
});
