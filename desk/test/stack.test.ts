import { describe, expect, it } from "vitest";
import { geometry, placeOf, seen } from "../src/stack/geometry";
import { neighbour } from "../src/stack/neighbour";
import { LineScale, placeChords, placeNotes, rangeOf } from "../src/stack/place";
import { barsPerLine, groups, systems } from "../src/stack/rows";
import { repeatOf, sameness } from "../src/stack/sameness";
import { beatWords, changeWords, listed, otherChanges, partChanges } from "../src/stack/changes";
import { textWidth, wrapped } from "../src/stack/labels";
import { partsOf } from "../src/close/targets";
import type { NoteDifference, Repeat } from "../src/api/production";
import { entryWords, placesOf, soundOf } from "../src/stack/production";
import { barWords } from "../src/stack/words";
import { chord, note, song } from "./song";

const none = { chords: new Set<never>(), melody: new Set<never>(), bass: new Set<never>(), goneMelody: [], goneBass: [] };
const versesAndChoruses = song([["A", 4], ["B", 8], ["C", 8], ["B", 12], ["C", 8]]);

describe("rows", () => {
  it("stand under the first copy of the same music, groups in the order they are first heard", () => {
    const drawn = groups(versesAndChoruses, "music");
    expect(drawn.map((group) => group.rows.map((row) => row.section.name))).toEqual([["A 1"], ["B 1", "B 2"], ["C 1", "C 2"]]);
    expect(drawn[1].rows[1].above).toBe(drawn[1].rows[0]);
  });

  it("in the order they are heard still know the copy before", () => {
    const drawn = groups(versesAndChoruses, "time");
    expect(drawn.map((group) => group.rows[0].section.name)).toEqual(["A 1", "B 1", "C 1", "B 2", "C 2"]);
    expect(drawn[3].rows[0].above?.section.name).toBe("B 1");
  });

  it("are cut into phrases that stand together, the longer copy running on alone", () => {
    const cut = systems(groups(versesAndChoruses, "music")[1], 8);
    expect(cut.map((system) => system.lines.map((line) => [line.row.section.name, line.from, line.to]))).toEqual([
      [["B 1", 0, 8], ["B 2", 0, 8]],
      [["B 2", 8, 12]],
    ]);
  });

  it("hold every bar exactly once", () => {
    const lines = groups(versesAndChoruses, "music").flatMap((group) => systems(group, 8)).flatMap((system) => system.lines);
    const numbers = lines.flatMap((line) => line.row.bars.slice(line.from, line.to).map((bar) => bar.number)).sort((a, b) => a - b);
    expect(numbers).toEqual(versesAndChoruses.bars.map((bar) => bar.number));
  });

  it("have as many bars as fit, in lengths that phrases have", () => {
    expect([1500, 1100, 800, 400, 180, 60].map((width) => barsPerLine(width, 84))).toEqual([16, 12, 8, 4, 2, 1]);
  });

  it("are made of equal stretches where there is no pulse", () => {
    const free = song([], { song: { ...versesAndChoruses.song, durationSeconds: 10 } });
    expect(groups(free, "music")[0].rows[0].bars.map((bar) => bar.endSeconds)).toEqual([4, 8, 10]);
  });
});

describe("time and place", () => {
  const shape = geometry(versesAndChoruses, "music", 1000, 1);

  it("a moment stands in the line of its bar, and back again", () => {
    for (const seconds of [0, 7.9, 8, 23.99, 41.3, 79.5]) {
      const { line, x } = placeOf(shape, seconds)!;
      expect(line.scale.seconds(x - line.x)).toBeCloseTo(seconds, 6);
      expect(line.scale.startSeconds).toBeLessThanOrEqual(seconds);
      expect(line.scale.endSeconds).toBeGreaterThanOrEqual(seconds);
    }
  });

  it("the same bar of two copies stands at the same x", () => {
    const one = placeOf(shape, 8 + 3 * 2 + 0.5)!;
    const other = placeOf(shape, 40 + 3 * 2 + 0.5)!;
    expect(other.x).toBeCloseTo(one.x, 9);
    expect(other.line.y).toBeGreaterThan(one.line.y);
  });

  it("only systems that can be seen are drawn", () => {
    expect(seen(shape, -100, 50).length).toBe(1);
    expect(seen(shape, 0, shape.height).length).toBe(shape.systems.length);
  });

  it("keys go to the same bar of the copy below and above", () => {
    const bar = (number: number) => number - 1;
    expect(neighbour(versesAndChoruses, "music", bar(7), 1)).toBe(bar(23));
    expect(neighbour(versesAndChoruses, "music", bar(23), -1)).toBe(bar(7));
    expect(neighbour(versesAndChoruses, "music", bar(1), -1)).toBe(bar(1));
  });
});

