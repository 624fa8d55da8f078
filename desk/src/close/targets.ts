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
