import { Accidental, Annotation, Beam, Dot, Formatter, Renderer, Stave, StaveConnector, StaveNote, StaveTie, VexFlow, Voice } from "vexflow/core";
import fontUrl from "@vexflow-fonts/bravura/bravura.woff2?url";
import type { Bar, Note, SongPage } from "../api/types";
import { inBar } from "../stack/words";
import { SIGNS, splitPitch, writeBar, type Written } from "./rhythm";
import { sharpsOf, signatureAt } from "./signature";

let fontLoaded: Promise<unknown> | null = null;

/** The music font, from the desk itself. */
function loadFont(): Promise<unknown> {
  fontLoaded ??= new FontFace("Bravura", `url(${fontUrl})`).load().then((face) => {
    document.fonts.add(face);
    VexFlow.setFonts("Bravura");
  });
  return fontLoaded;
}

const CHORD_Y = 14;
const NUMERAL_Y = 30;
const TUNE_Y = 24;
const BASS_Y = 114;
const HEIGHT = 230;
const SIGN_WIDTH = 11;

/** Bass lines are written an octave above where they sound if most of them would stand below the staff: E2 and lower. */
const LOW_MIDI = 40;

type Clef = "treble" | "bass";

/** Sets bars from one index to another; words come from `page`, pitches from its twin with English names. */
export async function engrave(box: HTMLElement, page: SongPage, english: SongPage, from: number, to: number, width: number): Promise<void> {
  await loadFont();
  box.replaceChildren();
  const renderer = new Renderer(box as HTMLDivElement, Renderer.Backends.SVG);
  renderer.resize(width, HEIGHT);
  const context = renderer.getContext();
  const bars = page.bars.slice(from, to + 1);
  const octaveUp = isLow(page.bass, bars);
  // One signature holds for the few bars that are open; a new key within them is written with accidentals.
  const signature = signatureAt(english, (bars[0].startSeconds + bars[0].endSeconds) / 2);
  const head = 70 + SIGN_WIDTH * Math.abs(sharpsOf(signature));
  const barWidth = (width - head - 12) / bars.length;
  let x = 6;
  const held: Record<Clef, StaveNote | null> = { treble: null, bass: null };
  bars.forEach((bar, i) => {
    const first = i === 0;
    const changes = first || bar.signature !== bars[i - 1].signature;
    const staves = (["treble", "bass"] as const).map((clef) => {
      const stave = new Stave(x, clef === "treble" ? TUNE_Y : BASS_Y, barWidth + (first ? head : 0));
      if (first) stave.addClef(clef, undefined, clef === "bass" && octaveUp ? "8vb" : undefined);
      if (first) stave.addKeySignature(signature);
      if (changes) stave.addTimeSignature(bar.signature);
      stave.setContext(context).draw();
      return stave;
    });
    if (first) new StaveConnector(staves[0], staves[1]).setType("singleLeft").setContext(context).draw();
    const [above, below] = staves;
    below.setNoteStartX(above.getNoteStartX());
    drawPart(context, above, "treble", 0, page.melody, english.melody, bar, signature, held);
    drawPart(context, below, "bass", octaveUp ? 1 : 0, page.bass, english.bass, bar, signature, held);
    drawChords(box, page, bar, above, first);
    x += above.getWidth();
  });
}

function isLow(bass: Note[], bars: Bar[]): boolean {
  const pitches = bars.flatMap((bar) => inBar(bass, bar).starting).map((note) => note.midi).sort((a, b) => a - b);
  return pitches.length > 0 && pitches[pitches.length >> 1] <= LOW_MIDI;
}

