import { byteRange, CHUNK_FRAMES, FRAME_BYTES, HEADER_BYTES } from "./sound";

/** Fetches one chunk of a source from the desk. */
export type FetchChunk = (chunk: number) => Promise<ArrayBuffer>;

/** Chunks of a WAV that understands ranges. */
export function ranged(path: string): FetchChunk {
  return async (chunk) => {
    const [first, last] = byteRange(chunk);
    const response = await fetch(path, { headers: { Range: `bytes=${first}-${last}` } });
    if (response.status !== 206) throw new Error(`The sound did not come (${response.status}).`);
    const bytes = await response.arrayBuffer();
    return bytes.slice(0, bytes.byteLength - (bytes.byteLength % FRAME_BYTES));
  };
}

/** Chunks of a WAV that the desk renders from a span on: each is asked for by its seconds. */
export function rendered(path: string, frameRate: number, lengthFrames: number): FetchChunk {
  return async (chunk) => {
    const from = (chunk * CHUNK_FRAMES) / frameRate;
    const to = Math.min((chunk + 1) * CHUNK_FRAMES, lengthFrames) / frameRate;
    const response = await fetch(`${path}${path.includes("?") ? "&" : "?"}fromSeconds=${from}&toSeconds=${to}`);
    if (!response.ok) throw new Error(`The tones did not come (${response.status}).`);
    const bytes = await response.arrayBuffer();
    const frames = Math.min(CHUNK_FRAMES, Math.floor((bytes.byteLength - HEADER_BYTES) / FRAME_BYTES));
    return bytes.slice(HEADER_BYTES, HEADER_BYTES + frames * FRAME_BYTES);
  };
}

/** Brings wanted chunks, few at a time, each once; those no longer wanted are not begun. */
export class Fetcher {
  private readonly running = new Set<string>();
  private waiting: { source: string; chunk: number }[] = [];
  private readonly sources = new Map<string, FetchChunk>();

  constructor(
    private readonly deliver: (source: string, chunk: number, samples: ArrayBuffer) => void,
    private readonly fail: (reason: unknown) => void,
    private readonly atOnce = 3,
  ) {}

  source(name: string, fetchChunk: FetchChunk): void {
    this.sources.set(name, fetchChunk);
  }

  want(wants: { source: string; chunk: number }[]): void {
    this.waiting = wants.filter(({ source, chunk }) => !this.running.has(`${source} ${chunk}`));
    this.next();
  }

  private next(): void {
    while (this.running.size < this.atOnce && this.waiting.length > 0) {
      const { source, chunk } = this.waiting.shift()!;
      const fetchChunk = this.sources.get(source);
      if (!fetchChunk) continue;
      const key = `${source} ${chunk}`;
      this.running.add(key);
      fetchChunk(chunk)
        .then((samples) => this.sources.get(source) === fetchChunk && this.deliver(source, chunk, samples))
        .catch(this.fail)
        .finally(() => {
          this.running.delete(key);
          this.next();
        });
    }
  }
}

/**
 * Chunks of a WAV that holds only a span of the recording and understands ranges; silence around it. The span's
 * frames are the recording's: its first frame is `startFrame`.
 */
export function within(path: string, startFrame: number, endFrame: number): FetchChunk {
  return async (chunk) => {
    const chunkStart = chunk * CHUNK_FRAMES;
    const from = Math.max(chunkStart, startFrame);
    const to = Math.min(chunkStart + CHUNK_FRAMES, endFrame);
    const whole = new Uint8Array(CHUNK_FRAMES * FRAME_BYTES);
    if (from >= to) return whole.buffer;
    const first = HEADER_BYTES + (from - startFrame) * FRAME_BYTES;
    const last = HEADER_BYTES + (to - startFrame) * FRAME_BYTES - 1;
    const response = await fetch(path, { headers: { Range: `bytes=${first}-${last}` } });
    if (response.status !== 206) throw new Error(`The focus did not come (${response.status}).`);
    const bytes = new Uint8Array(await response.arrayBuffer());
    whole.set(bytes.subarray(0, (to - from) * FRAME_BYTES), (from - chunkStart) * FRAME_BYTES);
    return whole.buffer;
  };
}
