import { signal } from "@preact/signals";
import type { Command, Level, Report } from "./messages";
import { Fetcher, type FetchChunk } from "./fetcher";
import { frameHeard, heardNow } from "./playhead";
import type { FromReel, ToReel } from "./reel.worklet";
import reelUrl from "./reel.worklet.ts?worker&url";
import { FRAME_RATE, framesAt, secondsAt, SHORTEST_LOOP, type Loop } from "./sound";

/** The source that is the recording itself. */
export const RECORDING = "recording";

/** The source that is the reading, played by plain tones. */
export const TONES = "tones";

const SILENT: Report = { frame: 0, rate: 1, playing: false, counting: false, starved: false, loop: null, wentRound: false };

/**
 * What the page plays with. The sound itself is made on the audio thread; here are the wishes, and what is told back.
 * The audio device is opened at the first play, as browsers ask for.
 */
export class Player {
  readonly playing = signal(false);
  readonly waiting = signal(false);
  readonly loop = signal<Loop | null>(null);
  readonly rate = signal(1);
  readonly semitones = signal(0);
  readonly volume = signal(0.6);
  readonly trouble = signal<string | null>(null);

  private context: AudioContext | null = null;
  private reel: AudioWorkletNode | null = null;
  private gain: GainNode | null = null;
  private report = SILENT;
  private atSeconds = 0;
  private readonly early: Command[] = [];
  private readonly fetcher = new Fetcher(
    (source, chunk, samples) => this.tell({ do: "chunk", source, chunk, samples }, [samples]),
    (reason) => (this.trouble.value = reason instanceof Error ? reason.message : String(reason)),
  );

  /** Where the listener is: what leaves the loudspeaker at this moment. */
  nowSeconds(): number {
    if (!this.context || !this.report.playing) return secondsAt(this.report.frame);
    return secondsAt(frameHeard(this.report, this.atSeconds, heardNow(this.context, performance.now())));
  }

  /** A source of sound and where its chunks come from; asked for only while its level is above nothing. */
  source(name: string, fetchChunk: FetchChunk): void {
    this.fetcher.source(name, fetchChunk);
    this.tell({ do: "forget", source: name });
  }

  length(seconds: number): void {
    this.command({ do: "length", frames: framesAt(seconds) });
  }

  beats(seconds: number[], firstOfBar: (beat: number) => boolean): void {
    const frames = Float64Array.from(seconds, framesAt);
    this.command({ do: "beats", frames, first: Uint8Array.from(seconds, (_, beat) => (firstOfBar(beat) ? 1 : 0)) });
  }

  levels(levels: Level[]): void {
    this.command({ do: "levels", levels });
  }

  click(gain: number): void {
    this.command({ do: "click", gain });
  }

  async play(countIn?: { clicks: number; secondsApart: number }): Promise<void> {
    await this.open();
    await this.context!.resume();
    this.command({ do: "play", countIn: countIn && { clicks: countIn.clicks, framesApart: framesAt(countIn.secondsApart) } });
    this.playing.value = true;
  }

  pause(): void {
    this.command({ do: "pause" });
    this.playing.value = false;
  }

  seek(seconds: number): void {
    const frame = Math.max(0, framesAt(seconds));
    const loop = this.loop.value;
    if (loop && (frame < loop.start || frame >= loop.end)) this.setLoop(null);
    this.command({ do: "seek", frame });
    this.report = { ...this.report, frame, wentRound: false };
    this.atSeconds = this.context?.currentTime ?? 0;
  }

  /** Loops a span and goes to its start, unless the playhead is inside already; null ends looping. */
  loopOver(span: { startSeconds: number; endSeconds: number } | null): void {
    if (!span) {
      this.setLoop(null);
      return;
    }
    const start = Math.max(0, framesAt(span.startSeconds));
    const loop = { start, end: Math.max(start + SHORTEST_LOOP, framesAt(span.endSeconds)) };
    const now = framesAt(this.nowSeconds());
    this.setLoop(loop);
    if (now < loop.start || now >= loop.end) this.seek(secondsAt(loop.start));
  }

  speed(rate: number, semitones: number): void {
    this.rate.value = rate;
    this.semitones.value = semitones;
    this.command({ do: "speed", rate, semitones });
  }

  /** Never more than one: nothing sounds louder here than in the recording. */
  loudness(volume: number): void {
    this.volume.value = Math.min(1, Math.max(0, volume));
    if (this.gain) this.gain.gain.setTargetAtTime(this.volume.value ** 2, this.context!.currentTime, 0.02);
  }

  close(): void {
    void this.context?.close();
    this.context = this.reel = this.gain = null;
    this.report = SILENT;
    this.playing.value = false;
  }

  private setLoop(loop: Loop | null): void {
    this.loop.value = loop;
    this.command({ do: "loop", loop });
  }

  private async open(): Promise<void> {
    if (this.context) return;
    const context = new AudioContext({ sampleRate: FRAME_RATE, latencyHint: "interactive" });
    this.context = context;
    await context.audioWorklet.addModule(reelUrl);
    const reel = new AudioWorkletNode(context, "undersong-reel", { numberOfInputs: 0, outputChannelCount: [2] });
    const gain = new GainNode(context, { gain: this.volume.value ** 2 });
    reel.connect(gain).connect(context.destination);
    reel.port.onmessage = (message: MessageEvent<FromReel>) => this.hear(message.data);
    this.reel = reel;
    this.gain = gain;
    this.early.forEach((command) => reel.port.postMessage(command));
  }

  /** Commands are remembered, the newest of each kind, so that a player that opens later obeys them too. */
  private command(command: Command): void {
    const known = this.early.findIndex((earlier) => earlier.do === command.do);
    if (known >= 0) this.early.splice(known, 1);
    if (command.do !== "play" && command.do !== "pause") this.early.push(command);
    this.reel?.port.postMessage(command);
  }

  private tell(message: ToReel, transfer: Transferable[] = []): void {
    this.reel?.port.postMessage(message, transfer);
  }

  private hear(message: FromReel): void {
    if (message.say === "at") {
      this.report = message.report;
      this.atSeconds = message.atSeconds;
      if (this.playing.value !== message.report.playing) this.playing.value = message.report.playing;
      if (this.waiting.value !== message.report.starved) this.waiting.value = message.report.starved;
    } else if (message.say === "want") {
      this.fetcher.want(message.wants);
    }
  }
}
