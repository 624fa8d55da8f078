import { describe, expect, it } from "vitest";
import { ALL, FIRST, heldWords, joined, partsOf, sameMusic } from "../src/api/parts";
import { song } from "./song";

const held = { ...song([["A", 4]]), tags: { chords: "1-a", bass: "2-b" } };

describe("a page in parts", () => {
  it("brings with a word what is drawn beside the rows where it is said", () => {
    expect(partsOf([{ kind: "ChordOver", span: [0, 1], chord: "Gm" }])).toEqual([]);
    expect(partsOf([{ kind: "VoiceNoteOver", voice: "voice-2", pitch: "C5" }])).toEqual(["voices"]);
    expect(partsOf([{ kind: "PlaceOver", source: "lead", placement: 0.2 }, { kind: "LineNoteOver", line: "line-1" }])).toEqual(["lines", "space"]);
  });

  it("names what is held by its tags, and nothing where nothing is held", () => {
    expect(heldWords(held)).toEqual({ "X-Undersong-Held": "chords=1-a,bass=2-b" });
    expect(heldWords(undefined)).toEqual({});
    expect(heldWords(song([["A", 4]]))).toEqual({});
  });

  it("is completed by what was held, the same objects where nothing changed", () => {
    const chords = [...held.chords].reverse();
    const page = joined(held, { ...({} as typeof held), revision: 7, chords, tags: { chords: "1-c", steps: "3-d" } });
    expect(page.revision).toBe(7);
    expect(page.chords).toBe(chords);
    expect(page.bass).toBe(held.bass);
    expect(page.tags).toEqual({ chords: "1-c", bass: "2-b", steps: "3-d" });
  });

  it("draws another stack only where something in the stack is another", () => {
    expect(sameMusic(held, { ...held, findings: [], steps: [], revision: 9 })).toBe(true);
    expect(sameMusic(held, { ...held, chords: [...held.chords] })).toBe(false);
  });

  it("asks first for less than all", () => {
    expect(new Set(ALL).size).toBe(ALL.length);
    expect(FIRST).not.toContain("findings");
    expect(ALL).toEqual(expect.arrayContaining([...FIRST]));
  });
});
