/** What the program finds worth telling, and what the listener says of it; shapes of docs/desk-api.yaml. */

export type Evidence =
  | { kind: "heard"; startSeconds: number; endSeconds: number; text: string }
  | { kind: "measured"; quantity: string; value: number; bound: string; limit: number; unit: string; text: string }
  | { kind: "read"; facet: string; value: string; startSeconds: number; endSeconds: number; text: string };

export interface Occurrence {
  startSeconds: number;
  endSeconds: number;
  bars?: [number, number];
  probability: number;
  strength: number;
  summary: string;
  evidence: Evidence[];
  under: string[];
  /** What the same bars are without the technique, where plain tones can tell. */
  plain?: string;
}

export type FindingKind = "theory" | "songwriting" | "production";

export interface FindingGroup {
  technique: string;
  kind: FindingKind;
  name: string;
  definition: string;
  listen: string;
  try: string;
  /** Whether a new piece that uses it can be made. */
  sketched: boolean;
  probability: number;
  worth: number;
  shareOfSongs: number;
  yes: number;
  no: number;
  occurrences: Occurrence[];
}

export type VerdictAnswer = "yes" | "no" | "words";

export interface NewVerdict {
  technique: string;
  startSeconds: number;
  answer: VerdictAnswer;
  words?: string;
}

export interface Verdict {
  id: number;
  technique: string;
  name: string;
  startSeconds: number;
  endSeconds: number;
  answer: VerdictAnswer;
  words: string;
  author: string;
  saidAt: string;
}
