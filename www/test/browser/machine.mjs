/*
 * The machine room of tests and measurements: the served page and the browsers.
 */
import { spawn } from 'node:child_process';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
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

/** Waits until what is drawn answers the job as it is. @param {import('playwright-core').Page} page */
export function fresh(page) {
  return page.waitForFunction(() => document.documentElement.dataset.state === 'fresh', undefined, { timeout: 20_000 });
}

/**
 * The slider of the first box's net volume: on the page itself where that is
 * narrow, else in the sheet of the box, which is opened if need be.
 * @param {import('playwright-core').Page} page
 */
export async function netVolume(page) {
  // The grip of the box in the drawing is a slider of that name too.
  const slider = page.locator('.field input[type="range"][aria-label*="net volume" i]:visible').first();
  if ((await slider.count()) === 0) await page.locator('.part-label[data-part="box"]').click();
  await slider.waitFor();
  return slider;
}

/** Ends every browser that was started. */
export async function closeBrowsers() {
  for (const one of browsers.values()) await (await one).close();
  browsers.clear();
}
