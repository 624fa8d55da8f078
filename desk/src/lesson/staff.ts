import { Accidental, Annotation, Beam, Dot, Formatter, Renderer, Stave, StaveConnector, StaveNote, StaveTie, Stem, Tuplet, VexFlow, Voice } from "vexflow/core";
import font from "@vexflow-fonts/bravura/bravura.woff2?inline";
import { splitPitch } from "../close/rhythm";
import type { Bar, Example, Part, Sign } from "./types";

let fontLoaded: Promise<unknown> | null = null;

function loadFont(): Promise<unknown> {
  fontLoaded ??= new FontFace("Bravura", `url(${font})`).load().then((face) => {
    document.fonts.add(face);
    VexFlow.setFonts("Bravura");
  });
  return fontLoaded;
}

const SIGNS: Record<string, string> = { whole: "w", half: "h", quarter: "q", eighth: "8", "16th": "16", "32nd": "32" };
const KEYS_OF_FIFTHS = ["Cb", "Gb", "Db", "Ab", "Eb", "Bb", "F", "C", "G", "D", "A", "E", "B", "F#", "C#"];
const STAFF_HEIGHT = 116;
const SYLLABLES_BELOW = 34;
const CLEAR_OF_NOTES = 17;
const WORDS_ABOVE = 42;
const LEAST_BAR_WIDTH = 185;
const MARK = "▼";

/** Room for a letter of a chord symbol; symbols at the end of a line are moved in to stay whole. */
const WIDE_LETTER = 9;

/** A line of bars that fits the width. */
export function linesOf(bars: number, width: number): number[][] {
  const fitting = Math.max(1, Math.floor((width - 80) / LEAST_BAR_WIDTH));
  const lines = Math.ceil(bars / Math.min(fitting, 4));
  const each = Math.ceil(bars / lines);
  return Array.from({ length: lines }, (_, line) => Array.from({ length: Math.min(each, bars - line * each) }, (_, i) => line * each + i))
    .filter((line) => line.length > 0);
}

/** Draws an example, a system of staves under another, as wide as its box. */
export async function drawExample(box: HTMLElement, example: Example, width: number): Promise<void> {
  await loadFont();
  box.replaceChildren();
  const bars = example.parts[0]?.bars.length ?? 0;
  for (const line of bars ? linesOf(bars, width) : []) {
    const system = document.createElement("div");
    box.append(system);
    drawSystem(system, example, line, width);
  }
  box.setAttribute("role", "img");
  box.setAttribute("aria-label", inWords(example));
}

/** The example for those who do not see it. */
export function inWords(example: Example): string {
  return example.parts
    .map((part) => `${part.name}: ` + part.bars.map((bar) => `bar ${bar.number} ` + [
      ...bar.chords.map((chord) => chord.label + (chord.numeral ? ` (${chord.numeral})` : "")),
      ...bar.notes.filter((sign) => sign.begins).map((sign) => `${sign.pitch} ${sign.syllable ?? ""}`.trim()),
    ].join(", ")).join("; "))
    .join(". ");
}

function drawSystem(box: HTMLElement, example: Example, line: number[], width: number): void {
  const renderer = new Renderer(box as HTMLDivElement, Renderer.Backends.SVG);
  const height = WORDS_ABOVE + STAFF_HEIGHT * example.parts.length + 22;
  renderer.resize(width, height);
  const context = renderer.getContext();
  const rows = example.parts.map((part, row) => ({ part, y: WORDS_ABOVE - 12 + row * STAFF_HEIGHT, held: null as StaveNote | null }));
  const first = example.parts[0].bars;
  const head = 46 + 9 * Math.abs(first[line[0]].fifths) + (line[0] === 0 ? 26 : 0);
  const weights = line.map((i) => 1 + 0.12 * Math.max(...example.parts.map((part) => part.bars[i].notes.length)));
  const unit = (width - head - 12) / weights.reduce((sum, weight) => sum + weight, 0);
  const sung: { one: Signs; bottom: number }[][] = rows.map(() => []);
  let x = 6;
  line.forEach((i, place) => {
    const barWidth = weights[place] * unit + (place === 0 ? head : 0);
    const staves = rows.map(({ part, y }) => stave(part, part.bars[i], i > 0 ? part.bars[i - 1] : null, place === 0, x, y, barWidth));
    const noteStart = Math.max(...staves.map((one) => one.getNoteStartX()));
    staves.forEach((one) => one.setNoteStartX(noteStart).setContext(context).draw());
    if (place === 0 && staves.length > 1) {
      new StaveConnector(staves[0], staves[staves.length - 1]).setType("singleLeft").setContext(context).draw();
    }
    const voices = rows.map((row) => signsOf(row.part, row.part.bars[i]));
    // Each by itself: joined, they would move out of each other's way as if they shared one staff.
    const formatter = new Formatter();
    voices.forEach((one) => formatter.joinVoices([one.voice]));
    formatter.format(voices.map((one) => one.voice), barWidth - (noteStart - x) - 16);
    voices.forEach((one, row) => drawVoice(context, one, staves[row], rows[row]));
    words(box, rows[0].part.bars[i], staves[0], voices[0].notes, place === 0);
    voices.forEach((one, row) => sung[row].push({ one, bottom: staves[row].getYForLine(4) }));
    x += barWidth;
  });
  for (const bars of sung) {
    const y = Math.max(...bars.map(({ one, bottom }) => Math.max(bottom + SYLLABLES_BELOW, lowestOf(one) + CLEAR_OF_NOTES)));
    bars.forEach(({ one }) => syllables(box, one, y));
  }
}

