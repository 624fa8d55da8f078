import type { Bar, SongPage } from "../api/types";

/** Index of the last entry that is not after a value, by its key; -1 where all are after it. */
export function lastNotAfter<T>(items: readonly T[], value: number, key: (item: T) => number): number {
  let low = 0;
  let high = items.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (key(items[middle]) <= value) low = middle + 1;
    else high = middle;
  }
  return low - 1;
}

/** Seconds of a beat position; beyond the first and last beat it goes on at their pace. */
export function secondsOfBeat(beats: readonly number[], position: number): number {
  if (beats.length < 2) return beats[0] ?? 0;
  const index = Math.min(beats.length - 2, Math.max(0, Math.floor(position)));
  return beats[index] + (position - index) * (beats[index + 1] - beats[index]);
}

export function barAt(bars: readonly Bar[], seconds: number): number {
  return Math.max(0, lastNotAfter(bars, seconds, (bar) => bar.startSeconds));
}

/** Seconds of a stretch without a pulse that are drawn as if they were a bar. */
const STRETCH_SECONDS = 4;

/** The bars of a song; where no pulse was found, stretches of equal length stand for them. */
export function barsOrStretches(page: SongPage): Bar[] {
  if (page.bars.length > 0) return page.bars;
  const count = Math.max(1, Math.ceil(page.song.durationSeconds / STRETCH_SECONDS));
  return Array.from({ length: count }, (_, i) => ({
    number: i + 1,
    startSeconds: i * STRETCH_SECONDS,
    endSeconds: Math.min(page.song.durationSeconds, (i + 1) * STRETCH_SECONDS),
    firstBeat: 0,
    beats: 0,
    signature: "",
  }));
}

/**
 * The same place in another stretch of bars: as many bars and as much of a bar from its first bar. What lies past its
 * end goes to its start.
 */
export function samePlace(bars: readonly Bar[], seconds: number, fromBar: number, toBar: number, toLast: number): number {
  const here = barAt(bars, seconds);
  const bar = bars[here];
  const share = Math.min(0.999, Math.max(0, (seconds - bar.startSeconds) / (bar.endSeconds - bar.startSeconds)));
  const there = toBar + (here - fromBar);
  if (there < toBar || there > toLast || there >= bars.length) return bars[toBar].startSeconds;
  return bars[there].startSeconds + share * (bars[there].endSeconds - bars[there].startSeconds);
}
