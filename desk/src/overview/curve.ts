import type { Bar } from "../api/types";

/** Quietest loudness that is drawn, in LU below the loudest bar. */
const RANGE_LU = 24;

/** Height of each bar's loudness, 0 to 1, against the loudest bar of the song. */
export function loudnessHeights(bars: readonly Bar[]): number[] {
  const loudest = Math.max(...bars.map((bar) => bar.lufs ?? -Infinity));
  return bars.map((bar) => {
    if (bar.lufs === undefined || loudest === -Infinity) return 0;
    return Math.min(1, Math.max(0, 1 - (loudest - bar.lufs) / RANGE_LU));
  });
}

/** The loudness of a song as an outline of steps over its bars. */
export function loudnessPath(bars: readonly Bar[], x: (seconds: number) => number, bottom: number, height: number): string {
  const heights = loudnessHeights(bars);
  if (bars.length === 0) return "";
  const points = bars.map((bar, i) => {
    const y = (bottom - heights[i] * height).toFixed(1);
    return `L${x(bar.startSeconds).toFixed(1)} ${y}L${x(bar.endSeconds).toFixed(1)} ${y}`;
  });
  return `M${x(bars[0].startSeconds).toFixed(1)} ${bottom}${points.join("")}L${x(bars[bars.length - 1].endSeconds).toFixed(1)} ${bottom}Z`;
}

/** Seconds between two marks of a time line of this length and width: one of the round ones. */
export function markEvery(durationSeconds: number, widthPixels: number): number {
  return [5, 10, 15, 30, 60, 120, 300, 600].find((step) => (step / durationSeconds) * widthPixels >= 56) ?? 1200;
}
