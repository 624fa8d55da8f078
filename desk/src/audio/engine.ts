import { Clicks, firstBeatAt } from "./clicks";
import { Resampler } from "./resampler";
import type { Command, Level, Report, Stretcher, Want } from "./messages";
import { CHUNK_FRAMES, FRAME_RATE, type Loop } from "./sound";
import type { SoundStore } from "./store";
import { addFromTape, rolled } from "./tape";

/** How the unrolled line runs. */
interface Here {
  loop: Loop | null;
  wentRound: boolean;
}

/** Seconds of sound asked for ahead of the playhead. */
const AHEAD_SECONDS = 7;

/**
 * The desk's player: what sounds, block by block. Knows no Web Audio, so that it can be measured anywhere. At speed 1
 * and without transposition the recording's samples come out as they are.
 */
export class Engine {
  private playing = false;
  private frame = 0;
  private rate = 1;
  /** How much higher than the recording it sounds, as a ratio. */
  private raised = 1;
  private loop: Loop | null = null;
  private wentRound = false;
  private starved = false;
  private lengthFrames = 0;
  private levels: { source: string; gain: number; target: number }[] = [];
  private beats = new Float64Array(0);
  private firstOfBar = new Uint8Array(0);
  private clickGain = 0;
  private countIn: { left: number; framesApart: number; until: number } | null = null;
  private leaving: (Here & { frame: number }) | null = null;
  /** Where the stretcher is fed next, on the unrolled line; null where it must be primed. */
  private fed: number | null = null;
  private sounded = false;
  private readonly clicks = new Clicks(FRAME_RATE);
  private readonly resampler = new Resampler();
  private readonly scratch: Float32Array[];

  constructor(private readonly store: SoundStore, private readonly stretcher: Stretcher) {
    this.scratch = [new Float32Array(stretcher.historyFrames), new Float32Array(stretcher.historyFrames)];
  }

  command(command: Command): void {
    switch (command.do) {
      case "play":
        this.playing = true;
        this.countIn = command.countIn && command.countIn.clicks > 0
          ? { left: command.countIn.clicks, framesApart: command.countIn.framesApart, until: 0 } : null;
        break;
      case "pause":
        this.playing = false;
        this.countIn = null;
        break;
      case "seek":
        this.leaving = { frame: this.frame, loop: this.loop, wentRound: this.wentRound };
        this.frame = Math.max(0, command.frame);
        this.wentRound = false;
        this.fed = null;
        break;
      case "loop":
        this.loop = command.loop;
        this.fed = null;
        this.wentRound = false;
        break;
      case "speed":
        this.fed = null;
        this.rate = command.rate;
        this.raised = 2 ** (command.semitones / 12);
        this.resampler.set(this.raised);
        break;
      case "levels":
        this.setLevels(command.levels);
        break;
      case "beats":
        this.beats = command.frames as Float64Array<ArrayBuffer>;
        this.firstOfBar = command.first as Uint8Array<ArrayBuffer>;
        break;
      case "click":
        this.clickGain = command.gain;
        break;
      case "length":
        this.lengthFrames = command.frames;
        break;
    }
  }

  /** Fills both channels with what sounds next. */
  process(left: Float32Array, right: Float32Array): void {
    left.fill(0);
    right.fill(0);
    const sounds = this.playing && !this.counts(left.length) && this.ready();
    if (sounds || this.sounded) this.render(left, right);
    // Begins and ends within one block, so that neither clicks.
    if (sounds !== this.sounded) fade(left, right, sounds);
    this.sounded = sounds;
    if (sounds) this.advance(left.length);
    this.clicks.render(left, right);
    this.leaving = null;
  }

  report(): Report {
    return {
      frame: this.frame, rate: this.rate, playing: this.playing, counting: this.countIn !== null, starved: this.starved,
      loop: this.loop, wentRound: this.wentRound,
    };
  }

  /** Chunks that will be needed soon and are not there, the most urgent first. */
  wants(): Want[] {
    const wants: Want[] = [];
    for (const level of this.levels) {
      if (level.target === 0) continue;
      for (const chunk of this.chunksAhead()) {
        if (!this.store.has(level.source, chunk)) wants.push({ source: level.source, chunk });
      }
    }
    return wants;
  }

  private chunksAhead(): Set<number> {
    const chunks = new Set<number>();
    const add = (frame: number) => {
      const at = rolled(Math.round(frame), this.loop, this.wentRound);
      if (at >= 0 && at < this.lengthFrames) chunks.add(Math.floor(at / CHUNK_FRAMES));
    };
    for (let ahead = 0; ahead <= AHEAD_SECONDS * FRAME_RATE; ahead += CHUNK_FRAMES / 4) add(this.frame + ahead);
    add(this.frame - this.stretcher.historyFrames);
    if (this.loop) {
      add(this.loop.start);
      add(this.loop.end - 1);
    }
    return chunks;
  }

  private setLevels(levels: Level[]): void {
    for (const level of this.levels) level.target = 0;
    for (const { source, gain } of levels) {
      const known = this.levels.find((level) => level.source === source);
      if (known) known.target = gain;
      else this.levels.push({ source, gain: this.sounded ? 0 : gain, target: gain });
    }
  }

  private stretched(): boolean {
    return this.rate !== 1 || this.raised !== 1;
  }

