import type { KeyRegion, SongPage } from "../api/types";

/** Sharps of the major key on each letter; flats are negative. */
const SHARPS_OF_MAJOR: Readonly<Record<string, number>> = { F: -1, C: 0, G: 1, D: 2, A: 3, E: 4, B: 5 };

/** How many sharps a mode's signature has more than the major one on the same tonic. */
const SHARPS_OF_MODE: Readonly<Record<string, number>> = {
  lydian: 1, major: 0, mixolydian: -1, dorian: -2, "natural minor": -3, "harmonic minor": -3, "melodic minor": -3, minor: -3, phrygian: -4,
};

const MAJOR_KEYS = ["Cb", "Gb", "Db", "Ab", "Eb", "Bb", "F", "C", "G", "D", "A", "E", "B", "F#", "C#"];

/**
 * The major key that has the signature a key is written in, as the engraver names it; null for keys that no signature
 * of up to seven signs writes. Modes take the signature of their scale, every minor that of natural minor.
 */
export function signatureOf(key: string): string | null {
  const parts = /^([A-G])(#*|b*) (.+)$/.exec(key);
  if (!parts || !(parts[3] in SHARPS_OF_MODE)) return null;
  const raised = parts[2].startsWith("b") ? -parts[2].length : parts[2].length;
  const sharps = SHARPS_OF_MAJOR[parts[1]] + 7 * raised + SHARPS_OF_MODE[parts[3]];
  return MAJOR_KEYS[sharps + 7] ?? null;
}

/** Sharps of a signature, flats counted below zero. */
export const sharpsOf = (signature: string): number => MAJOR_KEYS.indexOf(signature) - 7;

/** The signature at a moment of a song; no signs where no key is heard. */
export function signatureAt(page: Pick<SongPage, "keys">, seconds: number): string {
  const region = page.keys.find((one: KeyRegion) => one.startSeconds <= seconds && seconds < one.endSeconds);
  return (region && signatureOf(region.key)) ?? "C";
}
