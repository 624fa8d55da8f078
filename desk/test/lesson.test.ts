import { describe, expect, it } from "vitest";
import { LEVELS_PER_SECOND, levelsOf, matchLevels, SAME_FROM } from "../src/lesson/match";
import { inWords, linesOf } from "../src/lesson/staff";
import type { Example } from "../src/lesson/types";

/** A song of noise whose level changes every quarter of a second, the same for the same seed. */
function song(seed: number, seconds: number, rate: number): Float32Array {
  let state = seed;
  const next = () => ((state = (1103515245 * state + 12345) % 2147483648) / 2147483648);
  const samples = new Float32Array(seconds * rate);
  let level = 0.1;
  for (let i = 0; i < samples.length; i++) {
    if (i % (rate / 4) === 0) level = 0.02 + 0.3 * next();
    samples[i] = level * (2 * next() - 1);
  }
  return samples;
}

describe("a student's own copy", () => {
  const rate = 8000;
  const teacher = levelsOf(song(1, 60, rate), rate);

  it("is known where it begins later and is softer", () => {
    const later = new Float32Array(63 * rate);
    later.set(song(1, 60, rate).map((sample) => sample / 3), 3 * rate);
    const match = matchLevels(teacher, levelsOf(later, rate));
    expect(match.likeness).toBeGreaterThan(SAME_FROM);
    expect(match.offsetSeconds).toBeCloseTo(3, 1);
  });

  it("is known where it begins earlier", () => {
    const match = matchLevels(teacher, levelsOf(song(1, 60, rate).slice(2 * rate), rate));
    expect(match.likeness).toBeGreaterThan(SAME_FROM);
    expect(match.offsetSeconds).toBeCloseTo(-2, 1);
  });

  it("is told from another song, and from half of the song", () => {
    for (let seed = 2; seed < 12; seed++) {
      expect(matchLevels(teacher, levelsOf(song(seed, 60, rate), rate)).likeness).toBeLessThan(SAME_FROM / 2);
    }
    expect(matchLevels(teacher, levelsOf(song(1, 20, rate), rate)).likeness).toBe(-1);
  });

  it("is told from another song that begins and ends in silence too", () => {
    const framed = (seed: number) => {
      const samples = new Float32Array(64 * rate);
      samples.set(song(seed, 60, rate), 2 * rate);
      return levelsOf(samples, rate);
    };
    expect(matchLevels(framed(1), framed(1)).likeness).toBeCloseTo(1, 6);
    for (let seed = 2; seed < 12; seed++) {
      expect(matchLevels(framed(1), framed(seed)).likeness).toBeLessThan(SAME_FROM / 2);
    }
  });

  it("is measured ten times a second", () => {
    expect(teacher.length).toBe(60 * LEVELS_PER_SECOND);
    expect(levelsOf(new Float32Array(rate), rate).every((level) => level === 0)).toBe(true);
  });
});

describe("an example", () => {
  it("breaks into lines that fit", () => {
    expect(linesOf(8, 720)).toEqual([[0, 1, 2], [3, 4, 5], [6, 7]]);
    expect(linesOf(4, 1200)).toEqual([[0, 1, 2, 3]]);
    expect(linesOf(2, 300)).toEqual([[0], [1]]);
    expect(linesOf(5, 900).flat()).toEqual([0, 1, 2, 3, 4]);
  });

  it("is told in words", () => {
    const example: Example = {
      bpm: 100, swing: false,
      parts: [{ name: "melody", clef: "TREBLE", bars: [{ number: 3, signature: "4/4", ticks: 96, beatTicks: 24, fifths: 0,
        chords: [{ at: 0, label: "C", numeral: "I", held: false }],
        notes: [{ at: 0, type: "half", dots: 0, triplet: false, pitch: "E4", tied: false, begins: true, syllable: "mi", marked: false },
          { at: 48, type: "half", dots: 0, triplet: false }] }] }],
    };
    expect(inWords(example)).toBe("melody: bar 3 C (I), E4 mi");
  });
});
