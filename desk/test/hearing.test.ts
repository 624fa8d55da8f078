import { describe, expect, it } from "vitest";
import { dividedOn, lastWords } from "../src/hearing/EarFirst";
import type { Hearing } from "../src/api/types";

const decided = (...said: [string, Hearing["decision"]][]): Hearing => ({
  id: 1, author: "Ada", saidAt: "", heard: { kind: "ChordOver" } as Hearing["heard"], label: "Gm",
  decision: said.at(-1)?.[1] ?? "open", decisions: said.map(([author, decision]) => ({ author, saidAt: "", decision })),
});

describe("decisions about what somebody heard", () => {
  it("are divided where two people's last words differ", () => {
    expect(dividedOn(decided(["Ada", "mine"], ["Ben", "program"]))).toBe(true);
    expect(dividedOn(decided(["Ada", "program"], ["Ada", "mine"]))).toBe(false);
    expect(dividedOn(decided(["Ada", "mine"], ["Ben", "program"], ["Ben", "mine"]))).toBe(false);
    expect(dividedOn(decided(["Ada", "mine"], ["Ben", "open"]))).toBe(false);
    expect(dividedOn(decided())).toBe(false);
  });

  it("are told by who spoke last, last", () => {
    expect(lastWords(decided(["Ada", "mine"], ["Ben", "program"], ["Ada", "both"])))
      .toEqual([{ author: "Ben", decision: "program" }, { author: "Ada", decision: "both" }]);
  });
});
