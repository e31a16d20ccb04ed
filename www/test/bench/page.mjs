import { browser, closeBrowsers, fresh, netVolume, serve, sizes } from '../browser/machine.mjs';

/** @typedef {keyof typeof import('../browser/machine.mjs').sizes} Size */

/** @param {number[]} values @param {number} q */
export function quantile(values, q) {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(q * sorted.length))];
}

/** @param {{throttle?: number, path?: string, size?: Size}} how */
async function visit(url, { throttle = 1, path = '', size = 'phone' }, act) {
  const context = await (await browser()).newContext({ viewport: sizes[size], reducedMotion: 'reduce' });
  try {
    const page = await context.newPage();
    const cdp = await context.newCDPSession(page);
    if (throttle > 1) await cdp.send('Emulation.setCPUThrottlingRate', { rate: throttle });
    await page.goto(url + path);
    await page.waitForFunction(() => performance.getEntriesByName('bootfloor:answer').length > 0, undefined, { timeout: 60_000 });
    return await act(page);
  } finally {
    await context.close();
  }
}

/** From the start of a first visit to the first answer drawn, in ms: the median of several. */
async function coldOpen(url, how, times = 5) {
  const values = [];
  for (let i = 0; i < times; i++) {
    values.push(await visit(url, how, (page) => page.evaluate(() => performance.getEntriesByName('bootfloor:answer')[0].startTime)));
  }
  return quantile(values, 0.5);
}

/** Drags the box volume to and fro; ms from each input to all drawn, and to the paint. */
async function drag(url, size) {
  return visit(url, { size }, async (page) => {
    await fresh(page);
    // The engine rehearses after its first answer; a reader takes longer than this to reach a handle.
    await page.waitForTimeout(1500);
    const net = await netVolume(page);
    await net.scrollIntoViewIfNeeded();
    const box = await net.boundingBox();
    const y = box.y + box.height / 2;
    const at = (/** @type {number} */ share) => box.x + box.width * share;
    await page.mouse.move(at(0.3), y);
    await page.mouse.down();
    for (let i = 0; i <= 160; i++) {
      await page.mouse.move(at(0.5 + 0.35 * Math.sin(i / 12)), y);
      await page.waitForTimeout(16);
    }
    await page.mouse.up();
    await page.waitForTimeout(200);
    return page.evaluate(() => ({
      drawn: performance.getEntriesByName('bootfloor:drawn').map((entry) => entry.duration),
      painted: performance.getEntriesByName('bootfloor:painted').map((entry) => entry.duration),
    }));
  });
}

/** Raises the roof of the car step by step; ms from each key to all drawn. */
async function changeCar(url) {
  return visit(url, { size: 'tablet' }, async (page) => {
    await fresh(page);
    await page.locator('.part-label[data-part="cabin"]').click();
    await page.getByRole('slider', { name: 'Floor to roof, place 3' }).focus();
    await page.waitForTimeout(1500);
    await page.evaluate(() => performance.clearMeasures());
    for (let i = 0; i < 60; i++) {
      await page.keyboard.press('ArrowUp');
      await page.waitForTimeout(80);
    }
    return page.evaluate(() => performance.getEntriesByName('bootfloor:drawn').map((entry) => entry.duration));
  });
}

/** All timings of the built page, each with its budget. */
export async function pageTimings() {
  const server = await serve();
  try {
    await coldOpen(server.url, {}, 1); // the browser itself warms up
    const phone = await drag(server.url, 'phone');
    const laptop = await drag(server.url, 'laptop');
    const car = await changeCar(server.url);
    return [
      { what: 'cold open to the first answer', value: await coldOpen(server.url, {}), unit: 'ms', budget: 800 },
      {
        what: 'the same at 4x CPU throttle, engine on the page thread',
        value: await coldOpen(server.url, { throttle: 4, path: '?engine=main' }, 3),
        unit: 'ms',
        budget: 2000,
      },
      { what: `drag, input to all drawn, p95 of ${phone.drawn.length}, phone`, value: quantile(phone.drawn, 0.95), unit: 'ms', budget: 16 },
      { what: `drag, input to painted, p95 of ${phone.painted.length}, phone`, value: quantile(phone.painted, 0.95), unit: 'ms', budget: 33.4 },
      { what: `drag, input to all drawn, p95 of ${laptop.drawn.length}, laptop`, value: quantile(laptop.drawn, 0.95), unit: 'ms', budget: 16 },
      { what: `drag, input to painted, p95 of ${laptop.painted.length}, laptop`, value: quantile(laptop.painted, 0.95), unit: 'ms', budget: 33.4 },
      { what: `a changed dimension, key to all drawn, p95 of ${car.length}`, value: quantile(car, 0.95), unit: 'ms', budget: 50 },
      { what: `  slowest of ${car.length}`, value: Math.max(...car), unit: 'ms', budget: 50 },
    ];
  } finally {
    await server.stop();
    await closeBrowsers();
  }
}
