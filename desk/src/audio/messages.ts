import type { Loop } from "./sound";

/** Slower or faster at the same pitch. */
export interface Stretcher {
  /** Frames it wants to be primed with after a jump. */
  readonly historyFrames: number;
  /** How far ahead of what is heard the sound it is fed must end, at this speed. */
  aheadFrames(rate: number): number;
  /** Takes the sound that leads to where it is fed next. */
  prime(history: Float32Array[], rate: number): void;
  /** Takes the next sound, as many frames as the speed says, and fills `out`. */
  stretch(sound: Float32Array[], out: Float32Array[]): void;
}

export interface Level {
  source: string;
  gain: number;
}

export type Command =
  | { do: "play"; countIn?: { clicks: number; framesApart: number } }
  | { do: "pause" }
  | { do: "seek"; frame: number }
  | { do: "loop"; loop: Loop | null }
  | { do: "speed"; rate: number; semitones: number }
  | { do: "levels"; levels: Level[] }
  | { do: "beats"; frames: Float64Array; first: Uint8Array }
  | { do: "click"; gain: number }
  | { do: "length"; frames: number };

/** Where the playhead is, as of the frame that is rendered next. */
export interface Report {
  frame: number;
  rate: number;
  playing: boolean;
  counting: boolean;
  starved: boolean;
  loop: Loop | null;
  wentRound: boolean;
}

export interface Want {
  source: string;
  chunk: number;
}
