import assert from 'node:assert/strict';
import { test } from 'node:test';
import { accessible, fresh, open } from './harness.mjs';

test('a second sub is added, chosen, taken away and brought back', async (t) => {
  const { page } = await open(t, 'laptop');
  const level = async () => Number(/(\d+) dB/.exec(await page.locator('.because').innerText())?.[1]);
  const one = await level();
  await page.getByRole('button', { name: 'Add another sub' }).click();
  await fresh(page);
  // Two alike on one spot play 6 dB more, less what they take from each other.
  const two = await level();
  assert.ok(two >= one + 4 && two <= one + 7, `${one} dB, then ${two}`);
  await page.getByText('Sub 2 stands where sub 1 does; move one of them.').first().waitFor();
  await accessible(page);
  await page.getByRole('button', { name: 'Take this one away' }).click();
  await fresh(page);
  assert.equal(await level(), one);
  await page.getByRole('button', { name: 'Undo', exact: true }).click();
  await fresh(page);
  assert.equal(await page.getByRole('button', { name: /^Sub \d$/ }).count(), 2);
});
