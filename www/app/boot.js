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

const WASM = 'worker/engine.wasm';
const SCRIPTS = ['worker/wasm_exec.js', 'worker/worker.js'];

/**
 * The engine this page came with. Call it once, early: it begins to load at once.
 *
 * @param {(event: {kind: 'ready'|'crashed', say: string}) => void} [onState]
 * @returns {Engine}
 */
export function startEngine(onState) {
  const inside = document.getElementById('engine-wasm');
  // Measuring under a throttled processor needs the engine on the page's own
  // thread, since the browser's throttle leaves workers alone.
  const here = new URL(location.href).searchParams.get('engine') === 'main';
  return createEngine({
    version: ENGINE,
    load: inside ? () => compileInside(inside.textContent ?? '') : compileBeside,
    spawn: here ? spawnHere : inside ? spawnInside : spawnBeside,
    onState,
  });
}

async function compileBeside() {
  const response = await fetch(WASM);
  if (!response.ok) throw new Error(`the server answered ${response.status}`);
  // A server that states the wrong type must not stop us.
  if (response.headers.get('content-type') === 'application/wasm' && WebAssembly.compileStreaming) {
    return WebAssembly.compileStreaming(response);
  }
  return WebAssembly.compile(await response.arrayBuffer());
}

/** @param {string} base64 of the gzipped engine */
async function compileInside(base64) {
  const packed = Uint8Array.from(atob(base64.trim()), (c) => c.charCodeAt(0));
  const stream = new Blob([packed]).stream().pipeThrough(new DecompressionStream('gzip'));
  return WebAssembly.compile(await new Response(stream).arrayBuffer());
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

function spawnBeside() {
  return spawn(new URL('worker/worker.js', document.baseURI));
}

function spawnInside() {
  const source = document.getElementById('engine-worker')?.textContent ?? '';
  return spawn(URL.createObjectURL(new Blob([source], { type: 'text/javascript' })));
}

/** @returns {Promise<Spawned>} */
async function spawnHere() {
  for (const src of SCRIPTS) {
    if (document.querySelector(`script[src="${src}"]`)) continue;
    const script = document.createElement('script');
    script.src = src;
    await new Promise((resolve, reject) => {
      script.onload = resolve;
      script.onerror = () => reject(new Error(`${src} did not load`));
      document.head.append(script);
    });
  }
  const { port1, port2 } = new MessageChannel();
  /** @type {any} */ (globalThis).serveEngine(port2);
  return { port: port1, terminate: () => port1.close(), failed: new Promise(() => {}) };
}
