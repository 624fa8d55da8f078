import { describe, expect, it } from "vitest";
import { describe as inWords, noteName } from "../src/drill/box";
import { centsFrom, judge, midiOf, pitchOf } from "../src/drill/pitch";
import { within } from "../src/drill/score";

const RATE = 48000;

/** A sung-like tone: falling partials, a little noise. */
function tone(hertz: number, seconds = 2048 / RATE): Float32Array {
  let state = 7;
  const noise = () => ((state = (1103515245 * state + 12345) % 2147483648) / 1073741824 - 1) * 0.01;
  return Float32Array.from({ length: Math.round(seconds * RATE) }, (_, i) =>
    [1, 2, 3, 4, 5].reduce((sum, n) => sum + (0.3 / n) * Math.sin((2 * Math.PI * hertz * n * i) / RATE), noise()));
}

describe("the pitch of a voice", () => {
  it("is heard within 5 cents from a low bass to a high soprano (equal temperament, ISO 16)", () => {
    for (let midi = 40; midi <= 81; midi++) {
      const hertz = 440 * 2 ** ((midi - 69) / 12);
      const heard = pitchOf(tone(hertz), RATE);
      expect(heard, noteName(midi)).not.toBeNull();
      expect(Math.abs(1200 * Math.log2(heard! / hertz)), noteName(midi)).toBeLessThan(5);
    }
  });

  it("is not made up out of silence or noise", () => {
    expect(pitchOf(new Float32Array(2048), RATE)).toBeNull();
    let state = 3;
    const noise = Float32Array.from({ length: 2048 }, () => (state = (1103515245 * state + 12345) % 2147483648) / 1073741824 - 1);
    expect(pitchOf(noise, RATE)).toBeNull();
  });

  it("is judged in any octave", () => {
    expect(centsFrom(220, 9)).toBeCloseTo(0);
    expect(centsFrom(880 * 2 ** (30 / 1200), 9)).toBeCloseTo(30);
    expect(centsFrom(440 * 2 ** (-70 / 1200), 9)).toBeCloseTo(-70);
    expect(midiOf(261.6256)).toBeCloseTo(60, 3);
    const held = judge([null, 220, 222, 110, 440, null, 330], 9, 50, 0.1);
    expect(held.heldSeconds).toBeCloseTo(0.4);
    expect(judge([null, null], 9, 50, 0.1)).toEqual({ heldSeconds: 0, cents: null });
  });

  it("is put in words", () => {
    expect(inWords(3)).toBe("on the note");
    expect(inWords(-40)).toBe("40 cents too low");
    expect(inWords(200)).toBe("200 cents too high, another note");
  });
});

describe("a singer's range", () => {
  it("is never left", () => {
    for (let lowest = 40; lowest < 60; lowest++) {
      for (let width = 0; width < 30; width++) {
        for (let pitchClass = 0; pitchClass < 12; pitchClass++) {
          const midi = within({ lowest, highest: lowest + width, toleranceCents: 50 }, pitchClass);
          if (width >= 11) expect(midi).not.toBeNull();
          if (midi !== null) {
            expect(midi % 12).toBe(pitchClass);
            expect(midi).toBeGreaterThanOrEqual(lowest);
            expect(midi).toBeLessThanOrEqual(lowest + width);
          }
        }
      }
    }
  });
});
