import assert from 'node:assert/strict';
import { test } from 'node:test';
import { fresh, netVolume, open } from './harness.mjs';

test('a worker that dies is started again and the job is intact', async (t) => {
  const { page } = await open(t, 'laptop', { expected: /thrown by the test/ });
  const net = await netVolume(page);
  await net.focus();
  await page.keyboard.press('PageUp');
  await fresh(page);
  const value = await net.inputValue();

  const next = page.waitForEvent('worker');
  await page.workers()[0].evaluate(() => {
    setTimeout(() => {
      throw new Error('thrown by the test');
    });
  });
  await next;

  assert.equal(await net.inputValue(), value);
  await page.keyboard.press('PageUp');
  await fresh(page);
  assert.notEqual(await net.inputValue(), value);
});
