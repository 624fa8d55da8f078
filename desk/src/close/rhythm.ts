import type { Bar, Note } from "../api/types";

/** A note, a part of one, or a rest, as written; lengths in sixteenths. */
export interface Written {
  note: Note | null;
  sixteenths: number;
  /** Whether it is held on into the next. */
  tied: boolean;
  /** Whether it begins here, rather than being held over. */
  begins: boolean;
}

/** Lengths that one sign can have, with the sign's name. */
export const SIGNS: ReadonlyMap<number, string> = new Map([[16, "w"], [12, "hd"], [8, "h"], [6, "qd"], [4, "q"], [3, "8d"], [2, "8"], [1, "16"]]);

/** Gaps shorter than this are the player's breath, not a rest. */
const LEAST_REST = 2;

export function sixteenthsOf(bar: Bar): number {
  const [count, unit] = bar.signature.split("/").map(Number);
  return count && unit ? (count * 16) / unit : 16;
}

/** The notes of one bar on the nearest sixteenths: every sixteenth is filled, by a note or a rest. */
export function writeBar(notes: readonly Note[], bar: Bar): Written[] {
  const length = sixteenthsOf(bar);
  const perBeat = length / Math.max(1, bar.beats);
  const place = (beat: number) => Math.round((beat - bar.firstBeat) * perBeat);
  const events = notes
    .filter((note) => note.startBeat !== undefined && note.endBeat !== undefined)
    .map((note) => ({ note, from: place(note.startBeat!), to: Math.max(place(note.startBeat!) + 1, place(note.endBeat!)) }))
    .filter(({ from, to }) => to > 0 && from < length);
  const written: Written[] = [];
  let at = 0;
  events.forEach(({ note, from, to }, i) => {
    const next = i + 1 < events.length ? events[i + 1].from : to;
    const start = Math.max(at, from);
    let end = Math.min(to, i + 1 < events.length ? Math.max(start, next) : to);
    if (i + 1 < events.length && next - end < LEAST_REST && next > end) end = next;
    if (i + 1 === events.length && length - end < LEAST_REST && end < length) end = length;
    const stop = Math.min(length, end);
    if (stop <= start) return;
    if (start > at) written.push(...pieces(null, start - at, false, true));
    written.push(...pieces(note, stop - start, end > length, from >= 0));
    at = stop;
  });
  if (at < length) written.push(...pieces(null, length - at, false, true));
  return written;
}

/** One length as the fewest signs, the longest first. */
function pieces(note: Note | null, sixteenths: number, heldOn: boolean, begins: boolean): Written[] {
  const result: Written[] = [];
  let left = sixteenths;
  while (left > 0) {
    const sign = [...SIGNS.keys()].find((size) => size <= left)!;
    left -= sign;
    result.push({ note, sixteenths: sign, tied: note !== null && (left > 0 || heldOn), begins: begins && result.length === 0 });
  }
  return result;
}

/** A written pitch, F#4, as letter with accidental and octave; null where it is not in English names. */
export function splitPitch(pitch: string): { letter: string; accidental: string; octave: number } | null {
  const parts = /^([A-G])([#b]*)(-?\d+)$/.exec(pitch.replaceAll("x", "##"));
  return parts && { letter: parts[1].toLowerCase(), accidental: parts[2], octave: Number(parts[3]) };
}
