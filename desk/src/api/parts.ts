import type { Correction, SongPage } from "./types";

/** The parts of a song's page by which its rows are drawn and corrected: what is asked for first. */
export const FIRST: readonly (keyof SongPage)[] = [
  "song", "settings", "facts", "beats", "bars", "sections", "keys", "chords", "bass", "melody", "repeats", "texture", "echoes", "remarks",
  "hearings", "verdicts", "earlierWords", "steps", "canUndo", "canRedo", "unplaced",
];

/** All that the page shows: findings take their time, and what is opened in close listening is long. */
export const ALL: readonly (keyof SongPage)[] = [...FIRST, "findings", "voices", "lines", "bands", "space"];

/** What is drawn from beside the rows where these words are said; it is shown with them. */
export function partsOf(corrections: readonly Correction[]): (keyof SongPage)[] {
  const about = (field: keyof Correction) => corrections.some((one) => one[field] !== undefined);
  return [...(about("voice") ? ["voices" as const] : []), ...(about("line") ? ["lines" as const] : []), ...(about("source") ? ["space" as const] : [])];
}

/** What the stack is laid out from. */
const MUSIC: readonly (keyof SongPage)[] = ["settings", "beats", "bars", "sections", "chords", "bass", "melody", "repeats", "texture", "echoes"];

/** The header by which the desk knows what it need not send again. */
export function heldWords(held: SongPage | undefined): Record<string, string> {
  const tags = Object.entries(held?.tags ?? {});
  return tags.length > 0 ? { "X-Undersong-Held": tags.map(([part, tag]) => `${part}=${tag}`).join(",") } : {};
}

/** An answer completed by what was held when it was asked for; parts that stay are the same objects. */
export function joined(held: SongPage | undefined, answer: SongPage): SongPage {
  return { ...held, ...answer, tags: { ...held?.tags, ...answer.tags } };
}

/** Whether two pages draw the same stack. */
export const sameMusic = (one: SongPage, other: SongPage) => MUSIC.every((part) => one[part] === other[part]);
