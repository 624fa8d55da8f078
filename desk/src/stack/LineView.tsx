import { memo } from "../memo";
import type { NoteDifference } from "../api/production";
import type { SongPage } from "../api/types";
import { clock } from "../time/words";
import type { PlacedLine, PlacedSystem } from "./geometry";
import { placeChords, placeNotes, type LineScale, type PlacedChord, type PlacedNote, type Range } from "./place";
import { changeWords } from "./changes";
import { repeatOf, sameness, type Sameness } from "./sameness";
import { entryWords, placeWords, soundOf } from "./production";
import type { Row } from "./rows";
import { chordWords, lacksThird, noteWord } from "./words";

/** Heights within a line, from its top, at the usual text size. */
const CHORD = 25;
const NUMERAL = 42;
const TUNE_TOP = 52;
const TUNE_BOTTOM = 76;
const TUNE_WORDS = 88;
const BASS_TOP = 94;
const BASS_BOTTOM = 110;
const BASS_WORDS = 122;
const ENTRIES = 136;
const CHANGES = 149;
/** The width of a letter of the words below a bar. */
const SMALL_LETTER = 5.7;
const PLACES = 6;
/** Half the width of the mark that shows left and right. */
const PLACES_HALF = 13;

const samenessOf = new WeakMap<SongPage, Map<Row, Sameness>>();

/** What a row shares with the copy above it; worked out once for each page. */
function sameIn(page: SongPage, row: Row): Sameness {
  let rows = samenessOf.get(page);
  if (!rows) samenessOf.set(page, (rows = new Map()));
  let same = rows.get(row);
  if (!same) rows.set(row, (same = sameness(page, row)));
  return same;
}

interface Props {
  page: SongPage;
  placed: PlacedLine;
  system: PlacedSystem;
  unit: number;
}

/** The drawing of one line: bar lines, chords where they arrive, numerals, tune and bass. The cells above it carry the words. */
export const LineView = memo(function LineView({ page, placed, system, unit }: Props) {
  const { scale, line } = placed;
  const same = sameIn(page, line.row);
  const letter = 8.4 * unit;
  const chords = placeChords(page, scale, same, letter);
  const tune = placeNotes(page.melody, scale, system.melody, same.melody, 6.2 * unit);
  const bass = placeNotes(page.bass, scale, system.bass, same.bass, 6.2 * unit);
  const bars = line.row.bars.slice(line.from, line.to);
  // Only what has an earlier copy can differ from it.
  const repeat = repeatOf(page, line.row);
  const compared = repeat !== undefined;
  const letters = Math.floor(scale.barWidth / unit / SMALL_LETTER);
  return (
    <svg class="line" width={scale.width + 1} height={placed.height} aria-hidden="true">
      <g transform={`scale(${unit})`}>
        {bars.map((bar, i) => {
          const x = (scale.left + i * scale.barWidth) / unit;
          return (
            <g key={bar.number}>
              <line class="bar-line" x1={x} x2={x} y1={14} y2={BASS_BOTTOM} />
              {Array.from({ length: Math.max(0, bar.beats - 1) }, (_, beat) => (
                <line key={beat} class="beat-line" x1={beatX(x, beat, bar.beats)} x2={beatX(x, beat, bar.beats)} y1={TUNE_TOP - 4} y2={TUNE_TOP} />
              ))}
              <text class="bar-number" x={x + 2} y={9}>{bar.number}</text>
            </g>
          );

          function beatX(from: number, beat: number, beats: number): number {
            return from + ((beat + 1) / beats) * (scale.barWidth / unit);
          }
        })}
        <line class="bar-line" x1={scale.width / unit} x2={scale.width / unit} y1={14} y2={BASS_BOTTOM} />
        {chords.map((chord) => <ChordMark key={chord.chord.startSeconds} placed={chord} unit={unit} varied={compared} />)}
        {bars.map((bar, i) => {
          const sound = soundOf(page, bar);
          const x = (scale.left + i * scale.barWidth) / unit;
          const moved = i === 0 || soundOf(page, bars[i - 1]).places.join() !== sound.places.join();
          return (
            <g key={bar.number}>
              <Small words={entryWords(sound)} x={x + 1} y={ENTRIES} letters={letters} kind="entries" />
              {repeat && <Small words={changeWords(repeat, bar.number)} x={x + 1} y={CHANGES} letters={letters} kind="changes" />}
              {moved && sound.places.some((place) => Math.abs(place) > 0.15) && <Places x={x + scale.barWidth / unit - PLACES_HALF - 5} places={sound.places} />}
            </g>
          );
        })}
        <Gone notes={same.goneMelody} scale={scale} range={system.melody} top={TUNE_TOP} bottom={TUNE_BOTTOM} unit={unit} />
        <Gone notes={same.goneBass} scale={scale} range={system.bass} top={BASS_TOP} bottom={BASS_BOTTOM} unit={unit} />
        <Contour notes={tune} top={TUNE_TOP} bottom={TUNE_BOTTOM} words={TUNE_WORDS} unit={unit} compared={compared} kind="tune" />
        <Contour notes={bass} top={BASS_TOP} bottom={BASS_BOTTOM} words={BASS_WORDS} unit={unit} compared={compared} kind="bass" />
      </g>
    </svg>
  );
});

