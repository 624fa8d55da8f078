/** Frames a second of everything the desk sends as sound. */
export const FRAME_RATE = 44_100;

/** Sound travels and is kept in chunks of this many stereo frames: three seconds, half a mebibyte. */
export const CHUNK_FRAMES = 1 << 17;

/** A WAV header as the desk writes it; frame n begins at byte 44 + 4 n. */
export const HEADER_BYTES = 44;
export const FRAME_BYTES = 4;

export const framesAt = (seconds: number) => Math.round(seconds * FRAME_RATE);
export const secondsAt = (frames: number) => frames / FRAME_RATE;

/** First and last byte of a chunk in the desk's WAV, for a Range header; the last chunk may be cut short by the file. */
export function byteRange(chunk: number): [number, number] {
  const first = HEADER_BYTES + chunk * CHUNK_FRAMES * FRAME_BYTES;
  return [first, first + CHUNK_FRAMES * FRAME_BYTES - 1];
}

/** A loop of whole frames; `end` is the first frame that is not played. */
export interface Loop {
  start: number;
  end: number;
}

/** The least that can be looped: a twentieth of a second. */
export const SHORTEST_LOOP = FRAME_RATE / 20;
