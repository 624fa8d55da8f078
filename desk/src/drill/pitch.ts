/** A voice sings between these, generously. */
const LOWEST_HERTZ = 60;
const HIGHEST_HERTZ = 1200;

/** Below this share of unexplained power a frame counts as a tone. */
const TONE_BELOW = 0.2;
const LEAST_RMS = 0.005;

/**
 * Pitch of a frame of sound in hertz; null where there is no tone. A. de Cheveigné, H. Kawahara, "YIN, a fundamental frequency
 * estimator for speech and music", JASA 111, 2002, steps 1 to 5. The frame must hold two periods of the lowest pitch.
 */
export function pitchOf(frame: Float32Array, rate: number): number | null {
  const half = frame.length >> 1;
  const longest = Math.min(half - 1, Math.floor(rate / LOWEST_HERTZ));
  const shortest = Math.max(2, Math.floor(rate / HIGHEST_HERTZ));
  let power = 0;
  for (let i = 0; i < half; i++) power += frame[i] * frame[i];
  if (Math.sqrt(power / half) < LEAST_RMS) return null;
  const normal = new Float64Array(longest + 1).fill(1);
  let sum = 0;
  for (let lag = 1; lag <= longest; lag++) {
    let difference = 0;
    for (let i = 0; i < half; i++) {
      const d = frame[i] - frame[i + lag];
      difference += d * d;
    }
    sum += difference;
    normal[lag] = sum > 0 ? (difference * lag) / sum : 1;
  }
  for (let lag = shortest; lag < longest; lag++) {
    if (normal[lag] < TONE_BELOW && normal[lag] <= normal[lag + 1]) {
      const before = normal[lag - 1];
      const after = normal[lag + 1];
      const bend = before - 2 * normal[lag] + after;
      return rate / (lag + (bend > 0 ? (before - after) / (2 * bend) : 0));
    }
  }
  return null;
}

export function midiOf(hertz: number): number {
  return 69 + 12 * Math.log2(hertz / 440);
}

/** Cents from the nearest octave of a pitch class: -600 to 600. */
export function centsFrom(hertz: number, pitchClass: number): number {
  const off = (((midiOf(hertz) - pitchClass) % 12) + 18) % 12 - 6;
  return 100 * off;
}

export interface Sung {
  /** Seconds a tone was held that lies within the tolerance. */
  heldSeconds: number;
  /** Median distance in cents of all that was sung; null where nothing was. */
  cents: number | null;
}

/** What a singer sang, judged against a pitch class in any octave. */
export function judge(pitches: readonly (number | null)[], pitchClass: number, toleranceCents: number, hopSeconds: number): Sung {
  const cents = pitches.filter((hertz): hertz is number => hertz !== null).map((hertz) => centsFrom(hertz, pitchClass));
  const sorted = [...cents].sort((a, b) => a - b);
  return {
    heldSeconds: cents.filter((off) => Math.abs(off) <= toleranceCents).length * hopSeconds,
    cents: sorted.length ? sorted[sorted.length >> 1] : null,
  };
}
