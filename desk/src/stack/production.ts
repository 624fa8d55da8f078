import type { Bar, SongPage } from "../api/types";

/** What changes in the sound within one bar, in words, and where its sounds stand. */
export interface BarSound {
  entering: string[];
  leaving: string[];
  gestures: string[];
  /** -1 left to 1 right, each place once. */
  places: number[];
}

/** Layers and places less sure than this are left out of the stack. */
const SHOWN_FROM = 0.5;
/** Two sounds this near each other are drawn as one. */
const SAME_PLACE = 0.12;

/** A layer enters or leaves in the bar that holds most of the change: half a bar before its line counts as at the line. */
function within(bar: Bar, seconds: number): boolean {
  const half = (bar.endSeconds - bar.startSeconds) / 2;
  return seconds >= bar.startSeconds - half * 0.5 && seconds < bar.endSeconds - half * 0.5;
}

const known = new WeakMap<SongPage, Map<Bar, BarSound>>();

/** What changes in a bar; looked up once for each page. */
export function soundOf(page: SongPage, bar: Bar): BarSound {
  let bars = known.get(page);
  if (!bars) known.set(page, (bars = new Map()));
  let sound = bars.get(bar);
  if (!sound) bars.set(bar, (sound = lookUp(page, bar)));
  return sound;
}

function lookUp(page: SongPage, bar: Bar): BarSound {
  const layers = (page.texture?.layers ?? []).filter((layer) => layer.probability >= SHOWN_FROM);
  const songEnd = page.bars[page.bars.length - 1]?.endSeconds ?? page.song.durationSeconds;
  const places: number[] = [];
  for (const event of page.space?.events ?? []) {
    if (event.probability < SHOWN_FROM || event.endSeconds <= bar.startSeconds || event.startSeconds >= bar.endSeconds) continue;
    if (!places.some((place) => Math.abs(place - event.placement) < SAME_PLACE)) places.push(event.placement);
  }
  return {
    entering: unique(layers.filter((layer) => within(bar, layer.startSeconds)).map((layer) => layer.layer)),
    leaving: unique(layers.filter((layer) => layer.endSeconds < songEnd - 1 && within(bar, layer.endSeconds)).map((layer) => layer.layer)),
    gestures: unique((page.texture?.gestures ?? [])
      .filter((gesture) => gesture.probability >= SHOWN_FROM && within(bar, gesture.startSeconds)).map((gesture) => gesture.kind)),
    places: places.sort((a, b) => a - b),
  };
}

const unique = (words: string[]) => [...new Set(words)];

/** Entries and exits as they stand under a bar. */
export function entryWords({ entering, leaving, gestures }: BarSound): string {
  return [
    entering.length > 0 ? `▸ ${entering.join(", ")}` : "",
    leaving.length > 0 ? `${leaving.join(", ")} ◂` : "",
    gestures.join(", "),
  ].filter(Boolean).join("  ");
}

/** The same for those who listen to the page. */
export function soundWords({ entering, leaving, gestures }: BarSound): string {
  return [
    entering.length > 0 ? `Enters: ${entering.join(", ")}.` : "",
    leaving.length > 0 ? `Leaves: ${leaving.join(", ")}.` : "",
    gestures.length > 0 ? `${gestures.join(", ")}.` : "",
  ].filter(Boolean).join(" ");
}

/** A place from -1, left, to 1, right, as people say it. */
export function placeWords(place: number): string {
  const share = `${Math.round(100 * Math.abs(place))} %`;
  return Math.abs(place) < 0.1 ? "middle" : place < 0 ? `${share} left` : `${share} right`;
}
