/**
 * The messages between the page and the engine's worker: their shapes, and the
 * page's end of the line. Any pair of ports will do: a worker, a
 * MessageChannel on the page's own thread, or a loopback in a test.
 *
 * @typedef {'bad_request'|'cancelled'|'superseded'|'crashed'|'version_mismatch'|'internal'} ErrorKind
 *
 * @typedef {object} StartMessage  page to worker, first of all
 * @property {string} start  the page's version of the engine
 * @property {WebAssembly.Module} module
 *
 * @typedef {object} CallMessage  page to worker
 * @property {number} id
 * @property {string} engine  the version the page was built with
 * @property {string} call
 * @property {string} request  JSON
 * @property {string} [latest]  a newer request with the same key makes this one pointless
 *
 * @typedef {object} CancelMessage  page to worker
 * @property {number} cancel  the id of the call
 *
 * @typedef {StartMessage|CallMessage|CancelMessage} ToWorker
 *
 * @typedef {object} Progress
 * @property {number} done
 * @property {number} of
 * @property {string} say
 * @property {any} [soFar]  the best answer yet
 *
 * @typedef {object} ReadyMessage  worker to page, once
 * @property {string} ready  the engine's version
 *
 * @typedef {object} ReplyMessage  worker to page
 * @property {number} id
 * @property {string} engine
 * @property {true} ok
 * @property {string} reply  JSON
 * @property {Float64Array} floats  transferred
 *
 * @typedef {object} ProgressMessage  worker to page
 * @property {number} id
 * @property {{done: number, of: number, say: string, soFar: string|null}} progress
 *
 * @typedef {object} ErrorMessage  worker to page
 * @property {number} id
 * @property {{kind: ErrorKind, say: string}} error
 *
 * @typedef {object} CrashMessage  worker to page, last of all
 * @property {string} crashed
 *
 * @typedef {ReadyMessage|ReplyMessage|ProgressMessage|ErrorMessage|CrashMessage} FromWorker
 *
 * @typedef {object} Port
 * @property {(message: any) => void} postMessage
 * @property {((event: MessageEvent<any>) => void)|null} onmessage
 *
 * @typedef {object} Answer
 * @property {any} reply
 * @property {Float64Array} floats
 */

/** A call that failed: `kind` for the program, `message` a sentence for the reader. */
export class EngineError extends Error {
  /** @param {ErrorKind} kind @param {string} say */
  constructor(kind, say) {
    super(say);
    this.name = 'EngineError';
    this.kind = kind;
  }
}

/**
 * @typedef {object} Pending
 * @property {CallMessage} message
 * @property {(answer: Answer) => void} resolve
 * @property {(error: EngineError) => void} reject
 * @property {((progress: Progress) => void)|undefined} onProgress
 */

/** The page's end of one port: numbers the calls and hands each answer to who asked. */
export class Line {
  /** @type {Map<number, Pending>} */
  #pending = new Map();
  /** @type {Port} */
  #port;
  /** @type {string} */
  #version;
  /** @type {(say: string) => void} */
  #onCrash;
  /** Resolves when the engine at the other end has stated that it runs. */
  ready;
  /** @type {() => void} */
  #onReady = () => {};
  /** @type {(error: EngineError) => void} */
  #onRefused = () => {};

  /**
   * @param {Port} port
   * @param {string} version  the engine's version this page was built with
   * @param {(say: string) => void} onCrash  called once; every pending call is then the caller's
   */
  constructor(port, version, onCrash) {
    this.#port = port;
    this.#version = version;
    this.#onCrash = onCrash;
    this.ready = new Promise((/** @type {(v: void) => void} */ resolve, reject) => {
      this.#onReady = resolve;
      this.#onRefused = reject;
    });
    // Nobody need wait for it: a refusal reaches every call as well.
    this.ready.catch(() => {});
    port.onmessage = (event) => this.#receive(event.data);
  }

  /** @param {WebAssembly.Module} module */
  start(module) {
    this.#port.postMessage({ start: this.#version, module });
  }

  /** @param {Pending} pending */
  send(pending) {
    // Which older ones with the same key are superseded is for the worker to
    // say: one that is already computed is an answer worth drawing, or a hand
    // that moves faster than the engine would see nothing until it rests.
    this.#pending.set(pending.message.id, pending);
    this.#port.postMessage(pending.message);
  }

  /** Gives a call up at once and asks the worker to. @param {number} id */
  cancel(id) {
    const pending = this.#pending.get(id);
    if (!pending) return;
    this.#pending.delete(id);
    this.#port.postMessage({ cancel: id });
    pending.reject(new EngineError('cancelled', 'Stopped.'));
  }

  /** Takes every call that has no answer yet off this line. @returns {Pending[]} */
  takePending() {
    const all = [...this.#pending.values()];
    this.#pending.clear();
    return all;
  }

  /** Stops listening. */
  close() {
    this.#port.onmessage = null;
  }

  /** Called for every reply and error, whoever still waits for it. @type {(id: number) => void} */
  onSettled = () => {};

  /** @param {FromWorker} message */
  #receive(message) {
    if ('ready' in message) {
      if (message.ready === this.#version) this.#onReady();
      else this.#refuse(message.ready);
      return;
    }
    if ('crashed' in message) {
      this.close();
      this.#onCrash(message.crashed);
      return;
    }
    const pending = this.#pending.get(message.id);
    if ('progress' in message) {
      const { done, of, say, soFar } = message.progress;
      pending?.onProgress?.({ done, of, say, soFar: soFar === null ? undefined : JSON.parse(soFar) });
      return;
    }
    this.onSettled(message.id);
    if (!pending) return; // superseded or cancelled: the answer is stale
    this.#pending.delete(message.id);
    if ('error' in message) {
      pending.reject(new EngineError(message.error.kind, message.error.say));
    } else if (message.engine !== this.#version) {
      pending.reject(mismatch(this.#version, message.engine));
    } else {
      pending.resolve({ reply: JSON.parse(message.reply), floats: message.floats });
    }
  }

  /** @param {string} theirs */
  #refuse(theirs) {
    const error = mismatch(this.#version, theirs);
    this.#onRefused(error);
    for (const pending of this.takePending()) pending.reject(error);
  }
}

/** @param {string} page @param {string} engine */
function mismatch(page, engine) {
  return new EngineError(
    'version_mismatch',
    `This page (${page}) and its engine (${engine}) are of different versions. Reload the page; your job is saved.`,
  );
}
