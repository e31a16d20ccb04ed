import assert from 'node:assert/strict';
import path from 'node:path';
import { test } from 'node:test';
import { pathToFileURL } from 'node:url';
import { accessible, fresh, netVolume, open, root } from './harness.mjs';

const url = pathToFileURL(path.join(root, 'build/bootfloor.html')).href;
for (const engine of /** @type {const} */ (['chromium', 'firefox'])) {
  test(`the one-file page works from a disk in ${engine}`, async (t) => {
    const { page } = await open(t, 'laptop', { url, engine });
    assert.match(await page.getByRole('main').innerText(), /\d+ Hz/);
    const net = await netVolume(page);
    await net.focus();
    await page.keyboard.press('End');
    await fresh(page);
    const value = await net.inputValue();
    await page.waitForTimeout(700);
    await page.reload();
    await fresh(page);
    assert.equal(await net.inputValue(), value, 'the job is kept');
    if (engine === 'chromium') await accessible(page);
  });
}
