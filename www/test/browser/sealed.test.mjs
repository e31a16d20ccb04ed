import assert from 'node:assert/strict';
import { test } from 'node:test';
import { open } from './harness.mjs';

test('nothing is asked of anywhere else, and nothing could be', async (t) => {
  const { page, elsewhere } = await open(t, 'laptop', { expected: /Content Security Policy/ });
  assert.deepEqual(elsewhere, []);
  const outcome = await page.evaluate(async () => {
    const tried = {};
    const refused = (/** @type {string} */ name, /** @type {() => Promise<any>} */ act) =>
      act().then(
        () => void (tried[name] = 'let through'),
        () => void (tried[name] = 'refused'),
      );
    await refused('fetch', () => fetch('http://localhost:9/'));
    await refused('beacon', async () => {
      const violated = new Promise((resolve) => document.addEventListener('securitypolicyviolation', resolve, { once: true }));
      navigator.sendBeacon('http://localhost:9/', 'x');
      await violated;
      throw new Error('refused');
    });
    await refused('image', () => {
      const image = new Image();
      image.src = 'http://localhost:9/x.png';
      return image.decode();
    });
    await refused('script', () => import('data:text/javascript,export default 1'));
    await refused('eval', async () => (0, eval)('1'));
    return tried;
  });
  assert.deepEqual(outcome, { fetch: 'refused', beacon: 'refused', image: 'refused', script: 'refused', eval: 'refused' });
});

test('the worker may not fetch either', async (t) => {
  const { page } = await open(t, 'laptop', { expected: /Content Security Policy/ });
  const [worker] = page.workers();
  const outcome = await worker.evaluate(() => fetch('http://localhost:9/').then(() => 'let through', () => 'refused'));
  assert.equal(outcome, 'refused');
});
