/**
 * The stretch library is made as an audio processor with a player of its own. Only its stretcher is wanted here: while
 * the library loads, both names it builds on are lent to it, and what it registers is kept instead.
 */
interface Loaded {
  wasmModule: unknown;
}
type Processor = new (options: object) => Loaded;

const scope = globalThis as unknown as Record<string, unknown>;
const lent = { registerProcessor: scope.registerProcessor, AudioWorkletProcessor: scope.AudioWorkletProcessor };
let caught: Processor | undefined;
let whenReady = () => {};

scope.AudioWorkletProcessor = class {
  readonly port = { onmessage: null, postMessage: ([what]: unknown[]) => what === "ready" && whenReady() };
};
scope.registerProcessor = (_name: string, processor: Processor) => {
  caught = processor;
};

/** Takes back what was lent; to be called once the library is loaded. */
export function giveBack(): void {
  Object.assign(scope, lent);
}

/** The library's compiled module. */
export function loadModule(): Promise<unknown> {
  return new Promise((resolve, reject) => {
    if (!caught) {
      reject(new Error("The stretch library registered no processor; its version is not the one this was made for."));
      return;
    }
    const made = new caught({ numberOfOutputs: 1, outputChannelCount: [2] });
    whenReady = () => resolve(made.wasmModule);
  });
}
