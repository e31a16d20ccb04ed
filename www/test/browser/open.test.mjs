import assert from 'node:assert/strict';
import { test } from 'node:test';
import { accessible, fits, fresh, netVolume, open, sizes } from './harness.mjs';

for (const size of /** @type {(keyof typeof sizes)[]} */ (Object.keys(sizes))) {
  test(`on a ${size} the demo job opens with its answer, fits and is accessible`, async (t) => {
    const { page } = await open(t, size);
    assert.match(await page.title(), /Bootfloor/);
    assert.match(await page.getByRole('main').innerText(), /\d+ Hz/);
    await fits(page);
    await accessible(page);
  });

  test(`on a ${size} the box volume is dragged, undone and done again`, async (t) => {
    const { page } = await open(t, size);
    const net = await netVolume(page);
    const before = await net.inputValue();
    await net.focus();
    for (let i = 0; i < 3; i++) await page.keyboard.press('PageUp');
    await fresh(page);
    const after = await net.inputValue();
    assert.notEqual(after, before);
    await page.getByRole('button', { name: 'Undo', exact: true }).click();
    await fresh(page);
    assert.notEqual(await net.inputValue(), after);
    await page.getByRole('button', { name: 'Redo', exact: true }).click();
    await fresh(page);
    assert.equal(await net.inputValue(), after);
  });
}

test('every press of an arrow key moves the box volume', async (t) => {
  const { page } = await open(t, 'laptop');
  const net = await netVolume(page);
  await net.focus();
  for (let i = 0; i < 5; i++) {
    const before = await net.inputValue();
    await page.keyboard.press('ArrowRight');
    await fresh(page);
    assert.notEqual(await net.inputValue(), before);
  }
});

test('closing the page loses nothing: the job is there on the next visit', async (t) => {
  const { page, context } = await open(t, 'phone');
  const net = await netVolume(page);
  await net.focus();
  await page.keyboard.press('End');
  await fresh(page);
  const value = await net.inputValue();
  await page.waitForTimeout(700);
  await page.close();
  const again = await context.newPage();
  await again.goto(page.url());
  await fresh(again);
  assert.equal(await (await netVolume(again)).inputValue(), value);
});

test('Firefox opens the demo job and follows the box volume', async (t) => {
  const { page } = await open(t, 'laptop', { engine: 'firefox' });
  const net = await netVolume(page);
  const before = await page.getByRole('main').innerText();
  await net.focus();
  await page.keyboard.press('End');
  await fresh(page);
  await page.waitForFunction((old) => document.querySelector('main:not([hidden])')?.innerText !== old, before);
  await fits(page);
});
