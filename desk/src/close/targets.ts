import type { Bar, Chord } from "../api/types";

/** Names for what a section does, as corrections take them. */
export const ROLES: readonly string[] = ["intro", "verse", "prechorus", "chorus", "bridge", "break", "solo", "outro", "other"];

/** Layers as corrections name them. */
export const LAYERS: readonly string[] = ["kick", "snare", "cymbal", "bass", "sub bass", "held", "plucked", "lead", "further voice"];

/**
 * The chord a bar is about: the one that lasts longest of those that belong to it, an early one among them; what
 * only hangs over its end belongs to the next bar.
 */
export function chordAt(chords: readonly Chord[], bar: Bar): Chord | null {
  let best: Chord | null = null;
  let most = 0;
  for (const chord of chords) {
    const shared = Math.min(chord.endSeconds, bar.endSeconds) - Math.max(chord.startSeconds, bar.startSeconds);
    if (shared > most) {
      best = chord;
      most = shared;
    }
  }
  return best;
}

/** Where a chord stands, if it stands within about a bar; a longer one is meant only for the bar itself. */
export function spanOfChord(chord: Chord | null, bar: Bar): { startSeconds: number; endSeconds: number } {
  const length = bar.endSeconds - bar.startSeconds;
  if (!chord || chord.endSeconds - chord.startSeconds > 1.3 * length) return { startSeconds: bar.startSeconds, endSeconds: bar.endSeconds };
  return { startSeconds: chord.startSeconds, endSeconds: chord.endSeconds };
}

/** What can be placed from left to right, as corrections name it and as people say it. */
export const SOURCES: readonly [string, string][] = [["lead", "the lead"], ["line", "a line"], ["struck", "what is struck"]];

/** How a sound can come back, as corrections name it and as people say it. */
export const ECHOES: readonly [string, string][] = [["delay", "a delay"], ["resung", "sung or played again"], ["double", "a second take, doubled"]];

interface Spanned {
  startSeconds: number;
  endSeconds: number;
}

/** What sounds in a span for more than a moment. */
export function overlapping<T extends Spanned>(items: readonly T[], { startSeconds, endSeconds }: Spanned): T[] {
  return items.filter((item) => item.endSeconds > startSeconds + 0.03 && item.startSeconds < endSeconds - 0.03);
}

/** The names of parts, those that sound in the span first, and the next name that is free. */
export function partsOf(parts: readonly { name: string; notes: readonly Spanned[] }[], stem: string, first: number, span: Spanned): { names: string[]; fresh: string } {
  const here = parts.filter((part) => overlapping(part.notes, span).length > 0);
  const names = [...here, ...parts.filter((part) => !here.includes(part))].map((part) => part.name);
  let free = first;
  while (names.includes(`${stem}-${free}`)) free++;
  return { names, fresh: `${stem}-${free}` };
}
