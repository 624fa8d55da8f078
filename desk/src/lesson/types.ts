import type { Drill } from "../drill/types";

/** What the page carries beside its words: written by the program, read here. */
export interface Lesson {
  duration: number;
  /** Loudness every tenth of a second, a byte each, in Base64. */
  levels: string;
  items: Item[];
  /** Of the class: where the exercises begin. */
  level?: number;
  drills?: Drill[];
}

export interface Item {
  heading: string;
  start: number;
  end: number;
  example?: Example;
  /** A stretch of the recording as a data address, if the teacher switched it on. */
  excerpt?: string;
}

/** Bars written down, and the same as tones; `start` and `end` are seconds of the recording. */
export interface Example {
  bpm: number;
  swing: boolean;
  parts: Part[];
  start?: number;
  end?: number;
  tones?: Tone[];
}

export interface Part {
  name: string;
  clef: "TREBLE" | "TREBLE_OCTAVE_DOWN" | "BASS" | "BASS_OCTAVE_DOWN";
  bars: Bar[];
}

/** Lengths count in ticks, 24 a quarter. */
export interface Bar {
  number: number;
  signature: string;
  ticks: number;
  beatTicks: number;
  fifths: number;
  notes: Sign[];
  chords: Chord[];
}

/** A note, a part of one, or a rest (without pitch). */
export interface Sign {
  at: number;
  type: string;
  dots: number;
  triplet: boolean;
  pitch?: string;
  tied?: boolean;
  begins?: boolean;
  syllable?: string;
  marked?: boolean;
}

export interface Chord {
  at: number;
  label: string;
  numeral: string;
  held: boolean;
}

/** One plain tone, in seconds from the example's beginning. */
export interface Tone {
  part: string;
  at: number;
  for: number;
  midi: number;
}
