import type { NoteDifference, Repeat } from "../api/production";
import type { Chord, Note, SongPage } from "../api/types";
import type { Row } from "./rows";

/** A difference within so many seconds of an event is about that event. */
const SAME_MOMENT_SECONDS = 0.03;

/** What a row has in common with the copy it is held against, and what is gone. */
export interface Sameness {
  chords: Set<Chord>;
  melody: Set<Note>;
  bass: Set<Note>;
  /** Notes of the earlier copy that are missing here, where they would sound. */
  goneMelody: NoteDifference[];
  goneBass: NoteDifference[];
}

/** The desk's account of a row that returns; none for the first copy of its music. */
export function repeatOf(page: SongPage, row: Row): Repeat | undefined {
  const { letter, occurrence } = row.section;
  return page.repeats?.find((repeat) => repeat.letter === letter && repeat.occurrence === occurrence);
}

const known = new WeakMap<SongPage, Map<Row, Sameness>>();

/** What a row shares with the copy above it; worked out once for each page. */
export function samenessOf(page: SongPage, row: Row): Sameness {
  let rows = known.get(page);
  if (!rows) known.set(page, (rows = new Map()));
  let same = rows.get(row);
  if (!same) rows.set(row, (same = sameness(page, row)));
  return same;
}

/** What stands in a row as it stood in the earlier copy: all that the desk does not name as different, in bars that both have. */
export function sameness(page: SongPage, row: Row): Sameness {
  const repeat = repeatOf(page, row);
  const none: Sameness = { chords: new Set(), melody: new Set(), bass: new Set(), goneMelody: [], goneBass: [] };
  if (!repeat) return none;
  const shared = new Set(repeat.bars.filter((bar) => bar.earlier.length > 0).map((bar) => bar.bar));
  const bars = row.bars.filter((bar) => shared.has(bar.number));
  const within = <T extends { startSeconds: number; endSeconds: number }>(items: readonly T[]) => items.filter((item) =>
    bars.some((bar) => overlap(item, bar) > 0));
  const notes = (part: string) => repeat.notes.filter((note) => note.part === part);
  const unchanged = (items: readonly Note[], part: string) => {
    const changed = notes(part).filter((note) => note.fate !== "removed");
    return new Set(within(items).filter((note) => !changed.some((other) => Math.abs(other.startSeconds - note.startSeconds) < SAME_MOMENT_SECONDS)));
  };
  const chords = within(page.chords).filter((chord) => !repeat.chords.some((other) => covers(other, chord)));
  return {
    chords: new Set(chords), melody: unchanged(page.melody, "melody"), bass: unchanged(page.bass, "bass"),
    goneMelody: notes("melody").filter((note) => note.fate === "removed"), goneBass: notes("bass").filter((note) => note.fate === "removed"),
  };
}

interface Spanned {
  startSeconds: number;
  endSeconds: number;
}

const overlap = (one: Spanned, other: Spanned) => Math.min(one.endSeconds, other.endSeconds) - Math.max(one.startSeconds, other.startSeconds);

/** Whether a difference is about a chord: they share half of the shorter. */
function covers(difference: Spanned, chord: Spanned): boolean {
  const shorter = Math.min(difference.endSeconds - difference.startSeconds, chord.endSeconds - chord.startSeconds);
  return overlap(difference, chord) > 0.5 * shorter;
}
