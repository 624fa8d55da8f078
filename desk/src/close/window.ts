import type { Bar } from "../api/types";
import type { Selection } from "../song/state";

/** The longest that is opened at once; the desk's pictures reach no further than a minute. */
export const LONGEST_SECONDS = 30;

/** What close listening shows: the span with a little before and after, inside the song. */
export function closeWindow(span: Selection, durationSeconds: number): Selection {
  const end = Math.min(span.endSeconds, span.startSeconds + LONGEST_SECONDS);
  const margin = Math.min(0.6, Math.max(0.15, 0.12 * (end - span.startSeconds)));
  return { startSeconds: Math.max(0, span.startSeconds - margin), endSeconds: Math.min(durationSeconds, end + margin) };
}

/** Beats inside a window and whether each begins a bar. */
export function beatsWithin(beats: readonly number[], bars: readonly Bar[], window: Selection): { seconds: number; first: boolean; bar?: Bar }[] {
  const firsts = new Map(bars.map((bar) => [bar.firstBeat, bar]));
  return beats.flatMap((seconds, beat) => (seconds >= window.startSeconds && seconds <= window.endSeconds
    ? [{ seconds, first: firsts.has(beat), bar: firsts.get(beat) }] : []));
}

/** An outline of lowest and highest samples, as one closed path. */
export function outline(lowest: readonly number[], highest: readonly number[], width: number, top: number, height: number): string {
  if (lowest.length === 0) return "";
  const x = (i: number) => ((i + 0.5) / lowest.length) * width;
  const y = (value: number) => top + (height / 2) * (1 - value);
  const above = highest.map((value, i) => `${i === 0 ? "M" : "L"}${x(i).toFixed(1)} ${y(value).toFixed(1)}`);
  const below = lowest.map((value, i) => `L${x(i).toFixed(1)} ${y(value).toFixed(1)}`).reverse();
  return `${above.join("")}${below.join("")}Z`;
}
