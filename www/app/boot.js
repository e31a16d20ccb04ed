/**
 * Where the engine comes from: files beside the page, or, in the one-file
 * page, blocks of text inside it.
 */
import { createEngine } from './engine.js';
import { ENGINE } from './version.js';

/**
 * @typedef {import('./engine.js').Spawned} Spawned
 * @typedef {import('./engine.js').Engine} Engine
 */

const ENGINE_FILE = 'worker/engine.bin';
const UNPACK = 'worker/unpack.js';
const SCRIPTS = ['worker/wasm_exec.js', 'worker/worker.js'];

/**
 * The engine this page came with. Call it once, early: it begins to load at once.
 *
 * @param {(event: {kind: 'ready'|'crashed', say: string}) => void} [onState]
 * @returns {Engine}
 */
export function startEngine(onState) {
  const inside = document.getElementById('engine-packed');
  // Measuring under a throttled processor needs the engine on the page's own
  // thread, since the browser's throttle leaves workers alone.
  const here = new URL(location.href).searchParams.get('engine') === 'main';
  return createEngine({
    version: ENGINE,
    load: () => (inside ? compilePacked(fromBase64(inside.textContent ?? ''), here) : compileBeside(here)),
    spawn: here ? spawnHere : () => spawn(inside ? blobOf('engine-worker') : new URL('worker/worker.js', document.baseURI)),
    onState,
  });
}

/** @param {boolean} here */
async function compileBeside(here) {
  const response = await fetch(ENGINE_FILE);
  if (!response.ok) throw new Error(`the server answered ${response.status}`);
  // From the second visit on the service worker gives the program unpacked, and
  // the browser may have kept what it compiled.
  if (response.headers.get('content-type') === 'application/wasm') return WebAssembly.compileStreaming(response);
  return compilePacked(response.arrayBuffer(), here);
}

/** @param {string} text */
async function fromBase64(text) {
  return Uint8Array.from(atob(text.trim()), (c) => c.charCodeAt(0)).buffer;
}

/**
 * Unpacking takes longer than a frame, so a worker of its own does it. It
 * starts while the bytes are on their way.
 * @param {Promise<ArrayBuffer>} bytes
 * @param {boolean} here
 * @returns {Promise<WebAssembly.Module>}
 */
async function compilePacked(bytes, here) {
  if (here) {
    await loadScript(UNPACK);
    return WebAssembly.compile(await /** @type {any} */ (globalThis).unpackEngine(await bytes));
  }
  const worker = new Worker(document.getElementById('engine-unpack') ? blobOf('engine-unpack') : new URL(UNPACK, document.baseURI));
  try {
    const packed = await bytes;
    return await new Promise((/** @type {(module: WebAssembly.Module) => void} */ resolve, reject) => {
      worker.onmessage = ({ data }) => (data.module ? resolve(data.module) : reject(new Error(data.say)));
      worker.onerror = (event) => {
        event.preventDefault();
        reject(new Error(event.message || `${UNPACK} did not load`));
      };
      worker.postMessage(packed, [packed]);
    });
  } finally {
    worker.terminate();
  }
}

/** @param {string|URL} url @returns {Promise<Spawned>} */
async function spawn(url) {
  const worker = new Worker(url);
  const failed = new Promise((/** @type {(say: string) => void} */ resolve) => {
    worker.onerror = (event) => {
      event.preventDefault();
      resolve(`The engine's worker failed${event.message ? `: ${event.message}` : ''}.`);
    };
  });
  return { port: worker, terminate: () => worker.terminate(), failed };
}

/** A script that the one-file page holds as text. @param {string} id */
function blobOf(id) {
  const source = document.getElementById(id)?.textContent ?? '';
  return URL.createObjectURL(new Blob([source], { type: 'text/javascript' }));
}

/** @returns {Promise<Spawned>} */
async function spawnHere() {
  for (const src of SCRIPTS) await loadScript(src);
  const { port1, port2 } = new MessageChannel();
  /** @type {any} */ (globalThis).serveEngine(port2);
  return { port: port1, terminate: () => port1.close(), failed: new Promise(() => {}) };
}

/** @param {string} src */
async function loadScript(src) {
  if (document.querySelector(`script[src="${src}"]`)) return;
  const script = document.createElement('script');
  script.src = src;
  await new Promise((resolve, reject) => {
    script.onload = resolve;
    script.onerror = () => reject(new Error(`${src} did not load`));
    document.head.append(script);
  });
}
