import { describe, expect, it } from "vitest";
import { chordAt, spanOfChord } from "../src/close/targets";
import { splitPitch, writeBar } from "../src/close/rhythm";
import { closeWindow, outline } from "../src/close/window";
import { allowed, BINDINGS, deedOf, keyName } from "../src/keys/map";
import { loudnessHeights, markEvery } from "../src/overview/curve";
import { samePlace, secondsOfBeat } from "../src/time/grid";
import { clock, sureness } from "../src/time/words";
import type { FindingGroup } from "../src/api/findings";
import type { Work } from "../src/api/types";
import { byTechnique, verdictsOn, whereWords } from "../src/findings/words";
import { together } from "../src/shelf/state";
import { chord, note, song } from "./song";

const press = (key: string, held: Partial<KeyboardEvent> = {}) =>
  keyName({ key, shiftKey: false, ctrlKey: false, metaKey: false, altKey: false, ...held });

describe("keys", () => {
  it("mean one thing each, under both hands", () => {
    for (const hand of ["left", "right"] as const) {
      const names = BINDINGS.map((binding) => binding[hand]);
      expect(new Set(names).size).toBe(names.length);
    }
  });

  it("reach the same deeds with either hand", () => {
    expect(deedOf(press("a")!, "left")).toBe("loop");
    expect(deedOf(press("l")!, "right")).toBe("loop");
    expect(deedOf(press("l")!, "left")).toBeNull();
  });

  it("are named apart with Shift and Ctrl, and by their sign", () => {
    expect(deedOf(press("ArrowRight", { shiftKey: true })!, "left")).toBe("extend-forth");
    expect(deedOf(press("Z", { ctrlKey: true, shiftKey: true })!, "left")).toBe("redo");
    expect(deedOf(press("?", { shiftKey: true })!, "left")).toBe("help");
    expect(deedOf(press(" ")!, "right")).toBe("play");
    expect(press("a", { altKey: true })).toBeNull();
  });
});

describe("while the reading is hidden", () => {
  it("keys play and remark, but tell nothing of bars, beats or notes", () => {
    const may = BINDINGS.filter((binding) => allowed(binding.deed, true)).map((binding) => binding.deed);
    expect(may).toContain("play");
    expect(may).toContain("remark");
    expect(may.filter((deed) => /^(say|click|count|tones|back|forth|up|down|extend|close-up|switch|mark)/.test(deed))).toEqual([]);
    expect(BINDINGS.every((binding) => allowed(binding.deed, false))).toBe(true);
  });
});

describe("findings", () => {
  const occurrence = (startSeconds: number) => ({ startSeconds, endSeconds: startSeconds + 2, probability: 0.8, strength: 1, summary: `at ${startSeconds}`, evidence: [], under: [] });
  const group = (technique: string, probability: number, ...starts: number[]) =>
    ({ technique, kind: "theory", name: technique, probability, occurrences: starts.map(occurrence) }) as unknown as FindingGroup;

  it("of one technique are told once, in order of time, where the one worth most stood", () => {
    const told = byTechnique([group("pedal", 0.7, 30), group("lift", 0.9, 10), group("pedal", 0.8, 4, 60)]);
    expect(told.map((one) => [one.technique, one.probability, one.occurrences.map((at) => at.startSeconds)])).toEqual([["pedal", 0.8, [4, 30, 60]], ["lift", 0.9, [10]]]);
  });

  it("name every place once, and none that lies inside another", () => {
    const at = (startSeconds: number, bars?: [number, number]) => ({ startSeconds, bars });
    expect(whereWords([at(0, [1, 4]), at(8, [5, 9]), at(8, [5, 12]), at(8, [5, 12]), at(14, [8, 8]), at(40), at(60, [21, 28])]))
      .toBe("bars 1 to 4; bars 5 to 12; 0:40; bars 21 to 28");
  });
});

describe("the queue of recordings", () => {
  it("does not forget an end that was told while an older answer was on its way", () => {
    const item = (id: number, state: Work["state"]): Work => ({ id, name: `${id}.wav`, state });
    const known = [item(1, "cancelled"), item(2, "waiting"), item(3, "done")];
    expect(together(known, [item(1, "working"), item(2, "working"), item(4, "waiting")]))
      .toEqual([item(1, "cancelled"), item(2, "working"), item(4, "waiting")]);
  });
});

describe("time", () => {
  it("is written as on a player", () => {
    expect([clock(0), clock(59.99), clock(238), clock(9.99, true), clock(61.25, true)]).toEqual(["0:00", "0:59", "3:58", "0:09.9", "1:01.2"]);
  });

  it("of a beat lies between its neighbours, and goes on at their pace", () => {
    expect([0.5, 1.5, -1, 3].map((beat) => secondsOfBeat([1, 2, 4], beat))).toEqual([1.5, 3, 0, 6]);
  });

  it("goes to the same bar and beat in another span", () => {
    const { bars } = song([["A", 4], ["A", 4]]);
    expect(samePlace(bars, 3.5, 0, 4, 7)).toBeCloseTo(11.5);
    expect(samePlace(bars, 9, 4, 0, 3)).toBeCloseTo(1);
    // The second span is shorter: what lies past its end begins again.
    expect(samePlace(bars, 7, 0, 4, 5)).toBe(8);
  });

  it("of close listening has a margin, inside the song", () => {
    expect(closeWindow({ startSeconds: 0, endSeconds: 2 }, 10)).toEqual({ startSeconds: 0, endSeconds: 2.24 });
    expect(closeWindow({ startSeconds: 0, endSeconds: 90 }, 100).endSeconds).toBeLessThan(31);
  });
});

