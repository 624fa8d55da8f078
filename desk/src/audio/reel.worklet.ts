import { Engine } from "./engine";
import type { Command, Report, Want } from "./messages";
import { FRAME_RATE } from "./sound";
import { SoundStore } from "./store";
import { makeStretcher } from "./stretcher";

/** Messages to the player on the audio thread. */
export type ToReel =
  | Command
  | { do: "chunk"; source: string; chunk: number; samples: ArrayBuffer }
  | { do: "forget"; source: string };

/** Messages from it. `atSeconds` is the audio clock's time of the report. */
export type FromReel =
  | { say: "ready" }
  | { say: "at"; report: Report; atSeconds: number }
  | { say: "want"; wants: Want[] };

declare const currentTime: number;
declare function registerProcessor(name: string, processor: new () => AudioWorkletProcessor): void;
declare class AudioWorkletProcessor {
  readonly port: MessagePort;
}

/** Reports after which what is still missing is asked for again, should it have been lost: about three seconds. */
const ASK_AGAIN_EVERY = 128;

/** Blocks of 128 frames between two reports: about 23 ms. */
const REPORT_EVERY = 8;

class Reel extends AudioWorkletProcessor {
  private readonly store = new SoundStore();
  private engine: Engine | null = null;
  private blocks = 0;
  private reports = 0;
  private lastWants = "";
  private readonly early: MessageEvent<ToReel>[] = [];

  constructor() {
    super();
    this.port.onmessage = (message: MessageEvent<ToReel>) => (this.engine ? this.take(message.data) : this.early.push(message));
    void makeStretcher(FRAME_RATE).then((stretcher) => {
      this.engine = new Engine(this.store, stretcher);
      this.early.splice(0).forEach((message) => this.take(message.data));
      this.say({ say: "ready" });
    });
  }

  process(_inputs: Float32Array[][], outputs: Float32Array[][]): boolean {
    const [left, right] = outputs[0];
    if (!this.engine || !right) return true;
    if (this.blocks++ % REPORT_EVERY === 0) this.tell();
    this.engine.process(left, right);
    return true;
  }

  private take(message: ToReel): void {
    if (message.do === "chunk") this.store.put(message.source, message.chunk, new Int16Array(message.samples));
    else if (message.do === "forget") {
      this.store.forget(message.source);
      this.lastWants = "";
    } else {
      this.engine!.command(message);
      this.tell();
    }
  }

  private tell(): void {
    this.say({ say: "at", report: this.engine!.report(), atSeconds: currentTime });
    const wants = this.engine!.wants();
    if (this.reports++ % ASK_AGAIN_EVERY === 0) this.lastWants = "";
    const key = JSON.stringify(wants);
    if (key !== this.lastWants) {
      this.lastWants = key;
      if (wants.length > 0) this.say({ say: "want", wants });
    }
  }

  private say(message: FromReel): void {
    this.port.postMessage(message);
  }
}

registerProcessor("undersong-reel", Reel);
