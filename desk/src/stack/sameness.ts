import type { Chord, Note, SongPage } from "../api/types";
import { lastNotAfter } from "../time/grid";
import type { Row } from "./rows";

/** Beats that two events may lie apart and still be at the same place. */
const SAME_PLACE_BEATS = 0.3;

interface Placed {
  startSeconds: number;
  startBeat?: number;
}

/** Events of one row with their place counted in beats from its first bar. */
function inRow<T extends Placed>(items: readonly T[], row: Row): { item: T; place: number }[] {
  const first = row.bars[0];
  const last = row.bars[row.bars.length - 1];
  let i = Math.max(0, lastNotAfter(items, first.startSeconds - 1.5, (item) => item.startSeconds));
  const found: { item: T; place: number }[] = [];
  for (; i < items.length && items[i].startSeconds < last.endSeconds; i++) {
    const place = (items[i].startBeat ?? 0) - first.firstBeat;
    if (place > -1.5) found.push({ item: items[i], place });
  }
  return found;
}

/**
 * The events of a row that also stand in the copy above it, at the same place. Chords are compared by name, or by
 * numeral where the copy was lifted; notes by degree.
 */
function repeated<T extends Placed>(items: readonly T[], row: Row, name: (item: T) => string | undefined): Set<T> {
  const same = new Set<T>();
  if (!row.above || row.bars[0].beats === 0) return same;
  const above = inRow(items, row.above);
  for (const { item, place } of inRow(items, row)) {
    const twin = above.some((other) => Math.abs(other.place - place) <= SAME_PLACE_BEATS && name(other.item) === name(item));
    if (twin) same.add(item);
  }
  return same;
}

export interface Sameness {
  chords: Set<Chord>;
  melody: Set<Note>;
  bass: Set<Note>;
}

export function sameness(page: SongPage, row: Row): Sameness {
  const lifted = row.above !== null && row.section.transposedSemitones !== row.above.section.transposedSemitones;
  return {
    chords: repeated(page.chords, row, (chord) => (lifted ? chord.numeral : chord.harte)),
    melody: repeated(page.melody, row, (note) => note.degree ?? note.name),
    bass: repeated(page.bass, row, (note) => note.degree ?? note.name),
  };
}
