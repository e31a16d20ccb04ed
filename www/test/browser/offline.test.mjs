import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';
import { test } from 'node:test';
import { fresh, netVolume, open, root, scratch, serve } from './harness.mjs';

/** Builds the page from changed sources into dir. @param {string} dir @param {Record<string, (text: string) => string>} changes */
function buildChanged(dir, changes) {
  const www = path.join(dir, 'www');
  fs.cpSync(path.join(root, 'www'), www, { recursive: true, filter: (from) => !from.endsWith('node_modules') });
  for (const [file, change] of Object.entries(changes)) {
    const at = path.join(www, file);
    const before = fs.readFileSync(at, 'utf8');
    const after = change(before);
    assert.notEqual(after, before, `${file} did not change`);
    fs.writeFileSync(at, after);
  }
  const out = path.join(dir, 'out');
  execFileSync(path.join(root, 'build/site'), ['-www', www, '-out', out], { cwd: root, stdio: 'pipe' });
  return out;
}

const active = (/** @type {any} */ page) => page.evaluate(() => navigator.serviceWorker.ready.then(() => true));

/** What this page is made of: one mark in the page's markup, one in a module. @param {any} page */
const marks = (page) =>
  page.evaluate(async () => [
    document.querySelector('meta[name="test-mark"]')?.getAttribute('content') ?? 'first',
    (await (await fetch('app/version.js')).text()).includes('// second') ? 'second' : 'first',
  ]);

test('after one visit the page opens with the server gone', async (t) => {
  const server = await serve();
  t.after(() => server.stop());
  const { page, context } = await open(t, 'phone', { url: server.url });
  await active(page);
  await page.getByText('Ready offline').waitFor();
  await page.close();
  await server.stop();
  const again = await context.newPage();
  await again.goto(server.url);
  await fresh(again);
  assert.match(await again.getByRole('main').innerText(), /\d+ Hz/);
});

test('a new version comes whole, is announced, waits to be asked and keeps the job', async (t) => {
  const second = buildChanged(scratch(t), {
    'index.html': (text) => text.replace('</title>', '</title>\n<meta name="test-mark" content="second">'),
    'app/version.js': (text) => `${text}// second\n`,
  });
  let server = await serve();
  t.after(() => server.stop());
  const { page } = await open(t, 'laptop', { url: server.url });
  await active(page);
  await page.reload();
  await fresh(page);
  assert.deepEqual(await marks(page), ['first', 'first']);
  const title = await netVolume(page);
  await title.focus();
  await page.keyboard.press('End');
  const value = await title.inputValue();

  await server.stop();
  server = await serve(second, server.port);
  await page.evaluate(async () => (await navigator.serviceWorker.getRegistration())?.update());
  const update = page.getByRole('button', { name: 'Change over' });
  await update.waitFor({ state: 'visible' });

  // Announced, but every answer is still of the old version, even after a reload.
  assert.deepEqual(await marks(page), ['first', 'first']);
  await page.reload();
  await fresh(page);
  assert.deepEqual(await marks(page), ['first', 'first']);

  await update.waitFor({ state: 'visible' });
  await Promise.all([page.waitForEvent('load'), update.click()]);
  await fresh(page);
  assert.deepEqual(await marks(page), ['second', 'second']);
  assert.equal(await title.inputValue(), value);

  // The old version's files are gone; the new one stands alone.
  const caches = await page.evaluate(() => globalThis.caches.keys());
  assert.equal(caches.length, 1);
  await server.stop();
  await page.reload();
  await fresh(page);
  assert.deepEqual(await marks(page), ['second', 'second']);
});

test('a server half way between two versions installs nothing', async (t) => {
  const dir = scratch(t);
  const half = path.join(dir, 'half');
  fs.cpSync(path.join(root, 'dist'), half, { recursive: true });
  fs.appendFileSync(path.join(half, 'app/version.js'), '\n// of another version\n');
  const server = await serve(half);
  t.after(() => server.stop());
  const { page } = await open(t, 'laptop', { url: server.url, expected: /integrity/ });
  const state = await page.evaluate(async () => {
    for (let i = 0; i < 50; i++) {
      const registration = await navigator.serviceWorker.getRegistration();
      if (!registration?.installing && !registration?.active) break;
      await new Promise((resolve) => setTimeout(resolve, 50));
    }
    const registration = await navigator.serviceWorker.getRegistration();
    return { active: !!registration?.active, caches: await globalThis.caches.keys() };
  });
  assert.deepEqual(state, { active: false, caches: [] });
});