describe("chords", () => {
  const early = song([["A", 4], ["B", 4]], {
    chords: [chord(0, 15.5, "C"), chord(15.5, 20, "F", { arrivalBeats: -0.5 }), chord(20, 30, "G"), chord(30, 32, "C")],
  });
  const line = { row: groups(early, "music")[1].rows[0], from: 0, to: 4, copy: 0 };
  const scale = new LineScale(line, 100);
  const placed = placeChords(early, scale, none, 1);

  it("that come early stand before the bar line, with a stroke that leads to it", () => {
    const [first] = placed;
    expect(first.chord.label).toBe("F");
    expect(first.x).toBeCloseTo(scale.left - 100 / 8);
    expect(first.nominalX).toBeCloseTo(scale.left);
  });

  it("that begin within a bar stand at their moment", () => {
    expect(placed[2].x).toBeCloseTo(scale.left + 350);
  });

  it("that sound on from a line before are marked as held", () => {
    const second = { ...line, from: 2 };
    const held = placeChords(early, new LineScale(second, 100), none, 1)[0];
    expect([held.chord.label, held.held]).toEqual(["G", true]);
  });

  it("too close for their names are set smaller, and raised in turn, each over its own numeral", () => {
    const crowded = song([["A", 2]], { chords: [chord(0, 1, "Dbmaj7"), chord(1, 2, "Ebm7"), chord(2, 8, "F")] });
    const row = groups(crowded, "music")[0].rows[0];
    const tight = placeChords(crowded, new LineScale({ row, from: 0, to: 2, copy: 0 }, 120), none, 1);
    expect(tight.map((one) => one.form.small)).toEqual([true, true, false]);
    expect(tight.map((one) => one.level)).toEqual([0, 1, 0]);
  });

  it("never run into each other, however many there are, and end with the line", () => {
    const names = ["F# alone", "A5", "Ebsus2/Bb", "C", "F#m7b5", "E alone", "Dbmaj7"];
    for (const beats of [0.5, 1, 1.5, 2, 3]) {
      const many = Array.from({ length: Math.floor(32 / beats) }, (_, i) => {
        const label = names[i % names.length];
        const bare = label.endsWith("alone") || label.endsWith("5");
        return chord(i * beats, (i + 1) * beats, label, { harte: bare ? "F#:1" : "C:maj", numeral: bare ? "6(no 3rd)" : "IV" });
      });
      const page = song([["A", 8]], { chords: many });
      const row = groups(page, "music")[0].rows[0];
      const wide = new LineScale({ row, from: 0, to: 8, copy: 0 }, 113);
      const placed = placeChords(page, wide, none, 1);
      const crowded = placed.filter((one) => placed.some((other) =>
        other !== one && other.level === one.level && one.labelX < other.labelX + other.form.width && other.labelX < one.labelX + one.form.width));
      if (beats >= 1) expect(crowded.map((one) => one.chord.label)).toEqual([]);
      expect(Math.max(...placed.map((one) => one.labelX + one.form.width))).toBeLessThanOrEqual(wide.width + 0.01);
    }
  });

  it("without third leave out the word where the open circle says it", () => {
    const bare = (from: number, to: number) => chord(from, to, "F# alone", { harte: "F#:1", numeral: "6(no 3rd)" });
    const page = song([["A", 2]], { chords: [bare(0, 1), bare(1, 8)] });
    const row = groups(page, "music")[0].rows[0];
    const placed = placeChords(page, new LineScale({ row, from: 0, to: 2, copy: 0 }, 160), none, 1);
    expect(placed.map((one) => [one.form.text, one.form.below])).toEqual([["F#", "6"], ["F# alone", "6(no 3rd)"]]);
  });

  it("that only sound on give way to what begins at once", () => {
    const page = song([["A", 2], ["B", 2]], { chords: [chord(0, 8.25, "C"), chord(8.25, 16, "F")] });
    const row = groups(page, "music")[1].rows[0];
    expect(placeChords(page, new LineScale({ row, from: 0, to: 2, copy: 0 }, 100), none, 1).map((one) => one.chord.label)).toEqual(["F"]);
  });
});