/** Where the lowest note with a syllable stands, downward from the top; 0 for none. */
function lowestOf({ signs, notes }: Signs): number {
  return Math.max(0, ...notes.flatMap((note, i) => (signs[i]?.syllable ? note.getYs() : [])));
}

function stave(part: Part, bar: Bar, before: Bar | null, first: boolean, x: number, y: number, width: number): Stave {
  const drawn = new Stave(x, y, width);
  const octave = part.clef.endsWith("OCTAVE_DOWN") ? "8vb" : undefined;
  if (first) drawn.addClef(part.clef.startsWith("TREBLE") ? "treble" : "bass", undefined, octave);
  if (first || before?.fifths !== bar.fifths) drawn.addKeySignature(KEYS_OF_FIFTHS[Math.max(-7, Math.min(7, bar.fifths)) + 7]);
  if (!before || before.signature !== bar.signature) drawn.addTimeSignature(bar.signature);
  return drawn;
}

interface Signs {
  voice: Voice;
  notes: StaveNote[];
  signs: Sign[];
  beams: Beam[];
  tuplets: Tuplet[];
}

function signsOf(part: Part, bar: Bar): Signs {
  const clef = part.clef.startsWith("TREBLE") ? "treble" : "bass";
  if (bar.notes.every((sign) => !sign.pitch)) return silentBar(clef);
  const notes = bar.notes.map((sign) => noteOf(sign, clef, part.clef.endsWith("OCTAVE_DOWN") ? 1 : 0));
  const tuplets: Tuplet[] = [];
  let group: StaveNote[] = [];
  bar.notes.forEach((sign, i) => {
    if (sign.triplet) group.push(notes[i]);
    const beatEnds = i + 1 === bar.notes.length || bar.notes[i + 1].at % bar.beatTicks === 0;
    if (group.length && beatEnds) {
      tuplets.push(new Tuplet(group, { numNotes: 3, notesOccupied: 2 }));
      group = [];
    }
  });
  const voice = new Voice({ numBeats: 4, beatValue: 4 }).setMode(Voice.Mode.SOFT).addTickables(notes);
  Accidental.applyAccidentals([voice], KEYS_OF_FIFTHS[Math.max(-7, Math.min(7, bar.fifths)) + 7]);
  return { voice, notes, signs: bar.notes, beams: beamsOf(bar, notes), tuplets };
}

/** A bar without notes has one whole rest in its middle, whatever its meter (E. Gould, "Behind Bars", 2011, from memory). */
function silentBar(clef: "treble" | "bass"): Signs {
  const rest = new StaveNote({ clef, keys: [clef === "treble" ? "d/5" : "f/3"], duration: "wr", alignCenter: true });
  const voice = new Voice({ numBeats: 4, beatValue: 4 }).setMode(Voice.Mode.SOFT).addTickables([rest]);
  return { voice, notes: [rest], signs: [], beams: [], tuplets: [] };
}

