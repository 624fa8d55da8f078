import { describe, expect, it } from "vitest";
import { steps } from "../src/shelf/energy";
import { barsOf, changed, moved, notYet, without, withItem } from "../src/teach/edit";
import type { Lesson } from "../src/api/teaching";

const item = (heading: string) => ({ start: 0, end: 1, heading, words: "", excerpt: false, asTold: "" });
const lesson: Lesson = { title: "t", revision: 1, items: [item("a"), item("b"), item("c")] };
const order = (one: Lesson) => one.items.map((each) => each.heading).join("");

describe("a lesson", () => {
  it("is reordered, cut and reworded without touching the one before", () => {
    expect(order(moved(lesson, 0, 1))).toBe("bac");
    expect(order(moved(lesson, 2, -1))).toBe("acb");
    expect(moved(lesson, 0, -1)).toBe(lesson);
    expect(order(without(lesson, 1))).toBe("ac");
    expect(changed(lesson, 1, { words: "mine" }).items[1].words).toBe("mine");
    expect(order(lesson)).toBe("abc");
  });

  it("takes in what is offered once, remarks as well as findings", () => {
    const lift = { ...item("Key lift"), technique: "key-lift", start: 3, end: 9 };
    const remark = { ...item("Mine"), start: 3, end: 5, words: "Mine" };
    const other = { ...item("Also mine"), start: 3, end: 5, words: "Also mine" };
    const more = withItem(withItem(lesson, lift), remark);
    expect(order(more)).toBe("abcKey liftMine");
    expect(notYet(lesson, [lift, remark, other])).toEqual([lift, remark, other]);
    expect(notYet(more, [{ ...lift, end: 10 }, remark, other])).toEqual([other]);
  });

  it("quotes at most sixteen bars, in order", () => {
    expect(barsOf("9-16")).toEqual([9, 16]);
    expect(barsOf(" 5 ")).toEqual([5, 5]);
    expect(barsOf("1-16")).toEqual([1, 16]);
    for (const wrong of ["16-9", "1-17", "x", "", "1-"]) expect(barsOf(wrong)).toBeNull();
  });
});

describe("a curve of energy", () => {
  it("runs over the whole width, the highest section on top", () => {
    const path = steps([{ startSeconds: 0, endSeconds: 50, height: 1 }, { startSeconds: 50, endSeconds: 100, height: 3 }], 100);
    expect(path).toBe("M0.0 70.0 L320.0 70.0 L320.0 6.0 L640.0 6.0");
    expect(steps([], 10)).toBe("");
  });
});
