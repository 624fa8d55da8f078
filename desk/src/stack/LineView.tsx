import { memo } from "../memo";
import type { NoteDifference } from "../api/production";
import type { Bar, SongPage } from "../api/types";
import { ChordMark } from "./ChordMark";
import type { PlacedLine, PlacedSystem } from "./geometry";
import { placeNotes, type LineScale, type PlacedNote, type Range } from "./place";
import { repeatOf, samenessOf } from "./sameness";
import { placesOf, placeWords } from "./production";
import { noteWord } from "./words";

/** Heights within a line, from its top, at the usual text size; all below the bar numbers is moved down by raised chord names. */
const TUNE_TOP = 52;
const TUNE_BOTTOM = 76;
const TUNE_WORDS = 88;
const BASS_TOP = 94;
const BASS_BOTTOM = 110;
const BASS_WORDS = 122;
const ENTRIES = 135;
const ROW = 12;
const PLACES = 6;
/** Half the width of the mark that shows left and right. */
const PLACES_HALF = 13;

interface Props {
  page: SongPage;
  /** Comes after the rest of the page. */
  space: SongPage["space"];
  placed: PlacedLine;
  system: PlacedSystem;
  unit: number;
}

/** The drawing of one line: bar lines, chords where they arrive, numerals, tune and bass. The cells above it carry the words. */
export const LineView = memo(function LineView({ page, space, placed, system, unit }: Props) {
  const { scale, line, layout } = placed;
  const same = samenessOf(page, line.row);
  const tune = placeNotes(page.melody, scale, system.melody, same.melody, 6.2 * unit);
  const bass = placeNotes(page.bass, scale, system.bass, same.bass, 6.2 * unit);
  const bars = line.row.bars.slice(line.from, line.to);
  // Only what has an earlier copy can differ from it.
  const compared = repeatOf(page, line.row) !== undefined;
  const { lift } = layout;
  return (
    <svg class="line" width={scale.width + 1} height={layout.height * unit} aria-hidden="true">
      <g transform={`scale(${unit})`}>
        <Bars bars={bars} scale={scale} unit={unit} lift={lift} />
        {layout.chords.map((chord) => <ChordMark key={chord.chord.startSeconds} placed={chord} unit={unit} lift={lift} varied={compared} />)}
        {bars.map((bar, i) => {
          const places = placesOf(space, bar);
          const x = (scale.left + i * scale.barWidth) / unit;
          const moved = i === 0 || placesOf(space, bars[i - 1]).join() !== places.join();
          return (
            <g key={bar.number}>
              <Rows rows={layout.entries[i]} x={x + 1} y={ENTRIES + lift} kind="entries" />
              <Rows rows={layout.changes[i]} x={x + 1} y={layout.changesTop + ROW - 3} kind="changes" />
              {moved && places.some((place) => Math.abs(place) > 0.15) && <Places x={x + scale.barWidth / unit - PLACES_HALF - 5} places={places} />}
            </g>
          );
        })}
        <g transform={`translate(0 ${lift})`}>
          <Gone notes={same.goneMelody} scale={scale} range={system.melody} top={TUNE_TOP} bottom={TUNE_BOTTOM} unit={unit} />
          <Gone notes={same.goneBass} scale={scale} range={system.bass} top={BASS_TOP} bottom={BASS_BOTTOM} unit={unit} />
          <Contour notes={tune} top={TUNE_TOP} bottom={TUNE_BOTTOM} words={TUNE_WORDS} unit={unit} compared={compared} kind="tune" />
          <Contour notes={bass} top={BASS_TOP} bottom={BASS_BOTTOM} words={BASS_WORDS} unit={unit} compared={compared} kind="bass" />
        </g>
      </g>
    </svg>
  );
});

/** Bar lines with their numbers, and a tick for every beat. */
function Bars({ bars, scale, unit, lift }: { bars: Bar[]; scale: LineScale; unit: number; lift: number }) {
  const width = scale.barWidth / unit;
  const left = scale.left / unit;
  const foot = BASS_BOTTOM + lift;
  return (
    <>
      {bars.map((bar, i) => {
        const x = left + i * width;
        return (
          <g key={bar.number}>
            <line class="bar-line" x1={x} x2={x} y1={14} y2={foot} />
            {Array.from({ length: Math.max(0, bar.beats - 1) }, (_, beat) => {
              const at = x + ((beat + 1) / bar.beats) * width;
              return <line key={beat} class="beat-line" x1={at} x2={at} y1={TUNE_TOP + lift - 4} y2={TUNE_TOP + lift} />;
            })}
            <text class="bar-number" x={x + 2} y={9}>{bar.number}</text>
          </g>
        );
      })}
      <line class="bar-line" x1={scale.width / unit} x2={scale.width / unit} y1={14} y2={foot} />
    </>
  );
}

/** Words below a bar, in as many rows as they need. */
function Rows({ rows, x, y, kind }: { rows: string[]; x: number; y: number; kind: string }) {
  if (rows.length === 0) return null;
  return <text class={kind} y={y}>{rows.map((words, i) => <tspan key={i} x={x} dy={i === 0 ? 0 : ROW}>{words}</tspan>)}</text>;
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
