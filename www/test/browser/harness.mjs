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
import { spawn } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';
import { after } from 'node:test';
import { fileURLToPath } from 'node:url';
import { AxeBuilder } from '@axe-core/playwright';
import { chromium, firefox } from 'playwright-core';

export const root = fileURLToPath(new URL('../../../', import.meta.url));

/** A phone, a tablet and a laptop. */
export const sizes = {
  phone: { width: 390, height: 844 },
  tablet: { width: 820, height: 1180 },
  laptop: { width: 1440, height: 900 },
};

const firefoxPrefs = { 'app.update.enabled': false, 'datareporting.policy.dataSubmissionEnabled': false };

const engines = {
  chromium: () =>
    chromium.launch({
      executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
      chromiumSandbox: false,
      args: [
        '--disable-gpu',
        '--disable-quic',
        '--no-first-run',
        '--disable-background-networking',
        '--disable-component-update',
        '--disable-sync',
      ],
    }),
  firefox: () =>
    firefox.launch({
      channel: 'moz-firefox',
      executablePath: process.env.FIREFOX ?? '/usr/bin/firefox-esr',
      firefoxUserPrefs: firefoxPrefs,
    }),
};

/** @type {Map<string, Promise<any>>} */
const browsers = new Map();

/** The browser of this test file, started once. @param {'chromium'|'firefox'} engine */
export function browser(engine = 'chromium') {
  if (!browsers.has(engine)) browsers.set(engine, engines[engine]());
  return browsers.get(engine);
}

/**
 * Serves a folder with the program that `make run` uses.
 * @param {string} [dir]
 * @param {number} [port]  0 takes any
 */
export async function serve(dir = path.join(root, 'dist'), port = 0) {
  const child = spawn(path.join(root, 'build/serve'), ['-dir', dir, '-addr', `127.0.0.1:${port}`], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  const url = await new Promise((resolve, reject) => {
    child.stdout.once('data', (data) => resolve(String(data).trim().split('\n')[0]));
    child.once('error', reject);
    child.once('exit', () => reject(new Error('the server ended')));
  });
  return {
    url,
    port: Number(new URL(url).port),
    stop: () =>
      new Promise((resolve) => {
        if (child.exitCode !== null || child.signalCode !== null) return resolve(undefined);
        child.once('exit', resolve);
        child.kill();
      }),
  };
}

let shared;
/** The address of the built page. */
export async function site() {
  shared ??= serve();
  return (await shared).url;
}

after(async () => {
  for (const one of browsers.values()) await (await one).close();
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

/** Waits until what is drawn answers the job as it is. @param {import('playwright-core').Page} page */
export function fresh(page) {
  return page.waitForFunction(() => document.documentElement.dataset.state === 'fresh', undefined, { timeout: 20_000 });
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
