import type { FindingGroup, Occurrence, Verdict } from "../api/findings";
import { clock } from "../time/words";

export function barsWords(found: Pick<Occurrence, "bars" | "startSeconds">): string {
  if (!found.bars) return clock(found.startSeconds);
  const [from, to] = found.bars;
  return from === to ? `bar ${from}` : `bars ${from} to ${to}`;
}

/** Where a technique is, in one line: every place once, and none that lies inside another. */
export function whereWords(occurrences: readonly Pick<Occurrence, "bars" | "startSeconds">[]): string {
  const inside = (one: readonly number[], other: readonly number[]) => one[0] >= other[0] && one[1] <= other[1];
  const places = occurrences.filter((found, index) => !found.bars || !occurrences.some((other, at) => {
    if (at === index || !other.bars || !inside(found.bars!, other.bars)) return false;
    return at < index || !inside(other.bars, found.bars!);
  }));
  return places.map(barsWords).join("; ");
}

/** The verdicts on an occurrence, newest first: of its technique, at a place inside it or a beat before. */
export function verdictsOn(verdicts: readonly Verdict[], technique: string, found: Pick<Occurrence, "startSeconds" | "endSeconds">): Verdict[] {
  return [...verdicts].reverse().filter((verdict) => verdict.technique === technique
    && verdict.startSeconds >= found.startSeconds - 0.6 && verdict.startSeconds < found.endSeconds);
}

/** One group for each technique, with all its occurrences in order of time; where the group worth most stood. */
export function byTechnique(groups: readonly FindingGroup[]): FindingGroup[] {
  const told = new Map<string, FindingGroup>();
  for (const group of groups) {
    const before = told.get(group.technique);
    const occurrences = [...(before?.occurrences ?? []), ...group.occurrences].sort((one, other) => one.startSeconds - other.startSeconds);
    told.set(group.technique, before ? { ...before, occurrences, probability: Math.max(before.probability, group.probability) } : group);
  }
  return [...told.values()];
}
