'use strict';
/*
 * Keeps one whole version of the page for when the network is gone. The build
 * stamps the version and the list of files with their digests: an install
 * takes every file of its own version or nothing, and answers from its own
 * cache alone. A newer version waits until the page asks for it.
 */

const VERSION = 'dev';
/** @type {[string, string][]} path and digest */
const FILES = [];

/* global unpackEngine */
importScripts('worker/unpack.js');

const ENGINE_FILE = 'worker/engine.bin';
const PREFIX = 'bootfloor-';
const CACHE = PREFIX + VERSION;

/** @type {ServiceWorkerGlobalScope} */
const worker = /** @type {any} */ (self);

worker.addEventListener('install', (event) => {
  event.waitUntil(install());
});

async function install() {
  const cache = await caches.open(CACHE);
  try {
    await Promise.all(
      FILES.map(async ([path, integrity]) => {
        // Past the browser's own cache, which may hold an older version's file;
        // the digest refuses a server that is half way between two versions.
        const response = await fetch(new Request(path, { cache: 'reload', integrity }));
        if (!response.ok) throw new Error(`${path}: ${response.status}`);
        await cache.put(new URL(path, worker.registration.scope), response);
      }),
    );
    await keepUnpacked(cache);
  } catch (error) {
    await caches.delete(CACHE);
    throw error;
  }
}

/**
 * Puts the program in the place of the packed engine, so that a later visit need
 * not unpack it, and the browser can keep what it compiles.
 * @param {Cache} cache
 */
async function keepUnpacked(cache) {
  const url = new URL(ENGINE_FILE, worker.registration.scope);
  const packed = await cache.match(url);
  if (!packed) return;
  const program = await unpackEngine(await packed.arrayBuffer());
  await cache.put(url, new Response(program, { headers: { 'content-type': 'application/wasm' } }));
}

worker.addEventListener('activate', (event) => {
  event.waitUntil(
    caches.keys().then((keys) =>
      Promise.all(keys.filter((key) => key.startsWith(PREFIX) && key !== CACHE).map((key) => caches.delete(key))),
    ),
  );
});

worker.addEventListener('message', (event) => {
  if (event.data === 'take over') worker.skipWaiting();
});

worker.addEventListener('fetch', (event) => {
  const url = new URL(event.request.url);
  if (event.request.method !== 'GET' || url.origin !== worker.location.origin) return;
  event.respondWith(answer(event.request));
});

/** @param {Request} request */
async function answer(request) {
  const cache = await caches.open(CACHE);
  const wanted = request.mode === 'navigate' ? worker.registration.scope : request;
  const kept = await cache.match(wanted, { ignoreSearch: true, ignoreVary: true });
  return kept ?? fetch(request);
}
