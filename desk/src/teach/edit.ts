import type { Lesson, LessonItem } from "../api/teaching";

/** Lessons are values: every change gives a new one. */
export function changed(lesson: Lesson, place: number, change: Partial<LessonItem>): Lesson {
  return { ...lesson, items: lesson.items.map((item, i) => (i === place ? { ...item, ...change } : item)) };
}

export function without(lesson: Lesson, place: number): Lesson {
  return { ...lesson, items: lesson.items.filter((_, i) => i !== place) };
}

/** The item comes last. */
export function withItem(lesson: Lesson, item: LessonItem): Lesson {
  return { ...lesson, items: [...lesson.items, item] };
}

/** What of the offers does not stand in the lesson yet: the same technique at the same place, or the same words of a remark there. */
export function notYet(lesson: Lesson, offers: readonly LessonItem[]): LessonItem[] {
  const same = (one: LessonItem, other: LessonItem) => one.start === other.start && one.technique === other.technique
    && (one.technique !== undefined || one.words === other.words);
  return offers.filter((offer) => !lesson.items.some((item) => same(item, offer)));
}

/** The item moves by so many places; at either end it stays. */
export function moved(lesson: Lesson, place: number, by: number): Lesson {
  const to = place + by;
  if (to < 0 || to >= lesson.items.length) return lesson;
  const items = [...lesson.items];
  const [item] = items.splice(place, 1);
  items.splice(to, 0, item);
  return { ...lesson, items };
}

/** Example bars as typed, "9-16" or "9"; null where it is neither. */
export function barsOf(text: string): [number, number] | null {
  const parts = /^\s*(\d+)(?:\s*-\s*(\d+))?\s*$/.exec(text);
  if (!parts) return null;
  const from = Number(parts[1]);
  const to = Number(parts[2] ?? parts[1]);
  return to >= from && to - from < 16 ? [from, to] : null;
}

export const barsWords = ([from, to]: readonly [number, number]) => (from === to ? String(from) : `${from}-${to}`);
