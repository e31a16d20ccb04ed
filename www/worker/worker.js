'use strict';
/*
 * The engine's end of the line. A classic script, because a one-file page
 * opened from a disk may not start module workers; it also loads into the page
 * itself, where serveEngine is given one end of a MessageChannel.
 *
 * The message shapes are those of app/protocol.js.
 */

/**
 * Runs one engine behind one port. Calls run one after another in the order
 * they came; a newer call with the same `latest` key takes the place of those
 * still waiting, and stops a long one that is running.
 *
 * @param {import('../app/protocol.js').Port} port
 */
function serveEngine(port) {
  /** @typedef {import('../app/protocol.js').CallMessage} CallMessage */
  /** @typedef {import('../app/protocol.js').ErrorKind} ErrorKind */

  /** @type {{version: string, call: (name: string, request: string, onProgress: Function|null) => any}|null} */
  let engine = null;
  let version = '';
  let dead = false;
  /** @type {CallMessage[]} */
  const queue = [];
  /** @type {{message: CallMessage, stop: ErrorKind|''}|null} */
  let running = null;

  // A turn of the event loop between two calls lets every message that has
  // already arrived be counted before the next call starts.
  const turn = new MessageChannel();
  let turning = false;
  turn.port1.onmessage = () => {
    turning = false;
    next();
  };

  port.onmessage = (event) => {
    if (dead) return;
    const message = event.data;
    if ('start' in message) start(message.start, message.module);
    else if ('cancel' in message) cancel(message.cancel);
    else accept(message);
  };

  /** @param {string} wanted @param {WebAssembly.Module} module */
  async function start(wanted, module) {
    version = wanted;
    try {
      const go = new Go();
      // A panic that ends the program does not throw on this side.
      go.exit = (code) => crash(`The engine stopped (exit code ${code}).`);
      const instance = await WebAssembly.instantiate(module, go.importObject);
      go.run(instance).catch((error) => crash(String(error)));
      const started = globalThis.bootfloorEngine;
      if (!started) throw new Error('it did not register');
      if (!dead) {
        engine = started;
        port.postMessage({ ready: started.version });
        pump();
      }
    } catch (error) {
      crash(`The engine did not start: ${error instanceof Error ? error.message : error}.`);
    }
  }

  /** @param {string} say */
  function crash(say) {
    if (dead) return;
    dead = true;
    queue.length = 0;
    turn.port1.close();
    port.postMessage({ crashed: say });
  }

  /** @param {CallMessage} message */
  function accept(message) {
    if (message.latest !== undefined) {
      for (let i = queue.length - 1; i >= 0; i--) {
        const older = queue[i];
        if (older && older.latest === message.latest) {
          queue.splice(i, 1);
          refuse(older, 'superseded', 'A newer request took the place of this one.');
        }
      }
      if (running && running.message.latest === message.latest) running.stop = 'superseded';
    }
    queue.push(message);
    pump();
  }

  /** @param {number} id */
  function cancel(id) {
    const at = queue.findIndex((message) => message.id === id);
    const [waiting] = at < 0 ? [] : queue.splice(at, 1);
    if (waiting) refuse(waiting, 'cancelled', 'Stopped.');
    else if (running && running.message.id === id) running.stop = 'cancelled';
  }

  function pump() {
    if (!engine || dead || running || turning || queue.length === 0) return;
    turning = true;
    turn.port2.postMessage(null);
  }

  function next() {
    const message = queue.shift();
    if (!message || !engine || dead) return;
    if (engine.version !== version || message.engine !== version) {
      refuse(message, 'version_mismatch', `This page and its engine (${engine.version}) are of different versions. Reload the page.`);
      pump();
      return;
    }
    const current = { message, stop: /** @type {ErrorKind|''} */ ('') };
    running = current;
    /** @param {number} done @param {number} of @param {string} say @param {string|null} soFar */
    const onProgress = (done, of, say, soFar) => {
      if (!current.stop) port.postMessage({ id: message.id, progress: { done, of, say, soFar } });
      return !current.stop;
    };
    /** @type {any} */
    let result;
    try {
      result = engine.call(message.call, message.request, onProgress);
    } catch (error) {
      crash(`The engine stopped in the middle of a call (${error}).`);
      return;
    }
    if (result instanceof Promise) result.then(finish);
    else finish(result);
  }

  /** @param {any} result */
  function finish(result) {
    if (!running || dead) return;
    const { message, stop } = running;
    running = null;
    if (result === undefined || result === null) {
      crash('The engine stopped in the middle of a call.');
      return;
    }
    if (stop) {
      refuse(message, stop, stop === 'cancelled' ? 'Stopped.' : 'A newer request took the place of this one.');
    } else if (result.error) {
      refuse(message, result.error.kind, result.error.say);
    } else {
      // The array is its buffer's only view, so giving it away costs nothing.
      const { reply, floats } = result;
      /** @type {any} */ (port).postMessage({ id: message.id, engine: version, ok: true, reply, floats }, [floats.buffer]);
    }
    pump();
  }

  /** @param {CallMessage} message @param {ErrorKind} kind @param {string} say */
  function refuse(message, kind, say) {
    port.postMessage({ id: message.id, error: { kind, say } });
  }
}

if (typeof WorkerGlobalScope !== 'undefined' && self instanceof WorkerGlobalScope) {
  if (typeof Go === 'undefined') importScripts('wasm_exec.js');
  serveEngine(/** @type {any} */ (self));
}
