import assert from 'node:assert/strict';
import { test } from 'node:test';
import { accessible, fits, fresh, open, sizes } from './harness.mjs';
import { arrived, question, QUESTIONS } from './ways.mjs';

for (const size of /** @type {(keyof typeof sizes)[]} */ (Object.keys(sizes))) {
  test(`on a ${size} every question fits and can be used by all`, async (t) => {
    const { page } = await question(t, size, 'car', 'What car');
    for (const [step, title] of QUESTIONS) {
      await page.evaluate((to) => { location.hash = to; }, `#/which/${step}`);
      await arrived(page, title);
      await fits(page);
      if (size !== 'tablet') await accessible(page);
    }
  });

  test(`on a ${size} the quick answer is there without scrolling and can be used by all`, async (t) => {
    const { page } = await open(t, size, { path: '#/quick' });
    await arrived(page, /Hz/);
    for (const name of ['Box', 'Load', 'Boot']) {
      const box = await page.locator('.quick-lines dt', { hasText: name }).boundingBox();
      assert.ok(box && box.y + box.height <= sizes[size].height, `${name} stands below the window`);
    }
    await fits(page);
    await accessible(page);
  });
}

test('a first visit opens the demo job and offers the three ways plainly; a later one names them', async (t) => {
  const { page, context, base } = await open(t, 'phone');
  const ways = page.getByRole('navigation', { name: 'Ways in' }).getByRole('link');
  assert.equal(await ways.count(), 3);
  assert.match(await ways.first().innerText(), /Which sub\?\n.*my car/);
  assert.equal(await ways.nth(2).getAttribute('aria-current'), 'page');
  await page.locator('.quick input[type="range"]').first().focus();
  await page.keyboard.press('ArrowRight');
  await fresh(page);
  await page.waitForTimeout(700);
  const later = await context.newPage();
  await later.goto(base);
  await fresh(later);
  assert.equal(await later.getByRole('navigation', { name: 'Ways in' }).getByText('Which sub?').innerText(), 'Which sub?');
  assert.equal(await later.getByText('my car, not the rest').isVisible(), false);
});

test('a fragment that is no place of ours leaves the page where it is', async (t) => {
  const { page } = await open(t, 'laptop', { path: '#j=unknown' });
  assert.equal(await page.locator('html').getAttribute('data-way'), 'job');
  await page.evaluate(() => { location.hash = '#/quick'; });
  await arrived(page, /./);
  await page.evaluate(() => { location.hash = '#answer'; });
  assert.equal(await page.locator('html').getAttribute('data-way'), 'quick');
});
