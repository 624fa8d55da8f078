import type { SongPage } from "../api/types";
import { barsOrStretches } from "../time/grid";
import { groups, type Order } from "./rows";

/**
 * The bar above or below a bar in the stack: the same place in the copy before or after; past the first or last
 * copy, in the row that is drawn next.
 */
export function neighbour(page: SongPage, order: Order, index: number, step: 1 | -1): number {
  const bars = barsOrStretches(page);
  const rows = groups(page, order).flatMap((group) => group.rows);
  const at = rows.findIndex((row) => row.bars.includes(bars[index]));
  const next = rows[at + step];
  if (at < 0 || !next) return index;
  const place = rows[at].bars.indexOf(bars[index]);
  return bars.indexOf(next.bars[Math.min(place, next.bars.length - 1)]);
}
