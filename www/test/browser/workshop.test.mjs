import assert from 'node:assert/strict';
import { test } from 'node:test';
import { accessible, fits, fresh, open } from './harness.mjs';

/** Opens the sheet of a part. @param {import('playwright-core').Page} page @param {string} part */
async function sheet(page, part) {
  const step = page.locator(`.steps [data-part="${part}"]`);
  if (!(await step.isVisible())) await page.locator(`.part-label[data-part="${part}"]`).click();
  else await step.click();
}

const close = (page) => page.locator('dialog[open]').getByRole('button', { name: /^Close/ }).click();

test('every box type is chosen, drawn, worked out and taken back', async (t) => {
  const { page } = await open(t, 'laptop');
  await sheet(page, 'box');
  const types = await page.getByLabel('Type', { exact: true }).locator('option').allTextContents();
  assert.equal(types.length, 9);
  const seen = new Set();
  for (const label of types) {
    await page.getByLabel('Type', { exact: true }).selectOption({ label });
    await fresh(page);
    assert.ok(await page.locator('.answer .trouble').isHidden(), `${label} is worked out`);
    const picture = page.getByRole('img', { name: /cut open/ });
    assert.match(await picture.getAttribute('aria-label'), new RegExp(label.slice(0, 6)));
    seen.add(await picture.innerHTML());
    if (/line|Passive/.test(label)) await accessible(page);
  }
  assert.equal(seen.size, 9, 'each has a drawing of its own');
  await page.getByLabel('Type', { exact: true }).selectOption({ label: 'Vented' });
  await page.getByRole('button', { name: 'Undo', exact: true }).click();
  assert.equal(await page.getByLabel('Type', { exact: true }).inputValue(), types[types.length - 1]);
});

for (const size of /** @type {const} */ (['phone', 'tablet', 'laptop'])) {
  test(`the designer finds boxes, and one undo takes its touches back, on a ${size}`, async (t) => {
    const { page } = await open(t, size);
    await sheet(page, 'box');
    const before = await page.getByRole('img', { name: /cut open/ }).getAttribute('aria-label');
    await page.getByRole('button', { name: 'Find the best box' }).click();
    const leaf = page.getByRole('dialog', { name: 'Find the best box' });
    await leaf.getByRole('button', { name: 'Find it' }).click();
    await leaf.getByText(/\d found; \d+ boxes were tried/).waitFor();
    assert.ok((await leaf.locator('.design').count()) >= 2);
    await fits(page);
    await accessible(page);
    const slider = leaf.getByRole('slider', { name: /^Air of a/ });
    await slider.focus();
    for (let i = 0; i < 4; i += 1) await page.keyboard.press('ArrowRight');
    await fresh(page);
    const touched = await page.locator('.box-section').getAttribute('aria-label');
    assert.notEqual(touched, before);
    await leaf.getByRole('button', { name: 'Undo' }).click();
    await fresh(page);
    assert.equal(await page.locator('.box-section').getAttribute('aria-label'), before, 'four touches are one step');
    await leaf.getByRole('button', { name: /^Put in / }).first().click();
    await fresh(page);
    assert.notEqual(await page.locator('.box-section').getAttribute('aria-label'), before);
    await page.keyboard.press('Escape');
    assert.ok(await leaf.isHidden(), 'Escape closes it');
  });
}

test('long work can be stopped', async (t) => {
  const { page } = await open(t, 'laptop');
  await sheet(page, 'box');
  await page.getByRole('button', { name: 'Find the best box' }).click();
  const leaf = page.getByRole('dialog', { name: 'Find the best box' });
  await leaf.getByText('Types to try').click();
  for (const box of await leaf.locator('.ticks input').all()) await box.check();
  await leaf.getByRole('button', { name: 'Find it' }).click();
  await leaf.getByRole('button', { name: 'Stop' }).click();
  await leaf.getByText('Stopped.').waitFor();
  assert.ok(await leaf.getByRole('button', { name: 'Find it' }).isEnabled());
});