  /** Whether the sound for the next block is there; otherwise the playhead waits. */
  private ready(): boolean {
    const ahead = this.stretched() ? this.stretcher.aheadFrames(this.stretchRate()) : 128;
    this.starved = this.levels.some((level) => level.target > 0 && [this.frame, this.frame + ahead].some((frame) => {
      const at = rolled(Math.round(frame), this.loop, this.wentRound);
      return at < this.lengthFrames && !this.store.has(level.source, Math.floor(at / CHUNK_FRAMES));
    }));
    return !this.starved;
  }

  /** Strikes the clicks of a count-in; true while it lasts. */
  private counts(frames: number): boolean {
    const count = this.countIn;
    if (!count) return false;
    // The first beat of the music takes the place of the click after the last.
    if (count.left === 0 && count.until < frames / 2) {
      this.countIn = null;
      return false;
    }
    let offset = count.until;
    while (offset < frames && count.left > 0) {
      this.clicks.strike(Math.max(0, Math.round(offset)), false, 0.35);
      count.left--;
      offset += count.framesApart;
    }
    count.until = offset - frames;
    return true;
  }

  private render(left: Float32Array, right: Float32Array): void {
    const frames = left.length;
    const here: Here = { loop: this.loop, wentRound: this.wentRound };
    if (this.stretched()) {
      this.renderStretched(left, right, here);
    } else {
      this.fed = null;
      this.add(Math.round(this.frame), left, right, here);
      if (this.leaving && this.sounded) {
        const old = [new Float32Array(frames), new Float32Array(frames)];
        this.add(Math.round(this.leaving.frame), old[0], old[1], this.leaving);
        for (let i = 0; i < frames; i++) {
          const share = (i + 1) / frames;
          left[i] = left[i] * share + old[0][i] * (1 - share);
          right[i] = right[i] * share + old[1][i] * (1 - share);
        }
      }
    }
    for (const level of this.levels) level.gain = level.target;
    this.levels = this.levels.filter((level) => level.gain > 0);
  }

  /**
   * Another pitch is another speed of reading, made good by stretching as much more: exact to the cent, where moving
   * the pitch in the spectrum is not.
   */
  private renderStretched(left: Float32Array, right: Float32Array, here: Here): void {
    const ahead = this.stretcher.aheadFrames(this.stretchRate());
    const fed = this.fed ?? this.prime(Math.round(this.frame + ahead), here);
    const end = Math.max(fed, Math.round(this.frame + left.length * this.rate + ahead));
    const count = this.raised === 1 ? left.length : this.resampler.need(left.length);
    const stretched = this.raised === 1 ? [left, right] : [new Float32Array(count), new Float32Array(count)];
    if (count > 0) this.stretcher.stretch(this.sound(fed, end - fed, here), stretched);
    if (this.raised !== 1) this.resampler.run(stretched, [left, right]);
    this.fed = end;
  }

  private stretchRate(): number {
    return this.rate / this.raised;
  }

  private prime(fed: number, here: Here): number {
    const frames = this.stretcher.historyFrames;
    this.stretcher.prime(this.sound(fed - frames, frames, here), this.stretchRate());
    return fed;
  }

  private sound(frame: number, count: number, here: Here): Float32Array[] {
    const sound = this.scratch.map((channel) => channel.subarray(0, count).fill(0));
    this.add(frame, sound[0], sound[1], here);
    return sound;
  }

  private add(frame: number, left: Float32Array, right: Float32Array, at: Here): void {
    for (const level of this.levels) {
      if (level.gain === level.target) {
        addFromTape(this.store, level.source, frame, left.length, at.loop, at.wentRound, level.gain, left, right);
      } else {
        const part = [new Float32Array(left.length), new Float32Array(left.length)];
        addFromTape(this.store, level.source, frame, left.length, at.loop, at.wentRound, 1, part[0], part[1]);
        for (let i = 0; i < left.length; i++) {
          const gain = level.gain + ((level.target - level.gain) * (i + 1)) / left.length;
          left[i] += gain * part[0][i];
          right[i] += gain * part[1][i];
        }
      }
    }
  }

  private advance(frames: number): void {
    const next = this.frame + frames * this.rate;
    this.strikeBeats(next);
    this.frame = next;
    if (this.loop && this.frame >= this.loop.end) {
      this.frame -= this.loop.end - this.loop.start;
      if (this.fed !== null) this.fed -= this.loop.end - this.loop.start;
      this.wentRound = true;
    } else if (this.frame >= this.lengthFrames) {
      this.playing = false;
    }
  }

  private strikeBeats(next: number): void {
    if (this.clickGain === 0) return;
    const strike = (from: number, to: number, offset: number) => {
      for (let i = firstBeatAt(this.beats, from); i < this.beats.length && this.beats[i] < to; i++) {
        this.clicks.strike(Math.round(offset + (this.beats[i] - from) / this.rate), this.firstOfBar[i] === 1, this.clickGain);
      }
    };
    if (this.loop && next >= this.loop.end) {
      strike(this.frame, this.loop.end, 0);
      strike(this.loop.start, this.loop.start + next - this.loop.end, (this.loop.end - this.frame) / this.rate);
    } else {
      strike(this.frame, next, 0);
    }
  }
}

function fade(left: Float32Array, right: Float32Array, inward: boolean): void {
  for (let i = 0; i < left.length; i++) {
    const share = inward ? (i + 1) / left.length : 1 - (i + 1) / left.length;
    left[i] *= share;
    right[i] *= share;
  }
}