function drawPart(context: ReturnType<Renderer["getContext"]>, stave: Stave, clef: Clef, octaves: number, words: Note[], notes: Note[], bar: Bar,
                  signature: string, held: Record<Clef, StaveNote | null>): void {
  const signs = writeBar(notes, bar);
  const drawn = signs.map((sign) => sign.note ? noteSign(sign, clef, octaves, syllableOf(words, sign.note)) : restSign(sign, clef));
  const voice = new Voice({ numBeats: 4, beatValue: 4 }).setMode(Voice.Mode.SOFT).addTickables(drawn);
  Accidental.applyAccidentals([voice], signature);
  const beams = Beam.generateBeams(drawn.filter((sign) => !sign.isRest()), { maintainStemDirections: false });
  new Formatter().joinVoices([voice]).format([voice], stave.getNoteEndX() - stave.getNoteStartX() - 14);
  voice.draw(context, stave);
  beams.forEach((beam) => beam.setContext(context).draw());
  const tie = (one: StaveNote | undefined, other: StaveNote) =>
    new StaveTie({ firstNote: one, lastNote: other, firstIndexes: [0], lastIndexes: [0] }).setContext(context).draw();
  if (held[clef] && drawn[0] && signs[0].note && !signs[0].begins) tie(held[clef]!, drawn[0]);
  drawn.forEach((sign, i) => signs[i].tied && drawn[i + 1] && tie(sign, drawn[i + 1]));
  const last = signs.length - 1;
  held[clef] = last >= 0 && signs[last].tied ? drawn[last] : null;
}

/** The syllable as the reader wants it: notes of both pages stand in the same order. */
function syllableOf(words: Note[], note: Note): string {
  return words.find((other) => other.startSeconds === note.startSeconds)?.syllable ?? "";
}

function noteSign(sign: Written, clef: Clef, octaves: number, syllable: string): StaveNote {
  const pitch = splitPitch(sign.note!.pitch);
  if (!pitch) throw new Error(`The pitch ${sign.note!.pitch} has no place on a staff.`);
  const duration = SIGNS.get(sign.sixteenths)!;
  const drawn = new StaveNote({ clef, keys: [`${pitch.letter}${pitch.accidental}/${pitch.octave + octaves}`], duration, autoStem: true });
  if (duration.endsWith("d")) Dot.buildAndAttach([drawn]);
  if (sign.begins && syllable) {
    drawn.addModifier(new Annotation(syllable).setFont("system-ui", 9.5).setVerticalJustification(Annotation.VerticalJustify.BOTTOM));
  }
  return drawn;
}

function restSign(sign: Written, clef: Clef): StaveNote {
  const duration = SIGNS.get(sign.sixteenths)!;
  const drawn = new StaveNote({ clef, keys: [clef === "treble" ? "b/4" : "d/3"], duration: `${duration}r` });
  if (duration.endsWith("d")) Dot.buildAndAttach([drawn]);
  return drawn;
}

/** Chord symbols and numerals above, where they arrive within the bar. */
function drawChords(box: HTMLElement, page: SongPage, bar: Bar, stave: Stave, first: boolean): void {
  const svg = box.querySelector("svg")!;
  const from = stave.getNoteStartX();
  const to = stave.getNoteEndX();
  const text = (x: number, y: number, words: string, kind: string) => {
    const node = document.createElementNS("http://www.w3.org/2000/svg", "text");
    node.setAttribute("x", x.toFixed(1));
    node.setAttribute("y", String(y));
    node.setAttribute("class", kind);
    node.textContent = words;
    svg.append(node);
  };
  const { held, starting } = inBar(page.chords, bar);
  if (first && held) {
    text(from, CHORD_Y, `(${held.label})`, "staff-chord");
    if (held.numeral) text(from, NUMERAL_Y, held.numeral, "staff-numeral");
  }
  for (const chord of starting) {
    const share = (chord.startSeconds - bar.startSeconds) / (bar.endSeconds - bar.startSeconds);
    const x = from + Math.min(0.93, Math.max(0, share)) * (to - from);
    text(x, CHORD_Y, chord.label, "staff-chord");
    if (chord.numeral) text(x, NUMERAL_Y, chord.numeral, "staff-numeral");
  }
}
