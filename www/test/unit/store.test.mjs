import assert from 'node:assert/strict';
import { test } from 'node:test';
import { createStore } from '../../app/store.js';

const job = () => ({ title: 'A', subs: [{ box: { net_l: 30 } }], assumed: ['/subs/0/box/net_l', '/subs/0/box/ql'] });
const NET = '/subs/0/box/net_l';

test('a drag is one step to undo, with the set that ends it', () => {
  const store = createStore(job());
  for (const v of [31, 32, 33]) store.set(NET, v, { drag: true });
  store.set(NET, 34);
  assert.equal(store.job.subs[0].box.net_l, 34);
  store.undo();
  assert.equal(store.job.subs[0].box.net_l, 30);
  assert.equal(store.canUndo, false);
  store.redo();
  assert.equal(store.job.subs[0].box.net_l, 34);
});

test('two drags of one handle are two steps', () => {
  const store = createStore(job());
  store.set(NET, 31, { drag: true });
  store.set(NET, 32);
  store.set(NET, 33, { drag: true });
  store.endDrag();
  store.set(NET, 40, { drag: true });
  store.undo();
  assert.equal(store.job.subs[0].box.net_l, 33);
  store.undo();
  assert.equal(store.job.subs[0].box.net_l, 32);
});

test('a change takes the mark of what was assumed off, and undo brings it back', () => {
  const store = createStore(job());
  store.set(NET, 31);
  assert.deepEqual(store.job.assumed, ['/subs/0/box/ql']);
  store.undo();
  assert.deepEqual(store.job.assumed, job().assumed);
});

test('setting a whole takes the marks of its parts off; assumed values are marked', () => {
  const store = createStore(job());
  store.set('/subs/0/box', { net_l: 20 });
  assert.deepEqual(store.job.assumed, []);
  store.setAll([['/subs/0/box/net_l', 25], ['/title', 'B']], { assumed: true });
  assert.deepEqual(store.job.assumed, ['/subs/0/box/net_l', '/title']);
});

test('several values are one step; a new step forgets what could be redone', () => {
  const store = createStore(job());
  store.setAll([[NET, 25], ['/title', 'B']], { label: 'smaller box' });
  assert.equal(store.undoLabel, 'smaller box');
  store.undo();
  assert.deepEqual(store.job, job());
  assert.equal(store.redoLabel, 'smaller box');
  store.set('/title', 'C');
  assert.equal(store.canRedo, false);
});

test('replacing the job is a step like any other', () => {
  const store = createStore(job());
  store.replace({ title: 'Other', subs: [] }, 'open a file');
  store.undo();
  assert.equal(store.job.title, 'A');
});

test('subscribers are told what changed until their signal ends it', () => {
  const store = createStore(job());
  const end = new AbortController();
  const told = [];
  store.subscribe((now, change) => told.push([now.title, change.kind, change.pointers.join()]), { signal: end.signal });
  store.set('/title', 'B');
  store.undo();
  end.abort();
  store.set('/title', 'C');
  assert.deepEqual(told, [['B', 'set', '/title'], ['A', 'undo', '']]);
});

test('jobs handed out are never changed afterwards', () => {
  const store = createStore(job());
  const before = store.job;
  store.set(NET, 99);
  assert.deepEqual(before, job());
});

test('setting what is there already is no step', () => {
  const store = createStore({ ...job(), assumed: [] });
  let told = 0;
  store.subscribe(() => told++);
  store.set(NET, 30);
  assert.equal(store.canUndo, false);
  assert.equal(told, 0);
});

test('confirming an assumed value is a step: the mark goes', () => {
  const store = createStore(job());
  store.set(NET, 30);
  assert.deepEqual(store.job.assumed, ['/subs/0/box/ql']);
  assert.equal(store.canUndo, true);
});
