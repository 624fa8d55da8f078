import { describe, expect, it } from "vitest";
import { sharpsOf, signatureAt, signatureOf } from "../src/close/signature";
import { address, place, shareWords } from "../src/trends/draw";

describe("trends", () => {
  const share = { songs: 2, of: 8, share: 0.25, low: 0.07, high: 0.59 };

  it("draw a share inside its interval and say it in words", () => {
    const { low, at, high } = place(share, 200);
    expect([low, at, high]).toEqual([expect.closeTo(14), 50, expect.closeTo(118)]);
    expect(shareWords(share)).toBe("2 of 8 (25 %; 7 % to 59 %)");
    expect(shareWords({ songs: 0, of: 0, share: 0, low: 0, high: 1 })).toBe("no songs");
  });

  it("ask for numerals where there are any, else for the technique", () => {
    const question = { technique: "key-lift", by: "decade", from: "recording,chart" } as const;
    expect(address(question)).toBe("/api/trends?by=decade&from=recording%2Cchart&technique=key-lift");
    expect(address({ ...question, progression: "I iii IV iv" })).toBe("/api/trends?by=decade&from=recording%2Cchart&progression=I+iii+IV+iv");
  });
});

/** The circle of fifths; modes by the signature of the same notes (common practice, no source). */
describe("signatures", () => {
  it("are those of the circle of fifths", () => {
    const majors = ["F", "C", "G", "D", "A", "E", "B", "F#"].map((tonic) => sharpsOf(signatureOf(`${tonic} major`)!));
    expect(majors).toEqual([-1, 0, 1, 2, 3, 4, 5, 6]);
    const minors = ["D", "A", "E", "B", "F#", "C#", "G#"].map((tonic) => sharpsOf(signatureOf(`${tonic} natural minor`)!));
    expect(minors).toEqual([-1, 0, 1, 2, 3, 4, 5]);
  });

  it("write every minor alike and modes as the major on the same notes", () => {
    for (const form of ["natural", "harmonic", "melodic"]) expect(signatureOf(`E ${form} minor`)).toBe("G");
    for (const key of ["D dorian", "E phrygian", "F lydian", "G mixolydian"]) expect(signatureOf(key)).toBe("C");
    expect(signatureOf("Eb major")).toBe("Eb");
  });

  it("are left out where none of seven signs does, or no key is heard", () => {
    expect(signatureOf("G# major")).toBeNull();
    expect(signatureAt({ keys: [] }, 3)).toBe("C");
  });
});
