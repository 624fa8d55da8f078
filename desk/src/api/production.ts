/** What the page draws of the sound's making; shapes of docs/desk-api.yaml. */
import type { ChordName, Note } from "./types";

export interface LayerSpan {
  startSeconds: number;
  endSeconds: number;
  layer: string;
  probability: number;
}

export interface PlacedSound {
  startSeconds: number;
  endSeconds: number;
  source: string;
  placement: number;
  probability: number;
}

export interface Gesture {
  startSeconds: number;
  endSeconds: number;
  kind: string;
  probability: number;
}

export interface EchoHeard {
  startSeconds: number;
  endSeconds: number;
  kind: string;
  lagSeconds: number;
  noteValue?: string;
  probability: number;
}

/** The room of a section: decay time band by band, 0 where it is not told, and what is reverberant against what is direct. */
export interface Room {
  startSeconds: number;
  endSeconds: number;
  wetToDryDb: number;
  wanderDb: number;
  changeDb: number;
  meanDecaySeconds: number;
  decaySeconds: number[];
  probability: number;
}

/** A sung voice beside the tune. */
export interface Voice {
  name: string;
  notes: Note[];
}

/** A line of the accompaniment. */
export interface Line extends Voice {
  kind?: string;
  placement?: number;
  probability: number;
}

/** One difference of a copy from the earlier one it is held against. */
export interface Difference {
  startSeconds: number;
  endSeconds: number;
  bar: number;
  probability: number;
}

export interface NoteDifference extends Difference, Omit<Note, "startSeconds" | "endSeconds" | "probability"> {
  fate: "added" | "removed" | "moved";
  part: string;
  beat: number;
  before?: string;
  semitonesAboveRoot?: number;
}

export interface Settled {
  startSeconds: number;
  endSeconds: number;
  member: "third" | "fifth";
  part: string;
  probability: number;
  before: ChordName;
  after: ChordName;
  by: { name: string; syllable?: string };
  bars: number[];
}

/** A section that returns, held bar by bar against its earlier copies. */
export interface Repeat {
  startSeconds: number;
  endSeconds: number;
  letter: string;
  occurrence: number;
  against: number;
  bars: { bar: number; earlier: number[] }[];
  notes: NoteDifference[];
  chords: (Difference & { before: ChordName; after: ChordName })[];
  layers: (Difference & { layer: string; entered: boolean })[];
  places: (Difference & { part: string; before: number; after: number })[];
  levels: (Difference & { beforeLufs: number; afterLufs: number })[];
  settled: Settled[];
}
