import { Accidental, Annotation, Beam, Dot, Formatter, Renderer, Stave, StaveConnector, StaveNote, StaveTie, VexFlow, Voice } from "vexflow/core";
import fontUrl from "@vexflow-fonts/bravura/bravura.woff2?url";
import type { Bar, Note, SongPage } from "../api/types";
import { placeLabels, textWidth } from "../stack/labels";
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
const NUMERAL_BELOW = 16;
const CHORD_SIZE = 14;
const NUMERAL_SIZE = 12;
const LEVEL_HEIGHT = 32;
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
  const symbols: Symbol[] = [];
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
    symbols.push(...symbolsOf(page, bar, above, first));
    x += above.getWidth();
  });
  drawSymbols(box, symbols, width);
  fit(box, width);
}

/** What stands above or below the usual height, as ledger lines do, gets its room. */
function fit(box: HTMLElement, width: number): void {
  const svg = box.querySelector("svg")!;
  const drawn = svg.getBBox();
  const top = Math.floor(Math.min(0, drawn.y - 2));
  const height = Math.ceil(Math.max(HEIGHT, drawn.y + drawn.height + 4)) - top;
  svg.setAttribute("viewBox", `0 ${top} ${width} ${height}`);
  svg.setAttribute("height", String(height));
  svg.style.height = `${height}px`;
}

function isLow(bass: Note[], bars: Bar[]): boolean {
  const pitches = bars.flatMap((bar) => inBar(bass, bar).starting).map((note) => note.midi).sort((a, b) => a - b);
  return pitches.length > 0 && pitches[pitches.length >> 1] <= LOW_MIDI;
}

function drawPart(context: ReturnType<Renderer["getContext"]>, stave: Stave, clef: Clef, octaves: number, words: Note[], notes: Note[], bar: Bar,
                  signature: string, held: Record<Clef, StaveNote | null>): void {
  const signs = writeBar(notes, bar);
  const silent = signs.every((sign) => !sign.note);
  const drawn = silent ? [silentBar(clef)] : signs.map((sign) => sign.note ? noteSign(sign, clef, octaves, syllableOf(words, sign.note)) : restSign(sign, clef));
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

/** One whole rest in the middle, however long the bar is. */
function silentBar(clef: Clef): StaveNote {
  return new StaveNote({ clef, keys: [clef === "treble" ? "d/5" : "f/3"], duration: "wr", alignCenter: true });
}

interface Symbol {
  x: number;
  name: string;
  numeral: string;
}

/** Chord symbols and numerals of a bar, where they arrive within it. */
function symbolsOf(page: SongPage, bar: Bar, stave: Stave, first: boolean): Symbol[] {
  const from = stave.getNoteStartX();
  const to = stave.getNoteEndX();
  const { held, starting } = inBar(page.chords, bar);
  const place = (seconds: number) => from + Math.min(0.93, Math.max(0, (seconds - bar.startSeconds) / (bar.endSeconds - bar.startSeconds))) * (to - from);
  return [
    ...(first && held ? [{ x: from, name: `(${held.label})`, numeral: held.numeral ?? "" }] : []),
    ...starting.map((chord) => ({ x: place(chord.startSeconds), name: chord.label, numeral: chord.numeral ?? "" })),
  ];
}

/** Above the staves, each with its numeral; those that would run into each other in rows. */
function drawSymbols(box: HTMLElement, symbols: Symbol[], width: number): void {
  const svg = box.querySelector("svg")!;
  const placed = placeLabels(symbols.map(({ x, name, numeral }) => ({
    x, forms: [{ text: name, below: numeral, small: false, width: Math.max(textWidth(name, CHORD_SIZE, true), textWidth(numeral, NUMERAL_SIZE)) + 6 }],
  })), width);
  const text = (x: number, y: number, words: string, kind: string) => {
    const node = document.createElementNS("http://www.w3.org/2000/svg", "text");
    node.setAttribute("x", x.toFixed(1));
    node.setAttribute("y", String(y));
    node.setAttribute("class", kind);
    node.textContent = words;
    svg.append(node);
  };
  for (const { form, x, level } of placed) {
    const y = CHORD_Y - LEVEL_HEIGHT * level;
    text(x, y, form.text, "staff-chord");
    if (form.below) text(x, y + NUMERAL_BELOW, form.below, "staff-numeral");
  }
}
