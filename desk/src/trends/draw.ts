import { percent } from "../time/words";
import type { Share, TrendQuestion } from "./types";

/** Where a share and its interval lie on a line of this width. */
export function place(share: Share, width: number): { low: number; at: number; high: number } {
  return { low: share.low * width, at: share.share * width, high: share.high * width };
}

export const shareWords = (share: Share): string =>
  share.of === 0 ? "no songs" : `${share.songs} of ${share.of} (${percent(share.share)}; ${percent(share.low)} to ${percent(share.high)})`;

/** The question as an address; only what is asked for stands in it. */
export function address({ technique, progression, by, from }: TrendQuestion): string {
  const words = new URLSearchParams({ by, from });
  if (progression) words.set("progression", progression);
  else if (technique) words.set("technique", technique);
  return `/api/trends?${words}`;
}