/** Words below a bar; what has no room is cut short here, and stands in full in the bar's own words. */
function Small({ words, x, y, letters, kind }: { words: string; x: number; y: number; letters: number; kind: string }) {
  if (!words) return null;
  return <text class={kind} x={x} y={y}><title>{words}</title>{words.length > letters ? `${words.slice(0, letters - 1).trimEnd()}…` : words}</text>;
}

interface GoneProps {
  notes: NoteDifference[];
  scale: LineScale;
  range: Range;
  top: number;
  bottom: number;
  unit: number;
}

/** Notes that the earlier copy had here: small open circles at their pitch. */
function Gone({ notes, scale, range, top, bottom, unit }: GoneProps) {
  return (
    <g class="gone">
      {notes.filter((note) => note.startSeconds >= scale.startSeconds - 0.02 && note.startSeconds < scale.endSeconds - 0.02).map((note) => {
        const height = Math.min(1, Math.max(0, (note.midi - range.low) / (range.high - range.low)));
        return <circle key={`${note.startSeconds} ${note.midi}`} cx={scale.x(note.startSeconds) / unit + 2.5} cy={bottom - height * (bottom - top)} r={2.2}><title>{`${note.pitch} is gone`}</title></circle>;
      })}
    </g>
  );
}

/** Where the bar's sounds stand: a line from left to right, its middle marked, a dot for each place. */
function Places({ x, places }: { x: number; places: number[] }) {
  return (
    <g class="places-mark">
      <title>{`Placed: ${places.map(placeWords).join(", ")}`}</title>
      <line x1={x - PLACES_HALF} x2={x + PLACES_HALF} y1={PLACES} y2={PLACES} />
      <line x1={x} x2={x} y1={PLACES - 3} y2={PLACES + 3} />
      {places.map((place) => <circle key={place} cx={x + place * PLACES_HALF} cy={PLACES} r={1.9} />)}
    </g>
  );
}

function ChordMark({ placed, unit, varied }: { placed: PlacedChord; unit: number; varied: boolean }) {
  const { chord, same, held, level } = placed;
  const x = placed.x / unit;
  const y = CHORD - 11 * level;
  const lead = Math.abs(placed.nominalX - placed.x) > 3;
  const hollow = lacksThird(chord) && !held;
  const classes = ["chord", same || held ? "same" : varied ? "varied" : "new", placed.small ? "small" : "", chord.open ? "unsure" : ""].join(" ");
  return (
    <g class={classes}>
      <title>{`${chordWords(chord)} at ${clock(chord.startSeconds, true)}`}</title>
      {hollow && <circle class="hollow" cx={x + 6} cy={y - 5} r={3.1} />}
      <text class="symbol" x={x + (hollow ? 12 : 1)} y={y}>{held ? `(${chord.label})` : chord.label}{chord.open && !held ? "?" : ""}</text>
      {!held && chord.numeral && <text class="numeral" x={x + 1} y={NUMERAL}>{chord.numeral}</text>}
      {lead && <path class="lead" d={leadStroke(x, placed.nominalX / unit, y + 3.5)} />}
    </g>
  );
}

/** A small tie from where a chord comes to where the beat has it. */
function leadStroke(from: number, to: number, y: number): string {
  const middle = (from + to) / 2;
  return `M${from.toFixed(1)} ${y}Q${middle.toFixed(1)} ${y + 5} ${to.toFixed(1)} ${y}`;
}

interface ContourProps {
  notes: PlacedNote[];
  top: number;
  bottom: number;
  words: number;
  unit: number;
  kind: "tune" | "bass";
  compared: boolean;
}

/** Strokes at their pitch, one path for each way they are drawn, and syllables beneath. */
function Contour({ notes, top, bottom, words, unit, kind, compared }: ContourProps) {
  const strokes = new Map<string, string>();
  const classOf = ({ note, same }: PlacedNote) => `${same ? "same" : compared ? "varied" : "new"}${note.open ? " unsure" : ""}`;
  for (const placed of notes) {
    const y = bottom - placed.height * (bottom - top);
    const stroke = `M${(placed.x / unit).toFixed(1)} ${y.toFixed(1)}H${(Math.max(placed.x + 3, placed.endX - 1.5) / unit).toFixed(1)}`;
    strokes.set(classOf(placed), (strokes.get(classOf(placed)) ?? "") + stroke);
  }
  return (
    <g class={`contour ${kind}`}>
      {[...strokes].map(([drawn, path]) => <path key={drawn} class={drawn} d={path} />)}
      {notes.map((placed) => placed.worded && (
        <text key={placed.note.startSeconds} class={classOf(placed)} x={placed.x / unit} y={words}>{noteWord(placed.note)}</text>
      ))}
    </g>
  );
}
