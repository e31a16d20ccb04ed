import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import path from 'node:path';
import { test } from 'node:test';
import { accessible, fits, fresh, netVolume, open, scratch } from './harness.mjs';

/** @param {import('playwright-core').Page} page @param {string} item */
async function jobMenu(page, item) {
  await page.locator('summary', { hasText: /^Job$/ }).click();
  await page.getByRole('button', { name: item }).click();
}

test('a job travels in a link and never writes over the reader’s own', async (t) => {
  const { page, context } = await open(t, 'laptop');
  const net = await netVolume(page);
  await net.focus();
  await page.keyboard.press('PageUp');
  await fresh(page);
  const sent = await net.inputValue();
  await jobMenu(page, 'Share as a link…');
  const link = await page.getByRole('textbox', { name: 'Link' }).inputValue();
  assert.ok(link.length < 2000, `${link.length} characters`);
  await accessible(page);

  // Another reader, with a job of their own.
  const reader = await context.browser().newContext({ viewport: { width: 1440, height: 900 }, locale: 'en-GB', reducedMotion: 'reduce' });
  t.after(() => reader.close());
  const theirs = await reader.newPage();
  await theirs.goto(page.url().replace(/#.*/, ''));
  await fresh(theirs);
  const own = await netVolume(theirs);
  await own.focus();
  await theirs.keyboard.press('End');
  await fresh(theirs);
  const kept = await own.inputValue();
  const answer = await theirs.locator('.because').innerText();
  await theirs.waitForTimeout(700);
  await theirs.goto('about:blank');
  await theirs.goto(link);
  const offer = theirs.getByRole('dialog', { name: 'A job came with this link' });
  await offer.waitFor();
  await fresh(theirs);
  assert.equal(await theirs.locator('.because').innerText(), answer, 'nothing is touched before the reader has chosen');
  await offer.getByRole('button', { name: 'Open it' }).click();
  await offer.waitFor({ state: 'hidden' });
  await fresh(theirs);
  assert.equal(await (await netVolume(theirs)).inputValue(), sent);
  assert.ok(!theirs.url().includes('#j='), 'the address does not offer it again');

  await jobMenu(theirs, 'My jobs…');
  const jobs = theirs.getByRole('dialog', { name: 'My jobs' });
  await jobs.waitFor();
  assert.equal(await jobs.getByRole('listitem').count(), 2);
  await jobs.locator('li:not(.here)').getByRole('button', { name: /^Open/ }).click();
  await jobs.waitFor({ state: 'hidden' });
  await fresh(theirs);
  assert.equal(await (await netVolume(theirs)).inputValue(), kept, 'their own job is as it was');
});

test('a damaged link is refused with a sentence, and the page works on', async (t) => {
  const { page } = await open(t, 'phone', { path: '#j=AcVX9NzsPLAINLYWRONG' });
  await page.getByText(/The link could not be opened/).waitFor();
  await fits(page);
});

test('kept jobs are copied, deleted and brought back', async (t) => {
  const { page } = await open(t, 'tablet');
  const net = await netVolume(page);
  await net.focus();
  await page.keyboard.press('PageUp');
  await fresh(page);
  await jobMenu(page, 'My jobs…');
  const jobs = page.getByRole('dialog', { name: 'My jobs' });
  await jobs.getByRole('button', { name: /^Duplicate/ }).click();
  const copy = jobs.locator('li:not(.here)');
  await copy.waitFor();
  await copy.getByRole('button', { name: /^Delete/ }).click();
  await jobs.getByRole('button', { name: 'Bring it back' }).click();
  await copy.waitFor();
  await accessible(page);
});

for (const [format, width, height] of /** @type {const} */ ([['A4', 595, 842], ['Letter', 612, 792]])) {
  test(`the job sheet prints on ${format}`, async (t) => {
    const { page } = await open(t, 'laptop');
    await jobMenu(page, 'Job sheet…');
    await page.getByRole('heading', { name: 'Cut list' }).waitFor();
    await accessible(page);
    const file = path.join(scratch(t), 'sheet.pdf');
    await page.pdf({ path: file, format });
    const info = execFileSync('pdfinfo', [file], { encoding: 'utf8' });
    assert.match(info, new RegExp(`Page size:\\s+${width}(\\.\\d+)? x ${height}`));
    const pages = Number(/Pages:\s+(\d+)/.exec(info)?.[1]);
    assert.ok(pages >= 2 && pages <= 4, `${pages} pages`);
    const text = execFileSync('pdftotext', ['-layout', file, '-'], { encoding: 'utf8' });
    for (const word of ['What was agreed', 'Processor settings', 'Cut list', 'fused at', 'NIOSH', 'To hold', 'What was assumed']) {
      assert.ok(text.includes(word), `${word} is on the sheet`);
    }
    assert.ok(!text.includes('Undo'), 'only the sheet is printed');
    // No page is empty but for its margins.
    for (let i = 1; i <= pages; i++) {
      const one = execFileSync('pdftotext', ['-f', String(i), '-l', String(i), file, '-'], { encoding: 'utf8' });
      assert.ok(one.trim().length > 80, `page ${i} says something`);
    }
  });
}

test('the drawing is saved as SVG that stands alone, and as PNG', async (t) => {
  const { page } = await open(t, 'laptop');
  const save = async (/** @type {string} */ item) => {
    const waiting = page.waitForEvent('download');
    await jobMenu(page, item);
    const stream = await (await waiting).createReadStream();
    const parts = [];
    for await (const part of stream) parts.push(part);
    return Buffer.concat(parts);
  };
  const svg = (await save('Save the drawing (SVG)')).toString();
  assert.match(svg, /^<svg[^>]*xmlns="http:\/\/www\.w3\.org\/2000\/svg"/);
  assert.ok(!svg.includes('class='), 'needs no style sheet');
  assert.match(svg, /stroke="rgb\(/);
  for (const item of ['Save the drawing (PNG)', 'Save the level curves (PNG)']) {
    const png = await save(item);
    assert.deepEqual([...png.subarray(0, 4)], [0x89, 0x50, 0x4e, 0x47], item);
    assert.ok(png.length > 20_000, `${item}: ${png.length} bytes`);
  }
});