describe("how sure", () => {
  it("is one of three words", () => {
    expect([0.97, 0.85, 0.6, 0.5, 0.49].map(sureness)).toEqual(["sure", "sure", "likely", "likely", "open"]);
  });
});

describe("pictures", () => {
  it("of loudness stand against the loudest bar", () => {
    const bars = song([["A", 3]]).bars.map((bar, i) => ({ ...bar, lufs: [-14, -26, -60][i] }));
    expect(loudnessHeights(bars)).toEqual([1, 0.5, 0]);
  });

  it("have marks at round times that leave room for their words", () => {
    expect(markEvery(120, 1300)).toBe(10);
    expect(markEvery(600, 700)).toBe(60);
  });

  it("of a waveform go forth along the highest and back along the lowest", () => {
    expect(outline([-1, 0], [1, 0.5], 10, 0, 20)).toBe("M2.5 0.0L7.5 5.0L7.5 10.0L2.5 20.0Z");
  });
});

describe("staff notation", () => {
  const [bar] = song([["A", 1]]).bars;
  const signs = (written: ReturnType<typeof writeBar>) => written.map((one) => `${one.note ? one.note.degree : "-"}${one.sixteenths}${one.tied ? "~" : ""}`);

  it("fills a bar with notes and rests", () => {
    expect(signs(writeBar([note(0, 1, 60, "1"), note(2, 4, 62, "2")], bar))).toEqual(["14", "-4", "28"]);
  });

  it("takes short gaps for breath", () => {
    expect(signs(writeBar([note(0, 0.8, 60, "1"), note(1, 3.9, 62, "2")], bar))).toEqual(["14", "212"]);
  });

  it("ties what one sign cannot say, and what is held over the bar line", () => {
    expect(signs(writeBar([note(0, 1.25, 60, "1"), note(3, 6, 62, "2")], bar))).toEqual(["14~", "11", "-6", "-1", "24~"]);
    expect(writeBar([note(-2, 1, 60, "1")], bar)[0].begins).toBe(false);
  });

  it("counts sixteenths in compound meter by the dotted beat", () => {
    const compound = { ...bar, signature: "6/8", beats: 2 };
    expect(signs(writeBar([note(0, 1, 60, "1"), note(1, 2, 62, "2")], compound))).toEqual(["16", "26"]);
  });

  // Scientific pitch notation (Acoustical Society of America, 1939; from memory): C4 is middle C.
  it("reads written pitches, and knows which it cannot", () => {
    expect(splitPitch("F#4")).toEqual({ letter: "f", accidental: "#", octave: 4 });
    expect(splitPitch("Bb-1")).toEqual({ letter: "b", accidental: "b", octave: -1 });
    expect(splitPitch("Fx5")?.accidental).toBe("##");
    expect(splitPitch("fis4")).toBeNull();
  });
});

describe("what a typed chord is meant for", () => {
  const page = song([["A", 2]]);
  it("is the chord that belongs to the bar, where it really stands", () => {
    const early = chord(3.5, 7.5, "F");
    expect(spanOfChord(chordAt([chord(0, 3.5, "C"), early, chord(7.5, 8, "G")], page.bars[1]), page.bars[1])).toEqual({ startSeconds: 1.75, endSeconds: 3.75 });
  });

  it("is the bar alone where the chord lasts longer, or where there is none", () => {
    const whole = { startSeconds: 0, endSeconds: 2 };
    expect(spanOfChord(chord(0, 8, "C"), page.bars[0])).toEqual(whole);
    expect(spanOfChord(null, page.bars[0])).toEqual(whole);
  });
});

describe("verdicts", () => {
  it("belong to the technique and place they were said of, the newest first", () => {
    const said = (id: number, technique: string, startSeconds: number) =>
      ({ id, technique, startSeconds, endSeconds: startSeconds + 1, name: "", answer: "yes" as const, words: "", author: "listener", saidAt: "" });
    const verdicts = [said(1, "pedal-point", 10), said(2, "pedal-point", 10.2), said(3, "riff", 10), said(4, "pedal-point", 40)];
    expect(verdictsOn(verdicts, "pedal-point", { startSeconds: 10, endSeconds: 14 })[0].id).toBe(2);
    expect(verdictsOn(verdicts, "pedal-point", { startSeconds: 20, endSeconds: 24 })).toEqual([]);
  });
});
