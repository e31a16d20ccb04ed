import assert from 'node:assert/strict';
import fs from 'node:fs';
import path from 'node:path';
import { test } from 'node:test';
import { root } from './harness.mjs';

const read = (/** @type {string} */ file) => fs.readFileSync(path.join(root, file));
const { unpackEngine } = new Function(`${read('www/worker/unpack.js')}; return { unpackEngine };`)();

test('the engine that is served is the one that was linked, byte for byte', async () => {
  const [linked] = fs.readdirSync(path.join(root, 'build')).filter((name) => /^engine-.*\.wasm$/.test(name));
  assert.ok(linked, 'build/ holds no linked engine');
  const packed = read('dist/worker/engine.bin');
  const program = await unpackEngine(packed.buffer.slice(packed.byteOffset, packed.byteOffset + packed.length));
  assert.equal(Buffer.compare(Buffer.from(program), read(`build/${linked}`)), 0);
  assert.ok(packed.length < program.length / 6, `${packed.length} of ${program.length} bytes`);
});
