import { computed, signal } from "@preact/signals";

export type Route = { at: "shelf" } | { at: "song"; song: number } | { at: "settings" };

/** The page's places live behind the hash, so that the desk serves one document. */
export function parseRoute(hash: string): Route {
  const song = /^#\/song\/(\d+)$/.exec(hash);
  if (song) return { at: "song", song: Number(song[1]) };
  return hash === "#/settings" ? { at: "settings" } : { at: "shelf" };
}

const hash = signal(location.hash);
addEventListener("hashchange", () => (hash.value = location.hash));

export const route = computed(() => parseRoute(hash.value));
export const songAddress = (song: number) => `#/song/${song}`;