/** Notes with flags, joined beat by beat. */
function beamsOf(bar: Bar, notes: StaveNote[]): Beam[] {
  const beams: Beam[] = [];
  let group: StaveNote[] = [];
  const close = () => {
    if (group.length > 1) {
      const middle = group.reduce((sum, note) => sum + note.getKeyProps()[0].line, 0) / group.length;
      group.forEach((note) => note.setStemDirection(middle < 3 ? Stem.UP : Stem.DOWN));
      beams.push(new Beam(group));
    }
    group = [];
  };
  bar.notes.forEach((sign, i) => {
    if (sign.at % bar.beatTicks === 0) close();
    if (sign.pitch && ["eighth", "16th", "32nd"].includes(sign.type)) group.push(notes[i]);
    else close();
  });
  close();
  return beams;
}

function noteOf(sign: Sign, clef: "treble" | "bass", octaves: number): StaveNote {
  const pitch = sign.pitch ? splitPitch(sign.pitch) : null;
  const duration = SIGNS[sign.type] + "d".repeat(sign.dots);
  const key = pitch ? `${pitch.letter}${pitch.accidental}/${pitch.octave + octaves}` : clef === "treble" ? "b/4" : "d/3";
  const note = new StaveNote({ clef, keys: [key], duration: pitch ? duration : duration + "r", autoStem: true });
  for (let i = 0; i < sign.dots; i++) Dot.buildAndAttach([note]);
  if (sign.marked) {
    note.addModifier(new Annotation(MARK).setFont("system-ui", 9).setVerticalJustification(Annotation.VerticalJustify.TOP));
  }
  return note;
}

function drawVoice(context: ReturnType<Renderer["getContext"]>, one: Signs, staff: Stave, row: { held: StaveNote | null }): void {
  one.voice.draw(context, staff);
  one.beams.forEach((beam) => beam.setContext(context).draw());
  one.tuplets.forEach((tuplet) => tuplet.setContext(context).draw());
  const tie = (from: StaveNote | undefined, to: StaveNote | undefined) =>
    new StaveTie({ firstNote: from, lastNote: to, firstIndexes: [0], lastIndexes: [0] }).setContext(context).draw();
  if (row.held && one.signs[0]?.pitch && !one.signs[0].begins) tie(row.held, one.notes[0]);
  one.signs.forEach((sign, i) => sign.tied && one.notes[i + 1] && tie(one.notes[i], one.notes[i + 1]));
  const last = one.signs.length - 1;
  row.held = one.signs[last]?.tied ? one.notes[last] : null;
}

/** Chord symbols and numerals above the first staff, where they arrive. */
function words(box: HTMLElement, bar: Bar, staff: Stave, notes: StaveNote[], first: boolean): void {
  const svg = box.querySelector("svg")!;
  const from = staff.getNoteStartX();
  const to = staff.getNoteEndX();
  const edge = Number(svg.getAttribute("width"));
  let free = -Infinity;
  for (const chord of bar.chords.filter((one) => first || !one.held)) {
    const i = bar.notes.findIndex((sign) => sign.at === chord.at);
    const wanted = Math.max(free, i >= 0 && notes.length === bar.notes.length && bar.notes[i].pitch ? notes[i].getAbsoluteX() : from + (chord.at / bar.ticks) * (to - from));
    const label = chord.held ? `(${chord.label})` : chord.label;
    const x = Math.min(wanted, edge - WIDE_LETTER * Math.max(label.length, chord.numeral.length));
    text(svg, x, 14, label, "staff-chord");
    text(svg, x, 29, chord.numeral, "staff-numeral");
    free = x + WIDE_LETTER * Math.max(label.length, chord.numeral.length) + 4;
  }
}

/** Syllables on one line under their staff. */
function syllables(box: HTMLElement, one: Signs, y: number): void {
  const svg = box.querySelector("svg")!;
  let free = -Infinity;
  one.signs.forEach((sign, i) => {
    if (!sign.begins || !sign.syllable) return;
    const x = Math.max(free, one.notes[i].getAbsoluteX() - 2);
    text(svg, x, y, sign.syllable, "staff-syllable");
    free = x + 7 * sign.syllable.length + 2;
  });
}

function text(svg: SVGSVGElement, x: number, y: number, content: string, kind: string): void {
  const node = document.createElementNS("http://www.w3.org/2000/svg", "text");
  node.setAttribute("x", x.toFixed(1));
  node.setAttribute("y", String(y));
  node.setAttribute("class", kind);
  node.textContent = content;
  svg.append(node);
}
