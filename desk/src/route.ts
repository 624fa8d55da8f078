import { computed, signal } from "@preact/signals";

export type Route =
  | { at: "shelf" } | { at: "song"; song: number } | { at: "lesson"; song: number } | { at: "compare"; first: string; second: string }
  | { at: "drills"; song: number } | { at: "sketch"; technique: string; song?: number } | { at: "trends" } | { at: "settings" };

/** The page's places live behind the hash, so that the desk serves one document. */
export function parseRoute(hash: string): Route {
  const lesson = /^#\/song\/(\d+)\/lesson$/.exec(hash);
  if (lesson) return { at: "lesson", song: Number(lesson[1]) };
  const drills = /^#\/song\/(\d+)\/drills$/.exec(hash);
  if (drills) return { at: "drills", song: Number(drills[1]) };
  const sketch = /^#\/sketch\/([a-z0-9-]+)(?:\/(\d+))?$/.exec(hash);
  if (sketch) return { at: "sketch", technique: sketch[1], ...(sketch[2] ? { song: Number(sketch[2]) } : {}) };
  const pair = /^#\/compare(?:\/([^/]+)\/([^/]+))?$/.exec(hash);
  if (pair) return { at: "compare", first: decodeURIComponent(pair[1] ?? ""), second: decodeURIComponent(pair[2] ?? "") };
  const song = /^#\/song\/(\d+)$/.exec(hash);
  if (song) return { at: "song", song: Number(song[1]) };
  if (hash === "#/trends") return { at: "trends" };
  return hash === "#/settings" ? { at: "settings" } : { at: "shelf" };
}

const hash = signal(location.hash);
addEventListener("hashchange", () => (hash.value = location.hash));

export const route = computed(() => parseRoute(hash.value));
export const songAddress = (song: number) => `#/song/${song}`;
export const lessonAddress = (song: number) => `#/song/${song}/lesson`;
export const drillsAddress = (song: number) => `#/song/${song}/drills`;
export const sketchAddress = (technique: string, song?: number) => `#/sketch/${technique}${song === undefined ? "" : `/${song}`}`;
export const compareAddress = (first: string, second: string) => `#/compare/${encodeURIComponent(first)}/${encodeURIComponent(second)}`;