describe("words below a bar", () => {
  it("take as many rows as they need", () => {
    expect(wrapped("line 2 adds F#3 on beat 3", 80, 10.5).join(" ")).toBe("line 2 adds F#3 on beat 3");
    expect(wrapped("line 2 adds F#3 on beat 3", 80, 10.5).every((row) => textWidth(row, 10.5) <= 80)).toBe(true);
    expect(wrapped("", 80, 10.5)).toEqual([]);
  });

  it("count beats as musicians do", () => {
    expect([1, 2.5, 3.75, 1.25, 2.33, 3.9].map(beatWords)).toEqual(["1", "2½", "3¾", "1¼", "2⅓", "3.90"]);
  });
});

describe("what the desk says a copy does otherwise", () => {
  const added: NoteDifference = { ...note(10, 11, 64, "3"), fate: "added", part: "melody", bar: 3, beat: 3, probability: 0.9 };
  const gone: NoteDifference = { ...note(9, 10, 62, "2"), fate: "removed", part: "melody", bar: 3, beat: 2, probability: 0.9 };
  const inLine: NoteDifference = { ...note(10, 11, 61, "7"), pitch: "C#4", fate: "added", part: "line-1", bar: 3, beat: 3, probability: 0.8 };
  const repeat: Repeat = {
    startSeconds: 4, endSeconds: 10, letter: "A", occurrence: 2, against: 1,
    bars: [{ bar: 3, earlier: [1] }, { bar: 4, earlier: [2] }, { bar: 5, earlier: [] }],
    notes: [added, gone, inLine, { ...inLine, startSeconds: 5.5, endSeconds: 6 }, { ...inLine, part: "line-2", probability: 0.4 }],
    chords: [{ startSeconds: 6, endSeconds: 8, bar: 4, probability: 0.9, before: { harte: "F:maj", label: "F" }, after: { harte: "F:min", label: "Fm" } }],
    layers: [{ startSeconds: 4, endSeconds: 6, bar: 3, layer: "voice-2", entered: true, probability: 0.7 }],
    places: [], levels: [],
    settled: [{ startSeconds: 5, endSeconds: 6, member: "third", part: "line-1", probability: 0.7, before: { harte: "A:5", label: "A5" }, after: { harte: "A:maj", label: "A" }, by: { name: "C#" }, bars: [3] }],
  };
  const page = song([["A", 2], ["A", 3]], {
    chords: [chord(0, 4, "C"), chord(4, 8, "F"), chord(8, 12, "C"), chord(12, 16, "Fm", { harte: "F:min" }), chord(16, 20, "G")],
    melody: [note(0, 1, 60, "1"), note(1, 2, 62, "2"), note(8, 9, 60, "1"), note(10, 11, 64, "3"), note(16, 17, 60, "1")],
    repeats: [repeat],
  });
  const rows = groups(page, "music")[0].rows;

  it("is nothing for the first copy", () => {
    expect(sameness(page, rows[0]).chords.size).toBe(0);
    expect(repeatOf(page, rows[0])).toBeUndefined();
  });

  it("leaves the rest as it was, in bars that both copies have", () => {
    const same = sameness(page, rows[1]);
    expect([...same.chords].map((one) => one.label)).toEqual(["C"]);
    expect([...same.melody].map((one) => one.startBeat)).toEqual([8]);
    expect(same.goneMelody).toEqual([gone]);
  });

  it("is told in words where nothing draws it, if it is likely", () => {
    expect(changeWords(repeat, 3)).toEqual({ full: "line 1 adds C#4 on beat 3, C#4 on beat 3", brief: "2 notes added" });
    expect(changeWords(repeat, 4)).toEqual({ full: "", brief: "" });
    expect(listed(repeat)).toEqual([
      { bar: 3, words: ["line 1 adds C#4 on beat 3, C#4 on beat 3", "tune adds C4 on beat 3; leaves out C4 on beat 2", "voice 2 is new"] },
      { bar: 4, words: ["Fm instead of F"] },
    ]);
    expect(partChanges(repeat, { startSeconds: 4, endSeconds: 6 })).toEqual([
      { part: "line-1", words: "adds C#4", adds: true }, { part: "melody", words: "adds C4; leaves out C4", adds: true },
    ]);
    expect(otherChanges(repeat, { startSeconds: 4, endSeconds: 6 })).toEqual([
      "The third is there now: C# in line 1 makes A5 A", "voice 2 is new, bar 3",
    ]);
  });

  it("makes its line taller, and names the copy it is held against", () => {
    const [first, second] = geometry(page, "music", 1000, 1).systems[0].lines;
    expect(second.height).toBeGreaterThan(first.height);
    const third = { ...repeat, occurrence: 3, against: 1 };
    const more = song([["A", 2], ["A", 1], ["A", 2]], { repeats: [third] });
    expect(groups(more, "music")[0].rows[2].above?.section.occurrence).toBe(1);
  });
});

