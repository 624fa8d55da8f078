import type { SongPage } from "../api/types";
import { changeWords } from "./changes";
import { wrapped } from "./labels";
import { placeChords, type LineScale, type PlacedChord } from "./place";
import { entryWords, soundOf } from "./production";
import type { Line } from "./rows";
import { repeatOf, samenessOf } from "./sameness";

/** Heights within a line at the usual text size. */
export const LEVEL_HEIGHT = 28;
const FOOT = 126;
const ROW = 12;
const BELOW = 8;
/** Words below a bar. */
export const SMALL_SIZE = 10.5;

/** What needs more room in one line than in another: names of chords in rows, words below the bars. */
export interface LineLayout {
  chords: PlacedChord[];
  /** How far everything below the raised names is moved down. */
  lift: number;
  /** For each bar, in rows. */
  entries: string[][];
  changes: string[][];
  /** Where the first row of changes stands. */
  changesTop: number;
  height: number;
}

/** All in pixels at the usual text size; `unit` is by how much it is set larger. */
export function lineLayout(page: SongPage, line: Line, scale: LineScale, unit: number): LineLayout {
  const bars = line.row.bars.slice(line.from, line.to);
  const repeat = repeatOf(page, line.row);
  const chords = placeChords(page, scale, samenessOf(page, line.row), unit);
  const lift = LEVEL_HEIGHT * Math.max(0, ...chords.map((chord) => chord.level));
  const width = scale.barWidth / unit - 4;
  const entries = bars.map((bar) => wrapped(entryWords(soundOf(page, bar)), width, SMALL_SIZE));
  const changes = bars.map((bar) => (repeat ? inRoom(changeWords(repeat, bar.number), width) : []));
  const rows = (words: string[][]) => Math.max(0, ...words.map((one) => one.length));
  const changesTop = FOOT + lift + ROW * Math.max(rows(entries), 1);
  return { chords, lift, entries, changes, changesTop, height: changesTop + ROW * rows(changes) + BELOW };
}

/** Rows of words that a bar gives to what it does otherwise, before it only counts. */
const ROWS_IN_FULL = 3;

function inRoom(words: { full: string; brief: string }, width: number): string[] {
  if (!words.full) return [];
  const full = wrapped(`≠ ${words.full}`, width, SMALL_SIZE);
  return full.length <= ROWS_IN_FULL ? full : wrapped(`≠ ${words.brief}`, width, SMALL_SIZE);
}
