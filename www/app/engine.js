/**
 * The engine as the rest of the page uses it: one function that answers. It
 * starts the worker, starts it again after a crash, and never makes the page
 * wait.
 */
import { EngineError, Line } from './protocol.js';

/**
 * @typedef {import('./protocol.js').Answer} Answer
 * @typedef {import('./protocol.js').Pending} Pending
 * @typedef {import('./protocol.js').Progress} Progress
 * @typedef {import('./protocol.js').Port} Port
 *
 * @typedef {object} CallOptions
 * @property {string} [latest]  of the requests with this key that still wait only the newest is computed; the others
 *   reject with kind superseded. Answers come in the order of the requests
 * @property {AbortSignal} [signal]  cancels: the call rejects at once with kind cancelled
 * @property {(progress: Progress) => void} [onProgress]
 * @property {boolean} [background]  long work: runs in a second worker, so that dragging stays live
 *
 * @typedef {object} Spawned
 * @property {Port} port
 * @property {() => void} terminate
 * @property {Promise<string>} failed  resolves with a sentence when the worker's script fails
 *
 * @typedef {object} EngineParts
 * @property {string} version  the engine's version the page was built with
 * @property {() => Promise<WebAssembly.Module>} load  compiles the engine; called once, again only if it failed
 * @property {() => Promise<Spawned>} spawn  starts a worker that waits for its start message
 * @property {(event: {kind: 'ready'|'crashed', say: string}) => void} [onState]
 *
 * @typedef {object} Engine
 * @property {(name: string, request: object, options?: CallOptions) => Promise<Answer>} call
 *   Rejects with an EngineError only.
 * @property {() => void} close  ends the workers; pending calls reject as cancelled
 */

/** How long a worker may take to notice a cancel before it is replaced. */
const CANCEL_GRACE_MS = 500;

/**
 * @param {EngineParts} parts
 * @returns {Engine}
 */
export function createEngine(parts) {
  let nextId = 1;
  /** @type {Promise<WebAssembly.Module>|null} */
  let module = null;
  const load = () => {
    module ??= parts.load().catch((error) => {
      module = null; // the next call tries again
      throw error;
    });
    return module;
  };
  const lanes = { front: new Lane(parts, load), back: new Lane(parts, load) };
  // Start at once: the first call should find a worker that runs.
  lanes.front.warm();

  return {
    call(name, request, options = {}) {
      return new Promise((resolve, reject) => {
        const { latest, signal, onProgress, background } = options;
        if (signal?.aborted) {
          reject(new EngineError('cancelled', 'Stopped.'));
          return;
        }
        const lane = background ? lanes.back : lanes.front;
        const id = nextId++;
        const abort = () => lane.cancel(id);
        signal?.addEventListener('abort', abort, { once: true });
        const done = () => signal?.removeEventListener('abort', abort);
        /** @type {Pending['message']} */
        const message = { id, engine: parts.version, call: name, request: JSON.stringify(request) };
        if (latest !== undefined) message.latest = latest;
        lane.send({
          message,
          onProgress,
          resolve: (answer) => {
            done();
            resolve(answer);
          },
          reject: (error) => {
            done();
            reject(error);
          },
        });
      });
    },
    close() {
      lanes.front.close();
      lanes.back.close();
    },
  };
}

/** One worker at a time, and what waits for it. */
class Lane {
  /** @type {EngineParts} */
  #parts;
  /** @type {() => Promise<WebAssembly.Module>} */
  #load;
  /** @type {{line: Line, spawned: Spawned, ran: boolean}|null} */
  #worker = null;
  #starting = false;
  #closed = false;
  /** Calls made while no worker runs. @type {Pending[]} */
  #waiting = [];
  /** Cancelled calls the worker has not let go of yet. @type {Map<number, ReturnType<typeof setTimeout>>} */
  #letGo = new Map();

  /** @param {EngineParts} parts @param {() => Promise<WebAssembly.Module>} load */
  constructor(parts, load) {
    this.#parts = parts;
    this.#load = load;
  }

  /** Starts a worker if none runs. */
  warm() {
    if (!this.#worker && !this.#starting && !this.#closed) this.#start();
  }

  /** @param {Pending} pending */
  send(pending) {
    if (this.#worker) {
      this.#worker.line.send(pending);
      return;
    }
    const { latest } = pending.message;
    this.#waiting = this.#waiting.filter((older) => {
      if (latest === undefined || older.message.latest !== latest) return true;
      older.reject(new EngineError('superseded', 'A newer request took the place of this one.'));
      return false;
    });
    this.#waiting.push(pending);
    this.warm();
  }

  /** @param {number} id */
  cancel(id) {
    const at = this.#waiting.findIndex((pending) => pending.message.id === id);
    if (at >= 0) {
      const [pending] = this.#waiting.splice(at, 1);
      pending?.reject(new EngineError('cancelled', 'Stopped.'));
      return;
    }
    if (!this.#worker) return;
    this.#worker.line.cancel(id);
    this.#letGo.set(id, setTimeout(() => this.#replace(), CANCEL_GRACE_MS));
  }

  close() {
    this.#closed = true;
    const pending = this.#drop();
    for (const one of [...pending, ...this.#waiting]) one.reject(new EngineError('cancelled', 'Stopped.'));
    this.#waiting = [];
  }

  async #start() {
    this.#starting = true;
    try {
      const [module, spawned] = await Promise.all([this.#load(), this.#parts.spawn()]);
      this.#starting = false;
      if (this.#closed) {
        spawned.terminate();
        return;
      }
      const line = new Line(spawned.port, this.#parts.version, (say) => this.#crashed(spawned, say));
      spawned.failed.then((say) => this.#crashed(spawned, say));
      line.onSettled = (id) => {
        clearTimeout(this.#letGo.get(id));
        this.#letGo.delete(id);
      };
      const worker = { line, spawned, ran: false };
      this.#worker = worker;
      line.ready.then(
        () => {
          worker.ran = true;
          this.#parts.onState?.({ kind: 'ready', say: '' });
        },
        () => {}, // every call is told
      );
      line.start(module);
      for (const pending of this.#waiting.splice(0)) line.send(pending);
    } catch (error) {
      this.#starting = false;
      const say = `The engine could not be loaded (${error instanceof Error ? error.message : error}). Try again; your job is saved.`;
      for (const pending of this.#waiting.splice(0)) pending.reject(new EngineError('internal', say));
    }
  }

  /** @param {Spawned} spawned @param {string} say */
  #crashed(spawned, say) {
    if (this.#worker?.spawned !== spawned) return;
    const { ran } = this.#worker;
    for (const pending of this.#drop()) {
      pending.reject(new EngineError('crashed', `${say} Your job is unharmed.`));
    }
    this.#parts.onState?.({ kind: 'crashed', say });
    // One that never ran would only fail again: the next call tries.
    if (ran) this.warm();
  }

  /** Ends a worker that does not listen and gives what else it had to a new one. */
  #replace() {
    this.#waiting.push(...this.#drop());
    this.warm();
  }

  /** @returns {Pending[]} what the worker had not answered */
  #drop() {
    for (const timer of this.#letGo.values()) clearTimeout(timer);
    this.#letGo.clear();
    if (!this.#worker) return [];
    const { line, spawned } = this.#worker;
    this.#worker = null;
    const pending = line.takePending();
    line.close();
    spawned.terminate();
    return pending;
  }
}
