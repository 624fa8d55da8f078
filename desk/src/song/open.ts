import { signal } from "@preact/signals";
import type { Opening } from "../api/events";
import type { SongState } from "./state";

/** The song that is open, if one is. */
export const open = signal<SongState | null>(null);

/** What was told last of a song that takes its time to open. */
export const opening = signal<Opening | null>(null);

/** Follows what another window, or this one, said of a song; null asks anew whatever is open. */
export function songChanged(song: number | null, revision: number): void {
  const state = open.value;
  if (!state || (song !== null && song !== state.id)) return;
  if (song === null) void state.refresh();
  else state.news(revision);
}