describe("close listening", () => {
  it("lists parts that sound there first, and the next free name", () => {
    const parts = [{ name: "voice-2", notes: [note(0, 2, 60, "1")] }, { name: "voice-3", notes: [note(8, 9, 60, "1")] }];
    expect(partsOf(parts, "voice", 2, { startSeconds: 4, endSeconds: 6 })).toEqual({ names: ["voice-3", "voice-2"], fresh: "voice-4" });
    expect(partsOf([], "line", 1, { startSeconds: 0, endSeconds: 2 })).toEqual({ names: [], fresh: "line-1" });
  });
});

describe("contours", () => {
  it("stand between the lowest and highest note of their group", () => {
    const page = song([["A", 2]], { melody: [note(0, 1, 60, "1"), note(1, 2, 72, "1")] });
    const range = rangeOf(page.melody, page.sections);
    const row = groups(page, "music")[0].rows[0];
    const placed = placeNotes(page.melody, new LineScale({ row, from: 0, to: 2, copy: 0 }, 100), range, new Set(), 6);
    expect(placed.map((one) => one.height)).toEqual([0, 1]);
    expect(placed[1].endX - placed[1].x).toBeCloseTo(25);
  });

  it("leave out syllables that would run into each other", () => {
    const page = song([["A", 1]], { melody: [note(0, 0.25, 60, "sol"), note(0.25, 0.5, 62, "la"), note(2, 3, 64, "ti")] });
    const row = groups(page, "music")[0].rows[0];
    const placed = placeNotes(page.melody, new LineScale({ row, from: 0, to: 1, copy: 0 }, 100), { low: 57, high: 64 }, new Set(), 6);
    expect(placed.map((one) => one.worded)).toEqual([true, false, true]);
  });
});

describe("layers and places", () => {
  const page = song([["A", 4]], {
    texture: {
      layers: [
        { startSeconds: 2.02, endSeconds: 5.98, layer: "kick", probability: 0.9 }, { startSeconds: 0, endSeconds: 8, layer: "lead", probability: 0.9 },
        { startSeconds: 1.9, endSeconds: 4, layer: "snare", probability: 0.3 },
      ],
      gestures: [{ startSeconds: 2, endSeconds: 4, kind: "riser", probability: 0.8 }],
    },
    space: { events: [
      { startSeconds: 2, endSeconds: 3, source: "line", placement: 0.6, probability: 0.8 }, { startSeconds: 3, endSeconds: 4, source: "line", placement: 0.65, probability: 0.8 },
      { startSeconds: 2, endSeconds: 3, source: "lead", placement: 0, probability: 0.9 },
    ] },
  });

  it("stand under the bar where they enter and leave, if they are sure enough", () => {
    expect(page.bars.map((bar) => entryWords(soundOf(page, bar)))).toEqual(["▸ lead", "▸ kick  riser", "", "kick ◂"]);
  });

  it("are drawn once for each place", () => {
    expect(placesOf(page.space, page.bars[1])).toEqual([0, 0.6]);
  });
});

describe("a bar in words", () => {
  it("tells chords, how they arrive, bass and tune", () => {
    const page = song([["A", 2]], {
      chords: [chord(0, 3.5, "C", { numeral: "I" }), chord(3.5, 8, "G5", { harte: "G:5", numeral: "5(no 3rd)", arrivalBeats: -0.5 })],
      bass: [note(0, 4, 36, "do")], melody: [note(0, 1, 60, "mi"), note(2, 3, 62, "sol")],
    });
    expect(barWords(page, page.bars[0], "Verse 1")).toBe(
      "Bar 1, Verse 1. C (I); G5 (5, half a beat early, no third). Bass: do. Tune: mi sol.",
    );
    expect(barWords(page, page.bars[1], "Verse 1")).toBe("Bar 2, Verse 1. G5 still sounding.");
  });
});
