/*
 * Takes the pictures of the README from the built page: run by `make pictures`.
 */
import path from 'node:path';
import { browser, closeBrowsers, fresh, root, serve, sizes } from '../browser/machine.mjs';

const out = path.join(root, 'www/test/pictures');
const site = await serve();

/**
 * @param {string} name
 * @param {keyof typeof sizes} size
 * @param {string} fragment
 * @param {(page: import('playwright-core').Page) => Promise<void>} [act]
 */
async function take(name, size, fragment, act) {
  const context = await (await browser()).newContext({ viewport: sizes[size], locale: 'en-GB', reducedMotion: 'reduce', colorScheme: 'light' });
  const page = await context.newPage();
  await page.goto(`${site.url}${fragment}`);
  await fresh(page);
  await act?.(page);
  await page.waitForTimeout(1500);
  await page.screenshot({ path: path.join(out, `${name}.png`) });
  await context.close();
}

await take('full-job', 'laptop', '#/job', async (page) => {
  // The sentence that the page is kept has gone by then.
  await page.waitForTimeout(8000);
});
await take('which-sub', 'phone', '#/which', async (page) => {
  await page.getByRole('heading', { name: 'What car is it for?' }).waitFor();
  for (let i = 0; i < 5; i++) await page.getByRole('button', { name: /^(Skip|Next|See what suits)/ }).first().click();
  await page.getByRole('progressbar').waitFor({ state: 'detached', timeout: 120_000 }).catch(() => {});
  await page.waitForTimeout(3000);
});
await take('quick-answer', 'phone', '#/quick', async (page) => {
  await page.getByRole('textbox').first().fill('two 12s ported 80 litres estate 1 kW');
  await page.waitForTimeout(4000);
});

await closeBrowsers();
await site.stop();
