import type { Tone } from "./types";

/** Plain tones: a sine with a little of its octave, soft at both ends; chords softer than lines. */
const LEVELS: Record<string, number> = { chords: 0.05, bass: 0.18, click: 0.05 };
const LINE_LEVEL = 0.14;
const RISE_SECONDS = 0.012;
const FALL_SECONDS = 0.05;
const LEAD_SECONDS = 0.08;

let context: AudioContext | null = null;
let stopPlaying: (() => void) | null = null;

export function audio(): AudioContext {
  context ??= new AudioContext();
  void context.resume();
  return context;
}

export function hertz(midi: number): number {
  return 440 * 2 ** ((midi - 69) / 12);
}

/** Whatever sounds stops; one thing sounds at a time. */
export function silence(): void {
  stopPlaying?.();
  stopPlaying = null;
}

/** Makes `stop` what the next silence calls. */
export function sounding(stop: () => void): void {
  silence();
  stopPlaying = stop;
}

/** Plays tones once and says when they are over; `pan` from -1, left, to 1. */
export function playTones(tones: readonly (Tone & { pan?: number; level?: number })[], over: () => void = () => {}): void {
  const ctx = audio();
  const out = ctx.createGain();
  out.gain.value = 0.8;
  out.connect(ctx.destination);
  const begin = ctx.currentTime + LEAD_SECONDS;
  let last = begin;
  for (const tone of tones) {
    const from = begin + tone.at;
    const to = Math.max(from + 0.06, from + tone.for);
    last = Math.max(last, to);
    voice(ctx, out, tone, from, to);
  }
  const timer = setTimeout(() => { silence(); }, (last - ctx.currentTime + 0.1) * 1000);
  sounding(() => {
    clearTimeout(timer);
    out.gain.setTargetAtTime(0, ctx.currentTime, 0.01);
    setTimeout(() => out.disconnect(), 200);
    over();
  });
}

function voice(ctx: AudioContext, out: AudioNode, tone: Tone & { pan?: number; level?: number }, from: number, to: number): void {
  const level = ctx.createGain();
  const peak = (LEVELS[tone.part] ?? LINE_LEVEL) * (tone.level ?? 1);
  level.gain.setValueAtTime(0, from);
  level.gain.linearRampToValueAtTime(peak, from + RISE_SECONDS);
  level.gain.setTargetAtTime(peak * 0.6, from + RISE_SECONDS, 0.3);
  level.gain.setTargetAtTime(0, to - FALL_SECONDS, FALL_SECONDS / 3);
  const place = ctx.createStereoPanner();
  place.pan.value = tone.pan ?? 0;
  level.connect(place).connect(out);
  for (const [ratio, share] of [[1, 0.8], [2, 0.2]]) {
    const source = ctx.createOscillator();
    const mix = ctx.createGain();
    mix.gain.value = share;
    source.frequency.value = hertz(tone.midi) * ratio;
    source.connect(mix).connect(level);
    source.start(from);
    source.stop(to + 0.1);
  }
}
