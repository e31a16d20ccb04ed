/*
 * The worker's own script, run in this process against an engine of the test's
 * making: no browser, no worker, no WebAssembly but an empty module.
 */
import fs from 'node:fs';
import vm from 'node:vm';

const source = fs.readFileSync(new URL('../../worker/worker.js', import.meta.url), 'utf8');
const emptyModule = new WebAssembly.Module(Uint8Array.of(0, 0x61, 0x73, 0x6d, 1, 0, 0, 0));

/** Two ports joined to each other; messages are cloned and arrive in a later turn. */
export function pair() {
  const ends = [0, 1].map(() => ({ onmessage: null, postMessage: undefined, close() {} }));
  ends.forEach((end, i) => {
    end.postMessage = (message) => {
      const copy = message && message.module ? message : structuredClone(message);
      setImmediate(() => ends[1 - i].onmessage?.({ data: copy }));
    };
  });
  return ends;
}

class Channel {
  constructor() {
    [this.port1, this.port2] = pair();
  }
}

/**
 * Loads the worker's script with the given engine behind it.
 * @param {{version: string, call: Function}} engine
 * @returns {{serve: (port: object) => void, exits: ((code: number) => void)[]}} exits end the engine as a Go panic does
 */
export function workerOf(engine) {
  const exits = [];
  class Go {
    importObject = {};
    exit = () => {};
    constructor() {
      exits.push((code) => this.exit(code));
    }
    run() {
      context.bootfloorEngine = engine;
      return new Promise(() => {});
    }
  }
  const context = vm.createContext({ Go, WebAssembly, MessageChannel: Channel, setTimeout, Promise, Set, Error, String });
  vm.runInContext(source, context);
  return { serve: context.serveEngine, exits };
}

/**
 * What createEngine wants, with a worker of this kind for every spawn.
 * @param {object} engine
 */
export function partsOf(engine, version = engine.version) {
  const spawned = [];
  const worker = workerOf(engine);
  const states = [];
  return {
    spawned,
    states,
    exits: worker.exits,
    version,
    load: async () => emptyModule,
    spawn: async () => {
      const [page, far] = pair();
      worker.serve(far);
      let fail;
      const failed = new Promise((resolve) => {
        fail = resolve;
      });
      const one = {
        port: page,
        fail,
        failed,
        ended: false,
        terminate() {
          one.ended = true;
          far.onmessage = null;
          far.postMessage = () => {};
        },
      };
      spawned.push(one);
      return one;
    },
    onState: (event) => states.push(event.kind),
  };
}

export const turns = async (n = 10) => {
  for (let i = 0; i < n; i++) await new Promise((resolve) => setImmediate(resolve));
};
