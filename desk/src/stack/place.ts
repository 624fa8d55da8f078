import type { Bar, Chord, Note, SongPage } from "../api/types";
import { lastNotAfter, secondsOfBeat } from "../time/grid";
import { placeLabels, textWidth, type Form } from "./labels";
import type { Line } from "./rows";
import type { Sameness } from "./sameness";
import { lacksThird } from "./words";

/** Room left of the first bar line, as a share of a bar: for chords that come before it. */
export const UPBEAT = 0.32;

/** Where times of one line lie: bars are equally wide, time runs evenly inside each. */
export class LineScale {
  private readonly bars: Bar[];

  constructor(line: Line, readonly barWidth: number) {
    this.bars = line.row.bars.slice(line.from, line.to);
  }

  get left(): number {
    return UPBEAT * this.barWidth;
  }

  get width(): number {
    return this.left + this.bars.length * this.barWidth;
  }

  get startSeconds(): number {
    return this.bars[0].startSeconds;
  }

  get endSeconds(): number {
    return this.bars[this.bars.length - 1].endSeconds;
  }

  /** The earliest moment that still has room. */
  get upbeatSeconds(): number {
    return this.startSeconds - UPBEAT * (this.bars[0].endSeconds - this.bars[0].startSeconds);
  }

  x(seconds: number): number {
    const index = Math.max(0, lastNotAfter(this.bars, seconds, (bar) => bar.startSeconds));
    const bar = this.bars[index];
    const share = (seconds - bar.startSeconds) / (bar.endSeconds - bar.startSeconds);
    return this.left + (index + share) * this.barWidth;
  }

  seconds(x: number): number {
    const place = (x - this.left) / this.barWidth;
    const index = Math.min(this.bars.length - 1, Math.max(0, Math.floor(place)));
    const bar = this.bars[index];
    return bar.startSeconds + (place - index) * (bar.endSeconds - bar.startSeconds);
  }
}

export interface PlacedChord {
  chord: Chord;
  /** Where it sounds. */
  x: number;
  /** Where it belongs by the beat, for the stroke that leads there; as `x` where it comes on time. */
  nominalX: number;
  /** Sounding on from before the line. */
  held: boolean;
  same: boolean;
  /** Where its name begins, how it is written, and in which row of names: 0 on the line. */
  labelX: number;
  form: Form;
  level: number;
}

export interface PlacedNote {
  note: Note;
  x: number;
  endX: number;
  /** 0 lowest to 1 highest of its row's group. */
  height: number;
  same: boolean;
  /** Whether its syllable has room. */
  worded: boolean;
}

/** Beats early or late from which it is drawn. */
const NOTICED_BEATS = 0.2;

export function placeChords(page: SongPage, scale: LineScale, same: Sameness, unit: number): PlacedChord[] {
  const placed: Omit<PlacedChord, "labelX" | "form" | "level">[] = [];
  const { startSeconds, endSeconds, upbeatSeconds } = scale;
  let i = Math.max(0, lastNotAfter(page.chords, startSeconds - 30, (chord) => chord.startSeconds));
  for (; i < page.chords.length && page.chords[i].startSeconds < endSeconds - 0.02; i++) {
    const chord = page.chords[i];
    if (chord.endSeconds <= startSeconds + 0.02) continue;
    const nominal = nominalSeconds(page, chord);
    // What comes early but belongs to this line stands before its first bar line.
    const held = chord.startSeconds < startSeconds - 0.02 && (nominal < startSeconds - 0.02 || chord.startSeconds < upbeatSeconds);
    const x = held ? scale.left : scale.x(chord.startSeconds);
    placed.push({ chord, x, nominalX: held ? x : scale.x(nominal), held, same: same.chords.has(chord) });
  }
  // What only sounds on gives way to what begins.
  while (placed.length > 1 && placed[0].held && placed[1].x - placed[0].x < forms(placed[0].chord, true, unit).at(-1)!.width) placed.shift();
  const labels = placeLabels(placed.map(({ chord, held, x }) => ({ x, forms: forms(chord, held, unit) })), scale.width);
  return placed.map((one, at) => ({ ...one, form: labels[at].form, labelX: labels[at].x, level: labels[at].level }));
}

const SIZES = { large: { symbol: 14.5, numeral: 11.5 }, small: { symbol: 11.5, numeral: 10.5 } };
const GAP = 5;
/** The circle that says: no third. */
export const HOLLOW_WIDTH = 11;

/** A chord's name and numeral in full, then without what the open circle before it says already; large, then small. */
function forms(chord: Chord, held: boolean, unit: number): Form[] {
  const hollow = lacksThird(chord) && !held;
  const brief = lacksThird(chord);
  const written = (short: boolean, size: "large" | "small"): Form => {
    const name = short ? chord.label.replace(/ alone$/, "") : chord.label;
    const text = held ? `(${name})` : `${name}${chord.open ? "?" : ""}`;
    const below = held || !chord.numeral ? "" : short ? chord.numeral.replace(/\(no 3rd\)/, "") : chord.numeral;
    const { symbol, numeral } = SIZES[size];
    const width = Math.max((hollow ? HOLLOW_WIDTH : 0) + textWidth(text, symbol, true), textWidth(below, numeral)) + GAP;
    return { text, below, small: size === "small", width: width * unit };
  };
  return brief
    ? [written(false, "large"), written(true, "large"), written(false, "small"), written(true, "small")]
    : [written(false, "large"), written(false, "small")];
}

function nominalSeconds(page: SongPage, chord: Chord): number {
  const late = chord.arrivalBeats ?? 0;
  if (Math.abs(late) < NOTICED_BEATS || chord.startBeat === undefined) return chord.startSeconds;
  return secondsOfBeat(page.beats, chord.startBeat - late);
}

export interface Range {
  low: number;
  high: number;
}

/** Lowest and highest note of bars, at least a fifth apart, so that a still line looks still. */
export function rangeOf(notes: readonly Note[], spans: { startSeconds: number; endSeconds: number }[]): Range {
  let low = Infinity;
  let high = -Infinity;
  for (const { startSeconds, endSeconds } of spans) {
    for (let i = Math.max(0, lastNotAfter(notes, startSeconds, (n) => n.startSeconds)); i < notes.length && notes[i].startSeconds < endSeconds; i++) {
      low = Math.min(low, notes[i].midi);
      high = Math.max(high, notes[i].midi);
    }
  }
  if (low === Infinity) return { low: 57, high: 64 };
  const lack = Math.max(0, 7 - (high - low)) / 2;
  return { low: low - lack, high: high + lack };
}

export function placeNotes(notes: readonly Note[], scale: LineScale, range: Range, same: Set<Note>, letterWidth: number): PlacedNote[] {
  const placed: PlacedNote[] = [];
  let free = -Infinity;
  let i = Math.max(0, lastNotAfter(notes, scale.upbeatSeconds, (note) => note.startSeconds));
  for (; i < notes.length && notes[i].startSeconds < scale.endSeconds - 0.02; i++) {
    const note = notes[i];
    if (note.endSeconds <= scale.startSeconds) continue;
    const x = Math.max(0, scale.x(Math.max(note.startSeconds, scale.upbeatSeconds)));
    const endX = Math.min(scale.width, scale.x(Math.min(note.endSeconds, scale.endSeconds)));
    const letters = (note.syllable ?? note.name).length;
    const worded = x >= free;
    if (worded) free = x + (letters + 0.5) * letterWidth;
    const height = (note.midi - range.low) / (range.high - range.low);
    placed.push({ note, x, endX, height: Math.min(1, Math.max(0, height)), same: same.has(note), worded });
  }
  return placed;
}
