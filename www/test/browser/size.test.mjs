import assert from 'node:assert/strict';
import path from 'node:path';
import { test } from 'node:test';
import { MOST_BYTES, totalOf } from '../bench/sizes.mjs';
import { root } from './harness.mjs';

test('everything the page downloads stays within its budget', () => {
  const total = totalOf(path.join(root, 'dist'));
  assert.ok(total > 100_000, 'the page is built');
  assert.ok(total <= MOST_BYTES, `${total} bytes gzipped, at most ${MOST_BYTES}`);
});
