import type { FindingGroup, Verdict } from "./findings";
import type { EchoHeard, Gesture, LayerSpan, Line, PlacedSound, Repeat, Room, Voice } from "./production";

/** The shapes of docs/desk-api.yaml, as far as the page uses them. */

/** Where a song on the shelf comes from; only recordings have sound. */
export type Origin = "recording" | "chart" | "memory";

export interface SongEntry {
  id: number;
  title: string;
  artist?: string;
  year?: number;
  durationSeconds: number;
  tempoBpm?: number;
  meter?: string;
  key?: string;
  studiedAt: string;
  origin: Origin;
}

export interface SongWords {
  title?: string | null;
  artist?: string | null;
  year?: number | null;
}

export interface Song {
  id: number;
  title: string;
  artist?: string;
  year?: number;
  durationSeconds: number;
  studiedAt: string;
  origin: Origin;
  said: SongWords;
  tagged: SongWords;
}

export interface Facts {
  tempoBpm?: number;
  tatumsPerBeat?: number;
  swingRatio?: number;
  tempoProbability?: number;
  otherTempi?: { bpm: number; probability: number }[];
  meter?: string;
  meterProbability?: number;
  otherMeters?: { meter: string; probability: number }[];
  tuningCents?: number;
  a4Hertz?: number;
  tuningProbability?: number;
  keys: string;
  integratedLufs?: number;
  rangeLu?: number;
}

export interface Bar {
  number: number;
  startSeconds: number;
  endSeconds: number;
  firstBeat: number;
  beats: number;
  signature: string;
  lufs?: number;
  onsetsPerBeat?: number;
}

export interface Section {
  startSeconds: number;
  endSeconds: number;
  firstBar: number;
  lastBar: number;
  letter: string;
  occurrence: number;
  transposedSemitones: number;
  probability: number;
  place?: string;
  function?: string;
  roleProbability?: number;
  name: string;
}

export interface KeyRegion {
  startSeconds: number;
  endSeconds: number;
  key: string;
  label: string;
  probability: number;
  runnersUp: { key: string; label: string; probability: number }[];
}

export interface ChordName {
  harte: string;
  label: string;
}

export interface Member {
  accompaniment: string;
  voices: string;
  impliedBy: string;
}

export interface Chord extends ChordName {
  startSeconds: number;
  endSeconds: number;
  startBeat?: number;
  endBeat?: number;
  notes?: string[];
  numeral?: string;
  function?: string;
  borrowed?: boolean;
  arrivalBeats?: number;
  numeralProbability?: number;
  probability: number;
  open: boolean;
  third?: Member;
  fifth?: Member;
  seventh?: Member;
  runnersUp: (ChordName & { numeral?: string; probability: number })[];
  besides?: ChordName;
}

export interface Note {
  startSeconds: number;
  endSeconds: number;
  startBeat?: number;
  endBeat?: number;
  midi: number;
  pitch: string;
  name: string;
  syllable?: string;
  degree?: string;
  cents: number;
  probability: number;
  open: boolean;
}

export interface Remark {
  id: number;
  startSeconds: number;
  endSeconds?: number;
  text: string;
  author: string;
  saidAt: string;
  /** What it said before it was reworded, oldest first. */
  earlier?: { text: string; author: string; saidAt: string }[];
}

export type NewRemark = Pick<Remark, "startSeconds" | "endSeconds" | "text">;

export type Span = [number, number];

/** What a listener says against a facet; the fields of each kind stand in the contract. */
export interface Correction {
  kind: string;
  span?: Span;
  seconds?: number;
  factor?: number;
  cents?: number;
  signature?: string;
  key?: string;
  chord?: string;
  midiPitch?: number;
  pitch?: string;
  letter?: string;
  role?: string;
  layer?: string;
  sounds?: boolean;
  voice?: string;
  line?: string;
  source?: string;
  placement?: number;
  echo?: string;
  lagSeconds?: number;
  decaySeconds?: number;
  wetToDryDb?: number;
}

export interface Hearing {
  id: number;
  author: string;
  saidAt: string;
  heard: Correction;
  label: string;
  agrees?: boolean;
  differsIn?: string[];
  program?: { startSeconds: number; endSeconds: number; label: string }[];
  decision: Decision;
  /** All that were made, oldest first. */
  decisions?: { author: string; saidAt: string; decision: Decision }[];
}

export type Decision = "mine" | "program" | "both" | "open";

export interface Said {
  id?: number;
  correction: Correction;
  words: string;
}

export interface Step {
  id: number;
  author: string;
  saidAt: string;
  inForce: boolean;
  corrections: Said[];
}

export type Focus = "low-octave-up" | "middle" | "sides" | "left" | "right" | "held" | "struck";

export interface Stretch {
  startSeconds: number;
  endSeconds: number;
  words: string;
}

export interface Change {
  facet: string;
  before: Stretch[];
  after: Stretch[];
}

export interface Offer {
  section: { letter: string; occurrence: number; firstBar: number; lastBar: number };
  correction: Correction;
  words: string;
  change: Change;
}

/** Who speaks at this desk; `given` once somebody said so, `shared` where several use the shelf. */
export interface Speaker {
  name: string;
  given: boolean;
  shared: boolean;
}

export interface Settings {
  minorSyllables?: "la" | "do";
  modeSyllables?: "own" | "altered";
  minorNumerals?: "major-scale" | "natural-minor";
  inversions?: "figures" | "slash";
  noteNames?: "english" | "german" | "fixed-do";
  instrument?: string;
  page?: PageSettings;
}

/** The page's own settings, kept beside those of the trade. */
export interface PageSettings {
  textSize?: number;
  hand?: "right" | "left";
  earFirst?: boolean;
  order?: "music" | "time";
  cautioned?: boolean;
  volume?: number;
}

export interface SongPage {
  /** Of each part that was sent or held, by which it is known again. */
  tags?: Record<string, string>;
  song: Song;
  /** Title, artist and year as said before the last time, oldest first. */
  earlierWords?: { title?: string; artist?: string; year?: number; author: string; saidAt: string }[];
  revision: number;
  settings: Settings;
  facts: Facts;
  beats: number[];
  bars: Bar[];
  sections: Section[];
  keys: KeyRegion[];
  chords: Chord[];
  bass: Note[];
  melody: Note[];
  texture?: { layers: LayerSpan[]; gestures: Gesture[] };
  space?: { events: PlacedSound[] };
  bands?: { name: string; bottomHz: number; topHz: number }[];
  echoes?: { echoes: EchoHeard[]; reverbs: Room[] };
  voices?: Voice[];
  lines?: Line[];
  repeats?: Repeat[];
  findings?: FindingGroup[];
  verdicts?: Verdict[];
  remarks?: Remark[];
  hearings?: Hearing[];
  steps: Step[];
  canUndo: boolean;
  canRedo: boolean;
  unplaced: Said[];
}

export interface Answer {
  revision: number;
  changes: Change[];
  unplaced: Said[];
  page: SongPage;
}

export interface Curve {
  stretches: { startSeconds: number; stepSeconds: number; midiPitches: number[] }[];
}

export interface Peaks {
  fromSeconds: number;
  toSeconds: number;
  lowest: number[];
  highest: number[];
}

export interface Work {
  id: number;
  name: string;
  state: "waiting" | "working" | "done" | "failed" | "cancelled";
  stage?: string;
  share?: number;
  song?: number;
  error?: string;
}

export interface Trouble {
  error: string;
  kind: string;
  revision?: number;
}
