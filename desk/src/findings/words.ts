import type { Occurrence, Verdict } from "../api/findings";
import { clock } from "../time/words";

export function barsWords(found: Pick<Occurrence, "bars" | "startSeconds">): string {
  if (!found.bars) return clock(found.startSeconds);
  const [from, to] = found.bars;
  return from === to ? `bar ${from}` : `bars ${from} to ${to}`;
}

/** The verdicts on an occurrence, newest first: of its technique, at a place inside it or a beat before. */
export function verdictsOn(verdicts: readonly Verdict[], technique: string, found: Pick<Occurrence, "startSeconds" | "endSeconds">): Verdict[] {
  return [...verdicts].reverse().filter((verdict) => verdict.technique === technique
    && verdict.startSeconds >= found.startSeconds - 0.6 && verdict.startSeconds < found.endSeconds);
}
