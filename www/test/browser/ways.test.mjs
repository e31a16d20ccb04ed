import assert from 'node:assert/strict';
import { test } from 'node:test';
import { accessible, fits, fresh, open, sizes } from './harness.mjs';

/** The heading of the screen that is open. @param {import('playwright-core').Page} page */
const heading = (page) => page.getByRole('main').getByRole('heading', { level: 1 });

/** Waits until a screen's heading says something. @param {import('playwright-core').Page} page @param {RegExp|string} text */
const arrived = (page, text) => heading(page).filter({ hasText: text }).waitFor();

/** Opens "Which sub?" at a question. */
async function question(t, size, step, title) {
  const opened = await open(t, size, { path: `#/which/${step}` });
  await arrived(opened.page, title);
  return opened;
}

const QUESTIONS = /** @type {const} */ ([['car', 'What car'], ['boot', 'How much of the'], ['music', 'What do you listen'], ['loud', 'How loud']]);

for (const size of /** @type {(keyof typeof sizes)[]} */ (Object.keys(sizes))) {
  test(`on a ${size} every question fits and is accessible`, async (t) => {
    const { page } = await question(t, size, 'car', 'What car');
    for (const [step, title] of QUESTIONS) {
      await page.evaluate((to) => { location.hash = to; }, `#/which/${step}`);
      await arrived(page, title);
      await fits(page);
      await accessible(page);
    }
  });

  test(`on a ${size} the quick answer is there without scrolling and is accessible`, async (t) => {
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

test('each question can be skipped and says what is then taken; the answer says it again', async (t) => {
  const { page } = await question(t, 'phone', '', 'What car');
  const taken = [/a hatch/, /30 %/, /Pop and rock/, /Properly loud/];
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
  await page.getByRole('alert').filter({ hasText: /1000/ }).waitFor();
});

test('a fragment that is no place of ours leaves the page where it is', async (t) => {
  const { page } = await open(t, 'laptop', { path: '#j=unknown' });
  assert.equal(await page.locator('html').getAttribute('data-way'), 'job');
  await page.evaluate(() => { location.hash = '#/quick'; });
  await arrived(page, /./);
  await page.evaluate(() => { location.hash = '#answer'; });
  assert.equal(await page.locator('html').getAttribute('data-way'), 'quick');
});
