import assert from 'node:assert/strict';
import { test } from 'node:test';
import { getAt, pointerOf, setAt, within } from '../../app/pointer.js';

// RFC 6901, section 5: the document and what each pointer finds in it.
const rfc = { foo: ['bar', 'baz'], '': 0, 'a/b': 1, 'c%d': 2, 'e^f': 3, 'g|h': 4, 'i\\j': 5, 'k"l': 6, ' ': 7, 'm~n': 8 };
const found = [
  ['/foo', ['bar', 'baz']],
  ['/foo/0', 'bar'],
  ['/', 0],
  ['/a~1b', 1],
  ['/c%d', 2],
  ['/e^f', 3],
  ['/g|h', 4],
  ['/i\\j', 5],
  ['/k"l', 6],
  ['/ ', 7],
  ['/m~0n', 8],
];

test('finds what RFC 6901 says each pointer finds', () => {
  assert.equal(getAt(rfc, ''), rfc);
  for (const [pointer, value] of found) assert.deepEqual(getAt(rfc, pointer), value, pointer);
});

test('pointerOf escapes what getAt reads back', () => {
  const key = '~1/~0';
  assert.equal(getAt({ [key]: { x: 4 } }, pointerOf(key, 'x')), 4);
});

test('setAt shares all that lies beside the way', () => {
  const before = { a: { b: 1 }, c: { d: [1, 2, 3] } };
  const after = setAt(before, '/c/d/1', 9);
  assert.deepEqual(after, { a: { b: 1 }, c: { d: [1, 9, 3] } });
  assert.deepEqual(before.c.d, [1, 2, 3]);
  assert.equal(after.a, before.a);
});

test('setAt removes, adds and makes the way', () => {
  assert.deepEqual(setAt({ a: 1, b: 2 }, '/a', undefined), { b: 2 });
  assert.deepEqual(setAt([1, 2, 3], '/1', undefined), [1, 3]);
  assert.deepEqual(setAt([1], '/-', 2), [1, 2]);
  assert.deepEqual(setAt({}, '/port/length_mm', 120), { port: { length_mm: 120 } });
});

test('what is no pointer, no element or a trap is refused', () => {
  assert.throws(() => setAt({}, 'a', 1), TypeError);
  assert.throws(() => setAt([1], '/7', 1), RangeError);
  assert.throws(() => setAt({}, '/__proto__/polluted', 1), TypeError);
  assert.equal(getAt({}, '/constructor'), undefined);
});

test('within takes whole steps', () => {
  assert.ok(within('/car/cabin/length_mm', '/car/cabin'));
  assert.ok(!within('/car/cabinet', '/car/cabin'));
});
