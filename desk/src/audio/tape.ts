import type { Loop } from "./sound";
import type { SoundStore } from "./store";

/** Frames over which the end of a loop melts into its beginning: five milliseconds, so that the seam does not click. */
export const SEAM_FRAMES = 220;

/**
 * The place in the recording that sounds at an unrolled place. With a loop, the unrolled line runs on past its end
 * and, once it went round, comes from its end before its start; without one it is the recording itself.
 */
export function rolled(frame: number, loop: Loop | null, wentRound: boolean): number {
  if (!loop) return frame;
  const length = loop.end - loop.start;
  if (frame >= loop.end) return loop.start + ((frame - loop.start) % length);
  if (frame < loop.start && wentRound) return loop.end - 1 - ((loop.start - 1 - frame) % length);
  return frame;
}

/**
 * Adds `count` frames of a source from the unrolled place `frame` on, loops gapless: not a frame is left out or
 * doubled, and the last frames before the end melt into those that lead into the start.
 */
export function addFromTape(store: SoundStore, source: string, frame: number, count: number, loop: Loop | null,
                            wentRound: boolean, gain: number, left: Float32Array, right: Float32Array): void {
  const seam = loop ? Math.min(SEAM_FRAMES, loop.start, (loop.end - loop.start) >> 1) : 0;
  let done = 0;
  while (done < count) {
    const at = rolled(frame + done, loop, wentRound);
    let run = count - done;
    if (loop && at < loop.end) {
      const seamStart = loop.end - seam;
      // A place before the start that has not gone round runs straight into the loop.
      run = Math.min(run, (at < seamStart ? seamStart : loop.end) - at);
      if (at >= seamStart) {
        const from = (at - seamStart) / seam;
        const to = (at + run - seamStart) / seam;
        store.addFaded(source, at, run, gain * (1 - from), gain * (1 - to), left, right, done);
        store.addFaded(source, at - (loop.end - loop.start), run, gain * from, gain * to, left, right, done);
        done += run;
        continue;
      }
    }
    store.add(source, at, run, gain, left, right, done);
    done += run;
  }
}
