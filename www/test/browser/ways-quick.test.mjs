import assert from 'node:assert/strict';
import { test } from 'node:test';
import { fresh, open } from './harness.mjs';
import { heading } from './ways.mjs';

test('a typed line is understood, corrected by touch, and agrees with the full job', async (t) => {
  const { page } = await open(t, 'phone', { path: '#/quick' });
  const line = page.getByRole('textbox', { name: 'Type it as you would say it' });
  await line.fill('12 sealed 40 l 600 w estate purple');
  const chips = page.getByRole('list', { name: 'Understood' });
  await chips.getByText('purple?').waitFor();
  for (const words of [/12-inch/, /40 litres/, /600 W/, /estate/]) assert.match(await chips.innerText(), words);
  await page.getByRole('button', { name: '“purple” was not understood. Take it out' }).click();
  assert.equal(await line.inputValue(), '12 sealed 40 l 600 w estate');
  await page.locator('.quick-type').getByRole('radio', { name: 'Sealed' }).and(page.locator(':checked')).waitFor({ state: 'attached' });
  await page.getByRole('radio', { name: '10-inch' }).check();
  assert.equal(await line.inputValue(), 'sealed 40 l 600 w estate');
  await page.waitForFunction(() => !document.querySelector('.asking') && !document.querySelector('.chips')?.textContent?.includes('inch'));
  await page.waitForTimeout(500);
  const [said, why] = [await heading(page).innerText(), await page.locator('.quick-answer .because').innerText()];
  await page.getByRole('button', { name: 'Open as a full job' }).click();
  await page.waitForFunction(() => document.documentElement.dataset.way === 'job');
  await fresh(page);
  assert.equal(await heading(page).innerText(), said);
  assert.equal(await page.locator('#answer .because').innerText(), why);
  // The job that was open is a step back.
  await page.getByRole('button', { name: 'Undo', exact: true }).click();
  await fresh(page);
  assert.match(await page.locator('#job-name').inputValue(), /Demo/);
});

test('what is typed is shown as text, and what cannot be is said', async (t) => {
  const { page } = await open(t, 'phone', { path: '#/quick' });
  const line = page.getByRole('textbox', { name: 'Type it as you would say it' });
  await line.fill('<img src=x onerror=alert(1)> 10');
  await page.getByRole('list', { name: 'Understood' }).getByText('10-inch').waitFor();
  assert.equal(await page.locator('.way-quick img').count(), 0);
  await line.fill('10 sealed 5000 l hatch');
  await page.getByText('A box holds between 1 and 1000 litres.').waitFor();
});
