import { describe, expect, it } from "vitest";
import type { Room } from "../src/api/production";
import { roomAt, roomChange, roomDecay, roomLevel } from "../src/stack/room";
import { song } from "./song";

const bands = ["sub", "low", "low middle", "middle", "high middle", "high"].map((name, i) => ({ name, bottomHz: i, topHz: i + 1 }));
const room = (change: Partial<Room>): Room => ({
  startSeconds: 16, endSeconds: 32, wetToDryDb: -11.6, wanderDb: 2, changeDb: 0, meanDecaySeconds: 1.4,
  decaySeconds: [0, 1.5, 1.5, 1.4, 1.3, 0], probability: 0.6, ...change,
});

describe("the room in words", () => {
  it("is found by the middle of a span", () => {
    const page = song([["A", 8], ["B", 8]], { echoes: { echoes: [], reverbs: [room({})] } });
    expect(roomAt(page, page.sections[1])?.startSeconds).toBe(16);
    expect(roomAt(page, page.sections[0])).toBeUndefined();
  });

  it("names a change only where one is told", () => {
    expect(roomChange(room({ changeDb: 6.2 }))).toBe("wetter by 6 dB");
    expect(roomChange(room({ changeDb: -4.4 }))).toBe("drier by 4 dB");
    expect(roomChange(room({}))).toBe("");
    expect(roomChange(undefined)).toBe("");
  });

  it("names bands where they are apart", () => {
    expect(roomDecay(room({}), bands)).toBe("falls in 1.4 s");
    expect(roomDecay(room({ decaySeconds: [0, 2.1, 1.4, 1.4, 0.9, 0] }), bands)).toBe("falls in 1.4 s (low 2.1, high middle 0.9)");
    expect(roomDecay(room({ meanDecaySeconds: 0, decaySeconds: [0, 0, 0, 0, 0, 0] }), bands)).toBe("");
  });

  it("says how wet", () => {
    expect(roomLevel(room({}))).toBe("12 dB under the direct sound");
    expect(roomLevel(room({ wetToDryDb: 2 }))).toBe("2 dB above the direct sound");
    expect(roomLevel(room({ wetToDryDb: -0.3 }))).toBe("as loud as the direct sound");
    expect(roomLevel(room({ wetToDryDb: -31 }))).toBe("dry");
  });
});
