import assert from 'node:assert/strict';
import { test } from 'node:test';
import { fileName, readJob, readText } from '../../app/files.js';

test('a title becomes a name that every file system takes', () => {
  assert.equal(fileName('Estate, two 10s / sealed', 'json'), 'Estate-two-10s-sealed.json');
  assert.equal(fileName('../../etc/passwd', 'json'), 'etc-passwd.json');
  assert.equal(fileName('Grüße <b>', 'csv'), 'Grüße-b.csv');
  assert.equal(fileName('***', 'json'), 'job.json');
  assert.ok(fileName('x'.repeat(500), 'json').length <= 65);
});

test('what is not text or far too big is refused with a sentence', async () => {
  await assert.rejects(readText(new Blob([Uint8Array.of(0xff, 0xfe, 0xff)])), /not text/);
  await assert.rejects(readText(new Blob(['x'.repeat(2_000_001)])), /too big/);
  assert.equal(await readText(new Blob(['{"a":"ä"}'])), '{"a":"ä"}');
});

test("the engine's sentence about a bad file reaches the reader", async () => {
  const engine = { call: async () => ({ reply: { job: null, findings: [{ at: '', level: 'error', say: 'Not a job.' }] } }) };
  await assert.rejects(readJob(engine, '{}'), /^FileError: Not a job\.$/);
});

test('a good file brings the job, its findings and what it was migrated from', async () => {
  const engine = { call: async (name, request) => ({ reply: { job: { title: request.text }, findings: [], migrated_from: 0 } }) };
  assert.deepEqual(await readJob(engine, 'T'), { job: { title: 'T' }, findings: [], migratedFrom: undefined });
});
