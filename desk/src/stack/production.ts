import type { PlacedSound } from "../api/production";
import type { Bar, SongPage } from "../api/types";
import { lastNotAfter } from "../time/grid";

/** What changes in the sound within one bar, in words. */
export interface BarSound {
  entering: string[];
  leaving: string[];
  gestures: string[];
}

/** Layers and places less sure than this are left out of the stack. */
const SHOWN_FROM = 0.5;
/** Two sounds this near each other are drawn as one. */
const SAME_PLACE = 0.12;

/** A layer enters or leaves in the bar that holds most of the change: half a bar before its line counts as at the line. */
function changesIn(bar: Bar, seconds: number): boolean {
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
  return {
    entering: unique(layers.filter((layer) => changesIn(bar, layer.startSeconds)).map((layer) => layer.layer)),
    leaving: unique(layers.filter((layer) => layer.endSeconds < songEnd - 1 && changesIn(bar, layer.endSeconds)).map((layer) => layer.layer)),
    gestures: unique((page.texture?.gestures ?? [])
      .filter((gesture) => gesture.probability >= SHOWN_FROM && changesIn(bar, gesture.startSeconds)).map((gesture) => gesture.kind)),
  };
}

interface Placed {
  events: PlacedSound[];
  longestSeconds: number;
  bars: Map<Bar, number[]>;
}

const placed = new WeakMap<object, Placed>();

/** Where the sounds of a bar stand, from -1, left, to 1, right, each place once; looked up once for each bar. */
export function placesOf(space: SongPage["space"], bar: Bar): number[] {
  if (!space) return [];
  let known = placed.get(space);
  if (!known) placed.set(space, (known = inOrder(space.events)));
  let places = known.bars.get(bar);
  if (!places) known.bars.set(bar, (places = within(known, bar)));
  return places;
}

function inOrder(all: readonly PlacedSound[]): Placed {
  const events = all.filter((event) => event.probability >= SHOWN_FROM).sort((a, b) => a.startSeconds - b.startSeconds);
  const longestSeconds = events.reduce((longest, event) => Math.max(longest, event.endSeconds - event.startSeconds), 0);
  return { events, longestSeconds, bars: new Map() };
}

function within({ events, longestSeconds }: Placed, bar: Bar): number[] {
  const places: number[] = [];
  // Those that end within the bar begin at most so long before it.
  let i = Math.max(0, lastNotAfter(events, bar.startSeconds - longestSeconds, (event) => event.startSeconds));
  for (; i < events.length && events[i].startSeconds < bar.endSeconds; i++) {
    const { endSeconds, placement } = events[i];
    if (endSeconds > bar.startSeconds && !places.some((place) => Math.abs(place - placement) < SAME_PLACE)) places.push(placement);
  }
  return places.sort((a, b) => a - b);
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
