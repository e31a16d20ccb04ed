/*
 * What every browser test needs: the built page served on a port of its own, a
 * browser, and a page that fails its test on any console error, any uncaught
 * error and any request to elsewhere.
 *
 *   test('opens', async (t) => {
 *     const { page } = await open(t, 'phone');
 *     ...
 *   });
 */
import assert from 'node:assert/strict';
import fs from 'node:fs';
import path from 'node:path';
import { after } from 'node:test';
import { AxeBuilder } from '@axe-core/playwright';
import { browser, closeBrowsers, fresh, netVolume, root, serve, sizes } from './machine.mjs';

export { browser, fresh, netVolume, root, serve, sizes };

let shared;
/** The address of the built page. */
export async function site() {
  shared ??= serve();
  return (await shared).url;
}

after(async () => {
  await closeBrowsers();
  await (await shared)?.stop();
});

/**
 * Opens the page and waits until its first answer is drawn.
 *
 * @param {import('node:test').TestContext} t
 * @param {keyof typeof sizes} size
 * @param {{url?: string, path?: string, engine?: 'chromium'|'firefox', context?: object, wait?: boolean,
 *   expected?: RegExp}} [how]  `expected` is a console error the test provokes itself
 */
export async function open(t, size, how = {}) {
  const { engine = 'chromium', wait = true, expected } = how;
  const base = how.url ?? (await site());
  const touch = size !== 'laptop' && engine === 'chromium';
  const context = await (await browser(engine)).newContext({
    viewport: sizes[size],
    hasTouch: touch,
    reducedMotion: 'reduce',
    locale: 'en-GB',
    ...how.context,
  });
  const faults = [];
  const elsewhere = [];
  context.on('console', (message) => {
    if (message.type() === 'error' && !expected?.test(message.text())) faults.push(`console: ${message.text()}`);
  });
  context.on('weberror', (error) => faults.push(`uncaught: ${error.error().stack ?? error.error()}`));
  context.on('request', (request) => {
    const url = new URL(request.url());
    if (url.protocol.startsWith('http') && url.origin !== new URL(base).origin) elsewhere.push(request.url());
  });
  // What the page's policy stopped has asked nobody.
  context.on('requestfailed', (request) => {
    const at = elsewhere.indexOf(request.url());
    if (at >= 0 && request.failure()?.errorText === 'csp') elsewhere.splice(at, 1);
  });
  t.after(async () => {
    await context.close();
    assert.deepEqual(faults, [], 'errors in the console');
    assert.deepEqual(elsewhere, [], 'requests to elsewhere');
  });
  const page = await context.newPage();
  page.setDefaultTimeout(20_000);
  await page.goto(new URL(how.path ?? '', base).href);
  if (wait) await fresh(page);
  return { page, context, faults, elsewhere, base };
}

/** Fails on anything that axe finds. @param {import('playwright-core').Page} page */
export async function accessible(page) {
  const { violations } = await new AxeBuilder({ page }).analyze();
  const said = violations.flatMap((v) => v.nodes.map((n) => `${v.id}: ${v.help}: ${n.target.join(' ')}`));
  assert.deepEqual(said, []);
}

/** Fails when the page is wider than its window. @param {import('playwright-core').Page} page */
export async function fits(page) {
  const over = await page.evaluate(() => {
    const root = document.documentElement;
    return root.scrollWidth - root.clientWidth;
  });
  assert.ok(over <= 0, `the page is ${over} px wider than its window`);
}

/** A folder of its own for a test, removed after it. @param {import('node:test').TestContext} t */
export function scratch(t) {
  const dir = fs.mkdtempSync(path.join(root, 'build', 'scratch-'));
  t.after(() => fs.rmSync(dir, { recursive: true, force: true }));
  return dir;
}
