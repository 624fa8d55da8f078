/** Right and asked by kind, kept in this browser only. */
export type Score = Record<string, { right: number; asked: number }>;

/** The singer's own limits. */
export interface Voice {
  lowest: number;
  highest: number;
  toleranceCents: number;
}

const VOICE = "undersong.voice";
const SCORE = "undersong.score.";
const USUAL: Voice = { lowest: 48, highest: 67, toleranceCents: 50 };

/** A page opened from a file may have no storage; then nothing is kept. */
function stored<T>(name: string, usual: T): T {
  try {
    return { ...usual, ...JSON.parse(localStorage.getItem(name) ?? "{}") };
  } catch {
    return usual;
  }
}

function keep(name: string, value: unknown): void {
  try {
    localStorage.setItem(name, JSON.stringify(value));
  } catch { /* not kept */ }
}

export const voiceOf = (): Voice => stored(VOICE, USUAL);
export const keepVoice = (voice: Voice): void => keep(VOICE, voice);
export const scoreOf = (page: string): Score => stored(SCORE + page, {});

export function count(page: string, kind: string, right: boolean): Score {
  const score = scoreOf(page);
  const before = score[kind] ?? { right: 0, asked: 0 };
  const after = { ...score, [kind]: { right: before.right + (right ? 1 : 0), asked: before.asked + 1 } };
  keep(SCORE + page, after);
  return after;
}

/** A pitch class in the octave a voice can sing; null where its range holds none. */
export function within(voice: Voice, pitchClass: number): number | null {
  const middle = Math.round((voice.lowest + voice.highest) / 2);
  const nearest = middle + ((((pitchClass - middle) % 12) + 18) % 12) - 6;
  return [nearest, nearest - 12, nearest + 12].find((midi) => midi >= voice.lowest && midi <= voice.highest) ?? null;
}
