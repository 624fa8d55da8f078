import type { Bar, Chord, Note, SongPage } from "../api/types";
import { lastNotAfter } from "../time/grid";
import { soundOf, soundWords } from "./production";

/** What starts within a bar; chords that were sounding already are the last of the list's `held`. */
export function inBar<T extends { startSeconds: number; endSeconds: number }>(items: readonly T[], bar: Bar): { held: T | null; starting: T[] } {
  let i = lastNotAfter(items, bar.startSeconds - 0.03, (item) => item.startSeconds);
  const held = i >= 0 && items[i].endSeconds > bar.startSeconds + 0.03 ? items[i] : null;
  const starting: T[] = [];
  for (i = Math.max(0, i + 1); i < items.length && items[i].startSeconds < bar.endSeconds - 0.03; i++) starting.push(items[i]);
  return { held, starting };
}

export function arrivalWords(beats: number | undefined): string {
  if (beats === undefined || Math.abs(beats) < 0.2) return "";
  const size = Math.abs(beats);
  const words = Math.abs(size - 0.5) < 0.13 ? "half a beat" : Math.abs(size - 1) < 0.13 ? "a beat" : `${size.toFixed(2)} beats`;
  return `${words} ${beats < 0 ? "early" : "late"}`;
}

export function lacksThird(chord: Chord): boolean {
  return /:[15](\/|\(|$)/.test(chord.harte);
}

export function chordWords(chord: Chord): string {
  // The numeral says it as well; once is enough.
  const numeral = chord.numeral?.replace("(no 3rd)", "");
  const notes = [numeral, arrivalWords(chord.arrivalBeats), lacksThird(chord) ? "no third" : "", chord.open ? "open" : ""];
  const said = notes.filter(Boolean).join(", ");
  return said ? `${chord.label} (${said})` : chord.label;
}

export const noteWord = (note: Note) => note.syllable ?? note.name;

/** A bar in words, for those who do not see the stack. */
export function barWords(page: SongPage, bar: Bar, section: string, otherwise = ""): string {
  const chords = inBar(page.chords, bar);
  const said = [
    ...(chords.held && chords.starting.length === 0 ? [`${chords.held.label} still sounding`] : []),
    ...chords.starting.map(chordWords),
  ];
  const line = (name: string, notes: Note[]) => (notes.length > 0 ? `${name}: ${notes.map(noteWord).join(" ")}.` : "");
  return [
    `Bar ${bar.number}, ${section}.`,
    said.length > 0 ? `${said.join("; ")}.` : "No new chord.",
    line("Bass", inBar(page.bass, bar).starting),
    line("Tune", inBar(page.melody, bar).starting),
    soundWords(soundOf(page, bar)),
    otherwise ? `Otherwise than before: ${otherwise}.` : "",
  ].filter(Boolean).join(" ");
}

/** A part as people say it: voice 2, line 1. */
export const partWords = (part: string) => (part === "melody" ? "tune" : part.replace("-", " "));
