import type { SongPage } from "../api/types";
import { lastNotAfter } from "../time/grid";
import { lineLayout, type LineLayout } from "./lineLayout";
import { LineScale, rangeOf, UPBEAT, type Range } from "./place";
import { barsPerLine, groups, systems, type Line, type Order } from "./rows";

export interface PlacedLine {
  line: Line;
  scale: LineScale;
  x: number;
  y: number;
  height: number;
  layout: LineLayout;
}

export interface PlacedSystem {
  key: string;
  y: number;
  height: number;
  lines: PlacedLine[];
  /** Ranges of the contours: of all copies together, so that a higher copy stands higher. */
  melody: Range;
  bass: Range;
}

export interface Geometry {
  systems: PlacedSystem[];
  height: number;
  /** All lines by the time they begin. */
  byTime: PlacedLine[];
  namesAbove: boolean;
}

/** Pixels at the usual text size. */
const NAME_WIDTH = 104;
const NAME_HEIGHT = 20;
const BETWEEN_SYSTEMS = 22;
const LEAST_BAR = 84;
const WIDEST_BAR = 190;
/** Narrower than this, names stand above their lines. */
const NARROW = 620;

/** Where every line of the stack stands. Pure arithmetic: what is drawn of it depends on where the reader has scrolled. */
export function geometry(page: SongPage, order: Order, width: number, scale: number): Geometry {
  const namesAbove = width < NARROW * scale;
  const nameWidth = namesAbove ? 0 : NAME_WIDTH * scale;
  const room = Math.max(160, width - nameWidth);
  const drawn = groups(page, order);
  // A song of short sections has wide bars rather than half-empty lines.
  const longest = Math.max(...drawn.flatMap((group) => group.rows.map((row) => row.bars.length)));
  const perLine = Math.min(longest, barsPerLine(room - UPBEAT * LEAST_BAR * scale, LEAST_BAR * scale));
  const barWidth = Math.min(WIDEST_BAR * scale, room / (perLine + UPBEAT));
  const above = namesAbove ? NAME_HEIGHT : 0;
  const result: PlacedSystem[] = [];
  let y = 0;
  for (const group of drawn) {
    const spans = group.rows.map((row) => row.section);
    const melody = rangeOf(page.melody, spans);
    const bass = rangeOf(page.bass, spans);
    for (const system of systems(group, perLine)) {
      const top = y;
      const lines = system.lines.map((line) => {
        const lineScale = new LineScale(line, barWidth);
        const layout = lineLayout(page, line, lineScale, scale);
        const full = (layout.height + above) * scale;
        const placed = { line, scale: lineScale, x: nameWidth, y, height: full, layout };
        y += full;
        return placed;
      });
      result.push({ key: `${lines[0].line.row.index}-${lines[0].line.from}`, y: top, height: y - top, lines, melody, bass });
      y += BETWEEN_SYSTEMS * scale;
    }
  }
  const byTime = result.flatMap((system) => system.lines).sort((a, b) => a.scale.startSeconds - b.scale.startSeconds);
  return { systems: result, height: y, byTime, namesAbove };
}

/** The line that a moment falls into, and how far to the right. */
export function placeOf(geometry: Geometry, seconds: number): { line: PlacedLine; x: number } | null {
  if (geometry.byTime.length === 0) return null;
  const index = Math.max(0, lastNotAfter(geometry.byTime, seconds, (line) => line.scale.startSeconds));
  const line = geometry.byTime[index];
  const x = line.x + Math.min(line.scale.width, Math.max(0, line.scale.x(seconds)));
  return { line, x };
}

/** Systems that can be seen between two heights. */
export function seen(geometry: Geometry, top: number, bottom: number): PlacedSystem[] {
  return geometry.systems.filter((system) => system.y + system.height >= top && system.y <= bottom);
}
