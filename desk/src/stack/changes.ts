import type { Difference, NoteDifference, Repeat } from "../api/production";
import { placeWords } from "./production";
import { partWords } from "./words";

/** Differences less sure than this are left out. */
const SHOWN_FROM = 0.5;

/** What can be drawn as a contour or a chord says so itself; the rest is told in words. */
const DRAWN: ReadonlySet<string> = new Set(["bass", "melody"]);

const sure = <T extends Difference>(items: readonly T[]) => items.filter((item) => item.probability >= SHOWN_FROM);

/** What one bar of a copy does otherwise in the parts that have no contour: note by note, and only counted. */
export function changeWords(repeat: Repeat, bar: number): { full: string; brief: string } {
  const notes = sure(repeat.notes).filter((note) => note.bar === bar && !DRAWN.has(note.part));
  const places = sure(repeat.places).filter((change) => change.bar === bar).map((change) => `${partWords(change.part)} ${placeWords(change.after)}`);
  return {
    full: [...byPart(notes), ...places].join("; "),
    brief: [...(notes.length > 0 ? [countWords(notes)] : []), ...places].join("; "),
  };
}

/** Each part and what it does: "line 2 adds F#3 on beat 3". */
function byPart(notes: readonly NoteDifference[]): string[] {
  const parts = [...new Set(notes.map((note) => note.part))].sort();
  return parts.map((part) => `${partWords(part)} ${notesOnBeats(notes.filter((note) => note.part === part))}`);
}

function countWords(notes: readonly NoteDifference[]): string {
  const count = (fate: NoteDifference["fate"]) => notes.filter((note) => note.fate === fate).length;
  const told: [number, string][] = [[count("added"), "added"], [count("removed"), "left out"], [count("moved"), "changed"]];
  const counted = told.filter(([many]) => many > 0);
  return counted.map(([many, what], i) => `${many} ${i > 0 ? "" : many === 1 ? "note " : "notes "}${what}`).join(", ");
}

function notesOnBeats(notes: readonly NoteDifference[]): string {
  return FATES.flatMap(([fate, verb]) => {
    const these = notes.filter((note) => note.fate === fate);
    if (these.length === 0) return [];
    const named = these.map((note) => `${note.before ? `${note.before} to ` : ""}${note.pitch} on beat ${beatWords(note.beat)}`);
    return [`${fate === "moved" ? "changes" : verb} ${named.join(", ")}`];
  }).join("; ");
}

const PARTS_OF_BEATS: Record<string, string> = { "0.25": "¼", "0.33": "⅓", "0.5": "½", "0.67": "⅔", "0.75": "¾" };

/** A place in the bar as it is counted: 2, 3½. */
export function beatWords(beat: number): string {
  const whole = Math.floor(beat + 0.01);
  const rest = beat - whole;
  const part = rest < 0.01 ? "" : PARTS_OF_BEATS[String(Math.round(rest * 100) / 100)];
  return part === undefined ? beat.toFixed(2) : `${whole}${part}`;
}

/** One bar of a copy and all that is otherwise in it, to be listed. */
export interface BarChanges {
  bar: number;
  words: string[];
}

/** All that a copy does otherwise than the earlier one, bar by bar, in full. */
export function listed(repeat: Repeat): BarChanges[] {
  const bars = [...new Set([...repeat.notes, ...repeat.chords, ...repeat.layers, ...repeat.places, ...repeat.levels].map((one) => one.bar))].sort((a, b) => a - b);
  return bars.map((bar) => ({ bar, words: wordsOf(repeat, bar) })).filter((one) => one.words.length > 0);
}

function wordsOf(repeat: Repeat, bar: number): string[] {
  const here = <T extends { bar: number }>(items: readonly T[]) => items.filter((one) => one.bar === bar);
  return [
    ...here(sure(repeat.chords)).map(chordsInWords), ...byPart(here(sure(repeat.notes))), ...here(sure(repeat.layers)).map(layersInWords),
    ...here(sure(repeat.places)).map(placesInWords), ...here(sure(repeat.levels)).map(levelsInWords),
  ];
}

const chordsInWords = (one: Repeat["chords"][number]) => `${one.after.label} instead of ${one.before.label}`;
const layersInWords = (one: Repeat["layers"][number]) => `${partWords(one.layer)} ${one.entered ? "is new" : "is gone"}`;
const placesInWords = (one: Repeat["places"][number]) => `${partWords(one.part)}: ${placeWords(one.after)} instead of ${placeWords(one.before)}`;
const levelsInWords = (one: Repeat["levels"][number]) =>
  `${Math.abs(one.afterLufs - one.beforeLufs).toFixed(0)} LU ${one.afterLufs > one.beforeLufs ? "louder" : "softer"}`;

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
    ...within(sure(repeat.chords), span).map((one) => `${chordsInWords(one)}, bar ${one.bar}`),
    ...within(sure(repeat.layers), span).map((one) => `${layersInWords(one)}, bar ${one.bar}`),
    ...within(sure(repeat.places), span).map((one) => `${placesInWords(one)}, bar ${one.bar}`),
    ...within(sure(repeat.levels), span).map((one) => `${levelsInWords(one)}, bar ${one.bar}`),
  ];
}

function within<T extends Spanned>(items: readonly T[], span: Spanned): T[] {
  return items.filter((item) => item.endSeconds > span.startSeconds + 0.03 && item.startSeconds < span.endSeconds - 0.03);
}
