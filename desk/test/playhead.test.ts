import { describe, expect, it } from "vitest";
import type { Report } from "../src/audio/messages";
import { frameHeard } from "../src/audio/playhead";
import { byteRange, CHUNK_FRAMES } from "../src/audio/sound";

const at: Report = { frame: 44_100, rate: 1, playing: true, counting: false, starved: false, loop: null, wentRound: false };

describe("the playhead", () => {
  it("shows what is heard, which was rendered a little before the report", () => {
    expect(frameHeard(at, 10, 9.9)).toBeCloseTo(44_100 - 4410);
    expect(frameHeard({ ...at, rate: 0.5 }, 10, 9.9)).toBeCloseTo(44_100 - 2205);
  });

  it("stands still while paused, counting in, or waiting for sound", () => {
    for (const still of [{ playing: false }, { counting: true }, { starved: true }]) {
      expect(frameHeard({ ...at, ...still }, 10, 12)).toBe(44_100);
    }
  });

  it("is still at the loop's end while its start is rendered", () => {
    const loop = { start: 44_000, end: 88_000 };
    expect(frameHeard({ ...at, loop, wentRound: true }, 10, 9.99)).toBeCloseTo(88_000 - (441 - 100));
    expect(frameHeard({ ...at, loop, wentRound: false }, 10, 9.99)).toBeCloseTo(44_100 - 441);
  });

  it("goes round with the loop when a report is late", () => {
    const loop = { start: 44_000, end: 45_000 };
    expect(frameHeard({ ...at, frame: 44_900, loop }, 10, 10.01)).toBeCloseTo(44_000 + 341);
  });
});

describe("chunks of the desk's WAV", () => {
  // Canonical WAV: the samples of PCM begin at byte 44 (RIFF 12, fmt 24, data 8).
  it("begin after the header and follow each other byte by byte", () => {
    expect(byteRange(0)).toEqual([44, 44 + CHUNK_FRAMES * 4 - 1]);
    expect(byteRange(3)[0]).toBe(byteRange(2)[1] + 1);
  });
});
