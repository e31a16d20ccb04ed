import assert from 'node:assert/strict';
import { test } from 'node:test';
import { accessible, fits, fresh } from './harness.mjs';
import { arrived, question, QUESTIONS } from './ways.mjs';

test('each question can be skipped and says what is then taken; the answer says it again', async (t) => {
  const { page } = await question(t, 'phone', '', 'What car');
  const taken = [/a hatch/, /30 %/, /Pop and rock/, /Properly loud/, /any price/];
  for (const [i, words] of taken.entries()) {
    await arrived(page, QUESTIONS[i]?.[1] ?? '');
    assert.match(await page.locator('.if-skipped').innerText(), words);
    await page.getByRole('button', { name: /^Skip/ }).click();
  }
  await page.locator('article').first().waitFor();
  await page.getByText(/^Assumed, since nobody said/).click();
  const said = await page.locator('.assumed-list').first().innerText();
  for (const words of [/hatchback/, /30 %/, /Pop and rock/, /Properly loud/]) assert.match(said, words);
  await page.getByRole('button', { name: 'Stop' }).click();
});

test('answers are kept: over the back button, another way in and the next visit', async (t) => {
  const { page } = await question(t, 'phone', '', 'What car');
  await page.getByRole('radio', { name: 'Estate' }).check();
  await page.getByRole('button', { name: 'Next' }).click();
  await arrived(page, 'How much');
  await page.goBack();
  await arrived(page, 'What car');
  assert.equal(await page.getByRole('radio', { name: 'Estate' }).isChecked(), true);
  await page.getByRole('link', { name: /Full job/ }).click();
  await page.reload();
  await fresh(page);
  await page.getByRole('link', { name: /Which sub/ }).click();
  await arrived(page, 'What car');
  assert.equal(await page.getByRole('radio', { name: 'Estate' }).isChecked(), true);
  await page.getByRole('button', { name: 'Not sure' }).click();
  assert.match(await page.locator('.if-skipped').innerText(), /a hatch/);
});

test('the part of the boot that may go is dragged, typed and stepped', async (t) => {
  const { page } = await question(t, 'phone', 'boot', 'How much');
  const length = page.getByRole('textbox', { name: 'Length that may go' });
  const height = page.getByRole('textbox', { name: 'Height that may go' });
  const boot = await page.locator('.boot-touch').boundingBox();
  assert.ok(boot);
  await page.mouse.move(boot.x + boot.width * 0.4, boot.y + boot.height * 0.8);
  await page.mouse.down();
  await page.mouse.move(boot.x + boot.width * 0.75, boot.y + boot.height * 0.5, { steps: 6 });
  await page.mouse.up();
  const [far, high] = [Number(await length.inputValue()), Number(await height.inputValue())];
  // The hatch's boot is 730 mm long and 500 mm high; a finger is not finer than 20 mm here.
  assert.ok(Math.abs(far - 0.75 * 730) < 20, `${far} mm`);
  assert.ok(Math.abs(high - 250) < 20, `${high} mm`);
  await length.fill('40 cm');
  await length.press('Enter');
  await height.focus();
  assert.equal(await length.inputValue(), '400');
  await height.press('ArrowUp');
  assert.equal(Number(await height.inputValue()), high + 10);
  await page.getByRole('button', { name: 'All of it' }).click();
  assert.equal(await length.inputValue(), '730');
  await page.getByRole('radio', { name: 'Left side' }).check();
  assert.match(await page.locator('.boot-says').innerText(), /^Up to 157 of 314 litres/);
});

test('a tape out of reason is refused at its field', async (t) => {
  const { page } = await question(t, 'phone', '', 'What car');
  await page.getByText('I have a tape measure').click();
  const length = page.getByRole('textbox', { name: 'Length' });
  await length.fill('90');
  await length.press('Tab');
  assert.match(await page.locator('.tape-note.wrong').innerText(), /^Length must be from 1370 to 4932 mm/);
  await length.fill('2.9 m');
  await length.press('Tab');
  assert.equal(await page.locator('.tape-note.wrong').count(), 0);
  assert.equal(await length.inputValue(), '2900');
});

test('choices come soon, follow what matters, and one is taken into the full job', async (t) => {
  const { page } = await question(t, 'phone', '', 'What car');
  await page.getByRole('radio', { name: 'Saloon' }).check();
  await page.evaluate(() => { location.hash = '#/which/music'; });
  await arrived(page, 'What do you');
  await page.getByRole('checkbox', { name: /^Metal/ }).check();
  await page.evaluate(() => { location.hash = '#/which/choices'; });
  const choices = page.getByRole('article');
  await choices.nth(1).waitFor();
  await accessible(page);
  await page.getByRole('button', { name: 'Stop' }).click();
  await arrived(page, /choice/);
  const titles = () => choices.getByRole('heading').allInnerTexts();
  const litres = async () => Number(/(\d+) litres/.exec(await choices.first().locator('dd').first().innerText())?.[1]);
  await page.getByRole('slider', { name: 'Louder' }).focus();
  await page.keyboard.press('End');
  const [loud, left] = [await titles(), await litres()];
  await page.getByRole('slider', { name: 'Smaller' }).focus();
  await page.keyboard.press('End');
  assert.deepEqual((await titles()).toSorted(), loud.toSorted());
  assert.ok((await litres()) >= left, 'the smallest leaves no less of the boot than the loudest');
  await fits(page);

  const title = (await titles())[0] ?? '';
  await page.getByRole('button', { name: /^Take this into a full job/ }).first().click();
  await page.waitForFunction(() => document.documentElement.dataset.way === 'job');
  await fresh(page);
  assert.equal(await page.locator('#job-name').inputValue(), title);
  await page.goBack();
  await choices.first().waitFor();
  assert.equal((await titles())[0], title);
});
