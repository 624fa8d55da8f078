import { CHUNK_FRAMES } from "./sound";

interface Chunk {
  samples: Int16Array;
  used: number;
}

/**
 * Chunks of sound by source (the recording, the plain tones ...), at most so many of them: the one that was not
 * played for longest makes room. Samples are interleaved 16 bit, as they came.
 */
export class SoundStore {
  private readonly chunks = new Map<string, Chunk>();
  private clock = 0;

  /** @param most chunks kept over all sources; 160 are 80 MiB, nearly eight minutes */
  constructor(private readonly most = 160) {}

  put(source: string, index: number, samples: Int16Array): void {
    this.chunks.set(`${source} ${index}`, { samples, used: ++this.clock });
    if (this.chunks.size > this.most) this.makeRoom();
  }

  has(source: string, index: number): boolean {
    return this.chunks.has(`${source} ${index}`);
  }

  /** Forgets a source, because it sounds differently now. */
  forget(source: string): void {
    for (const key of [...this.chunks.keys()]) if (key.startsWith(`${source} `)) this.chunks.delete(key);
  }

  get size(): number {
    return this.chunks.size;
  }

  /**
   * Adds `gain` times the frames from `frame` on to both channels, from `offset`; silence where nothing is kept.
   */
  add(source: string, frame: number, count: number, gain: number, left: Float32Array, right: Float32Array, offset: number): void {
    this.addFaded(source, frame, count, gain, gain, left, right, offset);
  }

  /** As `add`, with a gain that goes straight from `from` to `to`. */
  addFaded(source: string, frame: number, count: number, from: number, to: number,
           left: Float32Array, right: Float32Array, offset: number): void {
    const rise = count > 0 ? (to - from) / count : 0;
    let done = frame < 0 ? Math.min(count, -frame) : 0;
    while (done < count) {
      const index = Math.floor((frame + done) / CHUNK_FRAMES);
      const first = frame + done - index * CHUNK_FRAMES;
      const run = Math.min(count - done, CHUNK_FRAMES - first);
      const chunk = this.chunks.get(`${source} ${index}`);
      if (chunk) {
        chunk.used = ++this.clock;
        const kept = Math.min(run, (chunk.samples.length >> 1) - first);
        for (let i = 0; i < kept; i++) {
          const gain = (from + rise * (done + i)) / 32768;
          left[offset + done + i] += gain * chunk.samples[2 * (first + i)];
          right[offset + done + i] += gain * chunk.samples[2 * (first + i) + 1];
        }
      }
      done += run;
    }
  }

  private makeRoom(): void {
    let oldest: string | undefined;
    let least = Infinity;
    for (const [key, chunk] of this.chunks) {
      if (chunk.used < least) {
        least = chunk.used;
        oldest = key;
      }
    }
    if (oldest !== undefined) this.chunks.delete(oldest);
  }
}
