import type { SongEntry } from "./types";

/** What the shelf answers, and what a lesson is. */
export interface Place {
  startSeconds: number;
  endSeconds: number;
  bars?: [number, number];
}

export interface SearchHit extends SongEntry {
  places: (Place & { what: string })[];
}

export interface LikeSong extends SongEntry {
  likeness: number;
  place: Place;
}

export interface KeptSearch {
  name: string;
  question: string;
  author?: string;
}

export interface LessonItem {
  technique?: string;
  start: number;
  end: number;
  heading: string;
  /** The teacher's, in Markdown. */
  words: string;
  /** Whether the page carries this stretch of the recording. */
  excerpt: boolean;
  asTold: string;
  bars?: [number, number];
}

export interface Lesson {
  title: string;
  revision: number;
  items: LessonItem[];
  minorSyllables?: string;
  instrument?: string;
  /** Of the class, 1 to 3: where the exercises of its page begin. */
  level?: number;
}

export interface KeptLesson {
  id: number;
  song: number;
  version: number;
  author: string;
  savedAt: string;
  /** The lesson that somebody else had kept meanwhile. */
  beside?: number;
  lesson: Lesson;
  changes: { item: number; before: string; now?: string }[];
}

interface SharedMusic {
  length: number;
  words: string;
  semitones: number;
  inFirst: Place;
  inSecond: Place;
}

interface Named {
  technique: string;
  name: string;
}

export interface Comparison {
  first: { id: number; title: string; durationSeconds: number };
  second: { id: number; title: string; durationSeconds: number };
  both: Named[];
  onlyFirst: Named[];
  onlySecond: Named[];
  progression?: SharedMusic;
  figure?: SharedMusic;
  likeness: number;
  firstEnergy: (Place & { letter: string; height: number })[];
  secondEnergy: (Place & { letter: string; height: number })[];
}

/** A new piece that uses a technique. */
export interface Sketch {
  technique: string;
  name: string;
  seed: number;
  key: string;
  bpm: number;
  why: string;
  words: string;
  /** The bars that use it, and when they sound. */
  bars: [number, number];
  startSeconds: number;
  endSeconds: number;
  numerals: string[];
  inCommon?: { notes: number; chords: number };
  files: string[];
}
