// What wasm_exec.js and the engine put on the global object.

interface GoProgram {
  importObject: WebAssembly.Imports;
  exit: (code: number) => void;
  run(instance: WebAssembly.Instance): Promise<void>;
}

declare const Go: { new (): GoProgram };

declare var bootfloorEngine:
  | { version: string; call: (name: string, request: string, onProgress: Function | null) => any }
  | undefined;
