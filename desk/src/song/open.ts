import { signal } from "@preact/signals";
import type { SongState } from "./state";

/** The song that is open, if one is. */
export const open = signal<SongState | null>(null);

/** Follows what another window, or this one, said of a song; null asks anew whatever is open. */
export function songChanged(song: number | null, revision: number): void {
  const state = open.value;
  if (!state || (song !== null && song !== state.id)) return;
  // An answer to this window's own word is on its way already where the revision is the same.
  if (song === null || revision >= state.page.value.revision) void state.refresh();
}
