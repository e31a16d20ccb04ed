import assert from 'node:assert/strict';
import path from 'node:path';
import { test } from 'node:test';
import { pathToFileURL } from 'node:url';
import { root, site } from './harness.mjs';
import { openWebKit, webkitMissing } from './webkit.mjs';

const END = '\uE010'; // the End key of WebDriver
const single = async () => pathToFileURL(path.join(root, 'build/bootfloor.html')).href;

const isFresh = () => document.documentElement.dataset.state === 'fresh';
const text = () => document.querySelector('main:not([hidden])')?.innerText ?? '';
const focusNet = () => {
  const net = [...document.querySelectorAll('input[type="range"]')].find(
    (slider) => /net volume/i.test(slider.getAttribute('aria-label')) && slider.checkVisibility(),
  );
  net.focus();
  return net.value;
};

for (const [how, url] of /** @type {const} */ ([['from a server', site], ['as one file from a disk', single]])) {
  test(`WebKit opens the demo job ${how} and follows the box volume`, { skip: webkitMissing() || false }, async (t) => {
    const page = await openWebKit(t);
    await page.goto(await url());
    await page.until(isFresh);
    const before = await page.evaluate(text);
    assert.match(before, /\d+ Hz/);
    const value = await page.evaluate(focusNet);
    await page.type(END);
    await page.until((old) => document.activeElement.value !== old, value);
    await page.until(isFresh);
    await page.until((old) => document.querySelector('main:not([hidden])')?.innerText !== old, before);
  });
}