test('a data sheet is read, nothing is taken unasked, and a contradiction is the reader\u2019s to settle', async (t) => {
  const { page } = await open(t, 'tablet');
  await sheet(page, 'sub');
  await page.getByRole('button', { name: 'Choose, paste or measure a driver' }).click();
  const leaf = page.getByRole('dialog', { name: 'The driver' });
  await accessible(page);
  await leaf.getByRole('button', { name: 'Data sheet' }).click();
  const name = page.locator('.sheet').getByLabel('Name', { exact: true });
  const was = await name.inputValue();
  await leaf.getByLabel('Text of the data sheet').fill('fs 28,5 Hz\nRe 3.4 ohm\nQes 0.50\nQms 5.5\nQts 0.52\nVas 62 litres\nSd 480 cm2\nXmax 12 mm\npower 400 W\n<img src=x onerror=alert(1)> 7');
  await leaf.getByRole('button', { name: 'Read it' }).click();
  await leaf.getByText('These do not agree').waitFor();
  assert.equal(await name.inputValue(), was, 'nothing was taken');
  assert.equal(await leaf.locator('img').count(), 0, 'text stays text');
  assert.match(await leaf.locator('.marked').textContent(), /onerror/);
  await accessible(page);
  await leaf.getByLabel('Which one do you trust?').selectOption({ label: 'Leave out Qts; work it out from the rest' });
  assert.ok(await leaf.getByLabel('Take electrical Q').isChecked());
  assert.ok(!(await leaf.getByLabel('Take total Q').isChecked()));
  await leaf.getByRole('textbox', { name: 'Name', exact: true }).fill('Mine, as pasted');
  await leaf.getByRole('button', { name: /^Use these \d+ values/ }).click();
  await leaf.getByText('Mine, as pasted is in the job').waitFor();
  assert.equal(await name.inputValue(), 'Mine, as pasted');
  await leaf.getByRole('button', { name: 'Shelf' }).click();
  await leaf.getByRole('button', { name: 'Use Mine, as pasted' }).waitFor();
  await close(page);
});

test('an impedance curve gives back the driver that it was made from', async (t) => {
  const { page } = await open(t, 'laptop');
  await sheet(page, 'sub');
  await page.getByRole('button', { name: 'Choose, paste or measure a driver' }).click();
  const leaf = page.getByRole('dialog', { name: 'The driver' });
  await leaf.getByRole('button', { name: 'Measure', exact: true }).click();
  // Z = Re + Res/(1 + j Qms (f/fs - fs/f)), Re 3.5, fs 28, Qms 6, Qes 0.5 (Small 1972); no coil.
  const lines = [];
  for (let f = 8; f < 220; f *= 1.04) {
    const x = 6 * (f / 28 - 28 / f);
    lines.push(`${f.toFixed(3)}\t${Math.hypot(3.5 + 42 / (1 + x * x), 42 * x / (1 + x * x)).toFixed(4)}`);
  }
  await leaf.getByLabel('Impedance curve').fill(lines.join('\n'));
  await leaf.getByRole('button', { name: 'Fit the curve' }).click();
  const value = async (row) => Number.parseFloat(await leaf.getByRole('row', { name: row }).getByRole('cell').textContent());
  await leaf.getByRole('row', { name: /^fs,/ }).waitFor();
  assert.ok(Math.abs((await value(/^fs,/)) - 28) < 0.05);
  assert.ok(Math.abs((await value(/^Qms,/)) - 6) < 0.05);
  assert.ok(Math.abs((await value(/^Qes,/)) - 0.5) < 0.005);
  await accessible(page);
});

test('wiring is picked by touch, and what is too low is said so', async (t) => {
  const { page } = await open(t, 'phone');
  await sheet(page, 'sub');
  await page.getByRole('button', { name: 'Wiring and its load' }).click();
  const leaf = page.getByRole('dialog', { name: 'The driver' });
  await leaf.getByLabel('Drivers in the box').fill('2');
  await page.keyboard.press('Tab');
  const series = leaf.getByRole('button', { name: /drivers in series/ });
  await series.click();
  await leaf.locator('.wiring[aria-pressed="true"]').getByText('drivers in series').waitFor();
  await accessible(page);
  await fits(page);
});

test('cones in pairs take the air between them, stated or worked out', async (t) => {
  const { page } = await open(t, 'tablet');
  await sheet(page, 'sub');
  await page.getByRole('button', { name: 'Wiring and its load' }).click();
  await page.getByRole('dialog', { name: 'The driver' }).getByLabel('Drivers in the box').fill('2');
  await page.keyboard.press('Tab');
  await page.keyboard.press('Escape');
  await sheet(page, 'box');
  await page.getByText('Losses', { exact: true }).click();
  const between = page.getByLabel('Air between the cones of a pair');
  assert.ok(await between.isHidden(), 'not asked of single cones');
  await page.getByRole('radiogroup', { name: 'Cones in pairs' }).getByLabel('On').check();
  await between.fill('7');
  await page.keyboard.press('Tab');
  await fresh(page);
  assert.ok(await page.locator('.answer .trouble').isHidden());
  await between.fill('900');
  await page.keyboard.press('Tab');
  await page.getByText(/pair must be from .* to 200\sl/).waitFor();
  await between.fill('');
  await page.keyboard.press('Tab');
  await fresh(page);
  assert.equal(await between.inputValue(), '');
  await accessible(page);
});

