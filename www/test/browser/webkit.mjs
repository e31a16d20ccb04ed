/*
 * WebKitGTK through its own driver: the few commands of W3C WebDriver that the
 * tests of the main jobs need.
 */
import { spawn } from 'node:child_process';
import fs from 'node:fs';
import net from 'node:net';

const BROWSER = '/usr/lib/x86_64-linux-gnu/webkit2gtk-4.1/MiniBrowser';
const SCREEN = '-screen 0 1600x1300x24';

/** Why WebKit cannot be driven here, or '' when it can. */
export function webkitMissing() {
  return fs.existsSync(BROWSER) ? '' : 'WebKitGTK is not here';
}

/** @returns {Promise<number>} */
function freePort() {
  return new Promise((resolve) => {
    const server = net.createServer().listen(0, '127.0.0.1', () => {
      const { port } = /** @type {net.AddressInfo} */ (server.address());
      server.close(() => resolve(port));
    });
  });
}

/**
 * Starts WebKit on a virtual screen, and ends both with the test.
 * @param {import('node:test').TestContext} t
 */
export async function openWebKit(t) {
  const port = await freePort();
  const driver = spawn('xvfb-run', ['-a', '-s', SCREEN, 'WebKitWebDriver', `--port=${port}`], {
    detached: true, // a process group of its own, so that the screen goes with it
    stdio: 'ignore',
  });
  const base = `http://127.0.0.1:${port}`;
  /** @param {string} method @param {string} path @param {object} [body] */
  const command = async (method, path, body) => {
    const response = await fetch(base + path, { method, body: body && JSON.stringify(body) });
    const { value } = await response.json();
    if (!response.ok) throw new Error(`${path}: ${value.error}: ${value.message}`);
    return value;
  };
  let session = '';
  t.after(async () => {
    if (session) await command('DELETE', session).catch(() => {});
    if (driver.pid) process.kill(-driver.pid);
  });
  for (let i = 0; ; i++) {
    try {
      await command('GET', '/status');
      break;
    } catch (error) {
      if (i > 100) throw error;
      await new Promise((resolve) => setTimeout(resolve, 100));
    }
  }
  const { sessionId } = await command('POST', '/session', {
    capabilities: {
      alwaysMatch: { 'webkitgtk:browserOptions': { binary: BROWSER, args: ['--automation', '--full-screen'] } },
    },
  });
  session = `/session/${sessionId}`;
  await command('POST', `${session}/timeouts`, { script: 20_000 });

  return {
    goto: (/** @type {string} */ url) => command('POST', `${session}/url`, { url }),
    /** Runs the function in the page. @param {Function} fn @param {...any} args */
    evaluate: (fn, ...args) =>
      command('POST', `${session}/execute/sync`, { script: `return (${fn}).apply(null, arguments)`, args }),
    /** Types into what has the focus. @param {string} keys */
    async type(keys) {
      const actions = [...keys].flatMap((value) => [
        { type: 'keyDown', value },
        { type: 'keyUp', value },
      ]);
      await command('POST', `${session}/actions`, { actions: [{ type: 'key', id: 'keyboard', actions }] });
    },
    /** Waits until the function returns something in the page. @param {Function} fn @param {...any} args */
    async until(fn, ...args) {
      for (let i = 0; i < 200; i++) {
        const value = await this.evaluate(fn, ...args);
        if (value) return value;
        await new Promise((resolve) => setTimeout(resolve, 100));
      }
      throw new Error(`never came true in WebKit: ${fn}`);
    },
  };
}
