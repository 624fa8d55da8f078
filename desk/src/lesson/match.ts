/** Levels a second. */
export const LEVELS_PER_SECOND = 10;

/** Two copies of one recording may begin this far apart. */
const WIDEST_SHIFT = 20 * LEVELS_PER_SECOND;

/** From here on two level curves are called the same recording; different ones stay far below. */
export const SAME_FROM = 0.8;

export interface Match {
  /** Seconds to add to the teacher's times to find the place in the student's copy. */
  offsetSeconds: number;
  /** Correlation of the changes of level, 1 for the same curve. */
  likeness: number;
}

/** Where one level curve lies within another; levels in steps of any unit. */
export function matchLevels(teacher: ArrayLike<number>, student: ArrayLike<number>): Match {
  const a = changes(teacher);
  const b = changes(student);
  let best: Match = { offsetSeconds: 0, likeness: -1 };
  for (let shift = -WIDEST_SHIFT; shift <= WIDEST_SHIFT; shift++) {
    const likeness = correlation(a, b, shift);
    if (likeness > best.likeness) best = { offsetSeconds: shift / LEVELS_PER_SECOND, likeness };
  }
  return best;
}

/**
 * A steeper rise or fall counts as this one (2 dB in a tenth of a second): the first sound after silence would else
 * outweigh all the music, and any two recordings be alike.
 */
const STEEPEST = 6;

/** Rises and falls: a copy that is louder throughout has the same. */
function changes(levels: ArrayLike<number>): Float64Array {
  const result = new Float64Array(Math.max(0, levels.length - 1));
  for (let i = 0; i < result.length; i++) {
    result[i] = Math.max(-STEEPEST, Math.min(STEEPEST, levels[i + 1] - levels[i]));
  }
  return result;
}

function correlation(a: Float64Array, b: Float64Array, shift: number): number {
  const from = Math.max(0, -shift);
  const to = Math.min(a.length, b.length - shift);
  // Half of the teacher's recording must be there, or chance decides.
  if (to - from < Math.max(50, a.length / 2)) return -1;
  let ab = 0;
  let aa = 0;
  let bb = 0;
  for (let i = from; i < to; i++) {
    ab += a[i] * b[i + shift];
    aa += a[i] * a[i];
    bb += b[i + shift] * b[i + shift];
  }
  return aa > 0 && bb > 0 ? ab / Math.sqrt(aa * bb) : -1;
}

/** Mean power over 400 ms every tenth of a second, in thirds of a decibel above -80. */
export function levelsOf(samples: Float32Array, rate: number): number[] {
  const hop = Math.round(rate / LEVELS_PER_SECOND);
  const tenths: number[] = [];
  for (let at = 0; at + hop <= samples.length; at += hop) {
    let sum = 0;
    for (let i = at; i < at + hop; i++) sum += samples[i] * samples[i];
    tenths.push(sum / hop);
  }
  return tenths.map((_, i) => {
    const window = tenths.slice(Math.max(0, i - 3), i + 1);
    const power = window.reduce((total, one) => total + one, 0) / 4;
    return Math.max(0, Math.round(3 * (10 * Math.log10(power + 1e-12) + 80)));
  });
}
