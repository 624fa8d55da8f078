import type { Bar, Section, SongPage } from "../api/types";
import { barsOrStretches } from "../time/grid";

/** One section: its bars, and the earlier copy of the same music that the desk holds it against. */
export interface Row {
  section: Section;
  /** Its place among the sections of the song, from 0. */
  index: number;
  bars: Bar[];
  above: Row | null;
}

/** Rows that are drawn aligned with each other. */
export interface Group {
  rows: Row[];
}

/** One line of bars on the page: a phrase of a row. */
export interface Line {
  row: Row;
  /** The bars of the row that it shows: from, and up to but without. */
  from: number;
  to: number;
  /** How far its row stands down among its copies, from 0; 0 carries the bar numbers. */
  copy: number;
}

/** Lines that belong together: the same phrase in every copy, to be read from above to below. */
export interface System {
  lines: Line[];
}

export type Order = "music" | "time";

/** The rows of a song, copies of the same music under each other, or all in the order they are heard. */
export function groups(page: SongPage, order: Order): Group[] {
  const bars = barsOrStretches(page);
  const sections = page.sections.length > 0 ? page.sections : [wholeSong(page, bars)];
  const copiesOf = new Map<string, Row[]>();
  const rows = sections.map((section, index): Row => {
    const repeat = page.repeats?.find((one) => one.letter === section.letter && one.occurrence === section.occurrence);
    const copies = copiesOf.get(section.letter) ?? [];
    const above = copies.find((copy) => copy.section.occurrence === repeat?.against) ?? copies.at(-1) ?? null;
    const row = { section, index, bars: barsOf(section, bars), above };
    copiesOf.set(section.letter, [...copies, row]);
    return row;
  }).filter((row) => row.bars.length > 0);
  if (order === "time") return rows.map((row) => ({ rows: [row] }));
  const byLetter = new Map<string, Group>();
  for (const row of rows) {
    const group = byLetter.get(row.section.letter);
    if (group) group.rows.push(row);
    else byLetter.set(row.section.letter, { rows: [row] });
  }
  return [...byLetter.values()];
}

function barsOf(section: Section, bars: Bar[]): Bar[] {
  const numbered = bars.filter((bar) => bar.number >= section.firstBar && bar.number <= section.lastBar);
  if (numbered.length > 0 && bars[0].beats > 0) return numbered;
  return bars.filter((bar) => bar.startSeconds >= section.startSeconds - 0.05 && bar.startSeconds < section.endSeconds - 0.05);
}

function wholeSong(page: SongPage, bars: Bar[]): Section {
  return {
    startSeconds: 0, endSeconds: page.song.durationSeconds, firstBar: bars[0].number, lastBar: bars[bars.length - 1].number,
    letter: "", occurrence: 1, transposedSemitones: 0, probability: 1, name: "The whole song",
  };
}

/** Cuts a group into lines of so many bars; every phrase of all copies stands together. */
export function systems(group: Group, barsPerLine: number): System[] {
  const most = Math.max(...group.rows.map((row) => row.bars.length));
  const result: System[] = [];
  for (let from = 0; from < most; from += barsPerLine) {
    const lines = group.rows
      .map((row, copy): Line => ({ row, from, to: Math.min(row.bars.length, from + barsPerLine), copy }))
      .filter((line) => line.from < line.to);
    result.push({ lines });
  }
  return result;
}

/** Bars on a line: as many as fit of a phrase's usual lengths, so that lines end where phrases do. */
export function barsPerLine(widthPixels: number, leastBarPixels: number): number {
  const fit = Math.floor(widthPixels / leastBarPixels);
  return [16, 12, 8, 4, 2].find((bars) => bars <= fit) ?? 1;
}
