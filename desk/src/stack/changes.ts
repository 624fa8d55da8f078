import type { Difference, NoteDifference, Repeat } from "../api/production";
import { placeWords } from "./production";
import { partWords } from "./words";

/** Differences less sure than this are left out. */
const SHOWN_FROM = 0.5;

/** What can be drawn as a contour or a chord says so itself; the rest is told in words. */
const DRAWN: ReadonlySet<string> = new Set(["bass", "melody"]);

const sure = <T extends Difference>(items: readonly T[]) => items.filter((item) => item.probability >= SHOWN_FROM);

/** What one bar of a copy does otherwise in the parts that have no contour, in a few words: "line 2: +2". */
export function changeWords(repeat: Repeat, bar: number): string {
  const notes = sure(repeat.notes).filter((note) => note.bar === bar && !DRAWN.has(note.part));
  const parts = [...new Set(notes.map((note) => note.part))].sort();
  const places = sure(repeat.places).filter((change) => change.bar === bar);
  return [
    ...parts.map((part) => `${partWords(part)} ${countWords(notes.filter((note) => note.part === part))}`),
    ...places.map((change) => `${partWords(change.part)} ${placeWords(change.after)}`),
  ].join(", ");
}

function countWords(notes: readonly NoteDifference[]): string {
  const count = (fate: NoteDifference["fate"]) => notes.filter((note) => note.fate === fate).length;
  const signs: [number, string][] = [[count("added"), "+"], [count("removed"), "−"], [count("moved"), "↕"]];
  return signs.filter(([many]) => many > 0).map(([many, sign]) => `${sign}${many}`).join(" ");
}

/** One part of a copy and what it does otherwise in a stretch, to be told and heard. */
export interface PartChange {
  part: string;
  words: string;
  /** Whether it has notes here that the earlier copy lacks. */
  adds: boolean;
}

interface Spanned {
  startSeconds: number;
  endSeconds: number;
}

/** The differences of a stretch, told part by part. */
export function partChanges(repeat: Repeat, span: Spanned): PartChange[] {
  const here = within(sure(repeat.notes), span);
  return [...new Set(here.map((note) => note.part))].sort().map((part) => {
    const notes = here.filter((note) => note.part === part);
    return { part, words: notesInWords(notes), adds: notes.some((note) => note.fate !== "removed") };
  });
}

const FATES: [NoteDifference["fate"], string][] = [["added", "adds"], ["moved", "moves to"], ["removed", "leaves out"]];
const NAMED = 4;

function notesInWords(notes: readonly NoteDifference[]): string {
  return FATES.flatMap(([fate, verb]) => {
    const these = notes.filter((note) => note.fate === fate);
    const pitches = [...new Set(these.map((note) => note.pitch))];
    return these.length > 0 ? [`${verb} ${pitches.slice(0, NAMED).join(", ")}${pitches.length > NAMED ? ` and ${pitches.length - NAMED} more` : ""}`] : [];
  }).join("; ");
}

/** All else that is different in a stretch: what it does to the chords, layers, places, level. */
export function otherChanges(repeat: Repeat, span: Spanned): string[] {
  return [
    ...within(repeat.settled, span).map((one) => `The ${one.member} is there now: ${one.by.name} in ${partWords(one.part)} makes ${one.before.label} ${one.after.label}`),
    ...within(sure(repeat.chords), span).map((one) => `${one.after.label} instead of ${one.before.label}, bar ${one.bar}`),
    ...within(sure(repeat.layers), span).map((one) => `${partWords(one.layer)} ${one.entered ? "is new" : "is gone"}, bar ${one.bar}`),
    ...within(sure(repeat.places), span).map((one) => `${partWords(one.part)}: ${placeWords(one.after)} instead of ${placeWords(one.before)}, bar ${one.bar}`),
    ...within(sure(repeat.levels), span).map((one) => `${Math.abs(one.afterLufs - one.beforeLufs).toFixed(0)} LU ${one.afterLufs > one.beforeLufs ? "louder" : "softer"}, bar ${one.bar}`),
  ];
}

function within<T extends Spanned>(items: readonly T[], span: Spanned): T[] {
  return items.filter((item) => item.endSeconds > span.startSeconds + 0.03 && item.startSeconds < span.endSeconds - 0.03);
}
