import { giveBack, loadModule } from "./capture";
import "signalsmith-stretch";
import type { Stretcher } from "./messages";

giveBack();

interface Wasm {
  _setBuffers(channels: number, frames: number): number;
  _presetDefault(channels: number, frameRate: number): void;
  _inputLatency(): number;
  _outputLatency(): number;
  _seek(frames: number, rate: number): void;
  _process(inputFrames: number, outputFrames: number): void;
  exports?: { memory: WebAssembly.Memory };
  HEAP8?: Int8Array;
}

/**
 * The library's stretcher without its own player: it is fed the sound ahead of the playhead, block after block, so that
 * any line of time can be played, a loop's among them. (Priming it anew before every block, as the library's player
 * does, raises every tone by 0.4 Hz: 15 cents for a low bass note. Its own way of moving
 * the pitch is off by as much; see the engine.)
 */
class StretchLibrary implements Stretcher {
  readonly historyFrames: number;
  private readonly inputLatency: number;
  private readonly outputLatency: number;
  private readonly buffers: number;

  constructor(private readonly wasm: Wasm, frameRate: number) {
    wasm._presetDefault(2, frameRate);
    this.inputLatency = wasm._inputLatency();
    this.outputLatency = wasm._outputLatency();
    this.historyFrames = this.inputLatency + this.outputLatency;
    this.buffers = wasm._setBuffers(2, this.historyFrames);
  }

  aheadFrames(rate: number): number {
    return this.outputLatency * rate + this.inputLatency;
  }

  prime(history: Float32Array[], rate: number): void {
    this.put(history);
    this.wasm._seek(history[0].length, rate);
  }

  stretch(sound: Float32Array[], out: Float32Array[]): void {
    this.put(sound);
    this.wasm._process(sound[0].length, out[0].length);
    out.forEach((channel, c) => channel.set(new Float32Array(this.memory(), this.at(2 + c), channel.length)));
  }

  private put(sound: Float32Array[]): void {
    sound.forEach((channel, c) => new Float32Array(this.memory(), this.at(c), channel.length).set(channel));
  }

  private at(buffer: number): number {
    return this.buffers + 4 * this.historyFrames * buffer;
  }

  private memory(): ArrayBuffer {
    return (this.wasm.exports?.memory.buffer ?? this.wasm.HEAP8!.buffer) as ArrayBuffer;
  }
}

/** Makes the stretcher ready; takes some milliseconds, once. */
export async function makeStretcher(frameRate: number): Promise<Stretcher> {
  return new StretchLibrary((await loadModule()) as Wasm, frameRate);
}