test('versions are pinned, compared and brought back', async (t) => {
  const { page } = await open(t, 'laptop');
  await sheet(page, 'box');
  await page.getByRole('button', { name: 'Compare' }).click();
  const leaf = page.getByRole('dialog', { name: 'Compare' });
  await leaf.getByRole('button', { name: 'Pin this version' }).click();
  await leaf.getByText('Pinned as Version 1').waitFor();
  await close(page);
  const net = page.locator('.sheet').getByRole('textbox', { name: /^Net volume/ });
  const was = await net.inputValue();
  await net.fill('48');
  await net.blur();
  await fresh(page);
  await page.getByRole('button', { name: 'Compare' }).click();
  await leaf.getByRole('columnheader', { name: 'Now' }).waitFor();
  assert.ok((await leaf.locator('.differs li').count()) > 0);
  await accessible(page);
  await leaf.getByRole('button', { name: 'Go back to Version 1' }).click();
  await close(page);
  await fresh(page);
  assert.equal(await net.inputValue(), was);
});

test('sub and doors are joined, and what to do about a limit is done', async (t) => {
  const { page } = await open(t, 'laptop');
  await page.getByText('What to do about it').click();
  const remedy = page.locator('.remedy').first();
  await remedy.waitFor();
  await accessible(page);
  await remedy.click();
  await fresh(page);
  await page.getByRole('button', { name: 'Undo', exact: true }).click();
  await page.getByText('What to do about it').click();
  await sheet(page, 'amplifier');
  await page.getByRole('button', { name: 'Join sub and doors' }).click();
  const leaf = page.getByRole('dialog', { name: 'Join sub and doors' });
  await leaf.getByRole('button', { name: 'Join them' }).click();
  await leaf.getByRole('row', { name: /^Strays from the target/ }).waitFor();
  const cells = await leaf.getByRole('row', { name: /^Strays from the target/ }).getByRole('cell').allTextContents();
  assert.ok(Number.parseFloat(cells[1]) < Number.parseFloat(cells[0]), cells.join(' then '));
  await leaf.getByRole('button', { name: 'Use these settings' }).click();
  await leaf.getByText('The settings are in').waitFor();
  await fresh(page);
  await leaf.getByText('Equaliser', { exact: true }).click();
  await leaf.getByRole('button', { name: 'Propose cuts' }).click();
  await leaf.locator('.join-why').nth(1).filter({ hasText: /\S/ }).waitFor();
  await accessible(page);
});

test('the shelf keeps the reader\u2019s drivers on this machine, and hands them out as a table', async (t) => {
  const { page } = await open(t, 'laptop');
  const shelf = async () => {
    await sheet(page, 'sub');
    await page.getByRole('button', { name: 'Choose, paste or measure a driver' }).click();
    return page.getByRole('dialog', { name: 'The driver' });
  };
  let leaf = await shelf();
  await leaf.getByRole('button', { name: 'Add one by hand' }).click();
  for (const [name, value] of [['Name', 'My 12'], [/^fs,/, '29'], [/^Re,/, '3.4'], ['Qes', '0,52'], ['Qms', '5'], [/^Vas/, '55'], [/^Sd/, '480'], ['Price', '149.5']]) {
    await leaf.getByRole('textbox', { name, exact: true }).fill(value);
  }
  await leaf.getByRole('button', { name: 'Keep', exact: true }).click();
  await leaf.getByText('My 12 is kept on this machine').waitFor();
  const [file] = await Promise.all([page.waitForEvent('download'), leaf.getByRole('button', { name: 'Save yours as CSV' }).click()]);
  const text = await new Response(await file.createReadStream()).text();
  assert.match(text, /My 12/);
  assert.match(text, /149\.5/);
  assert.match(text.split('\n')[0], /price/i);
  await page.reload();
  await fresh(page);
  leaf = await shelf();
  const own = leaf.getByRole('listitem').filter({ hasText: 'My 12' });
  await own.waitFor();
  const [chooser] = await Promise.all([page.waitForEvent('filechooser'), leaf.getByRole('button', { name: 'Open a CSV file' }).click()]);
  await chooser.setFiles({ name: 'mine.csv', mimeType: 'text/csv', buffer: Buffer.from(text.replaceAll('My 12', 'My other 12')) });
  await leaf.getByText('1 read from the file').waitFor();
  await leaf.getByRole('button', { name: 'Use My other 12' }).click();
  await leaf.getByText('My other 12 is in the job').waitFor();
  await leaf.getByRole('button', { name: 'Take My 12 off the shelf' }).click();
  assert.equal(await own.count(), 0);
});
