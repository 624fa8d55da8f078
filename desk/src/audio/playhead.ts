import type { Report } from "./messages";
import { FRAME_RATE } from "./sound";

/**
 * The place that is heard at a moment, from the last report. Times are of the audio clock; `heardSeconds` is the time
 * whose sound leaves the loudspeaker now, usually a little before the report.
 */
export function frameHeard(report: Report, atSeconds: number, heardSeconds: number): number {
  if (!report.playing || report.counting || report.starved) return report.frame;
  let frame = report.frame + (heardSeconds - atSeconds) * FRAME_RATE * report.rate;
  const { loop, wentRound } = report;
  if (loop) {
    const length = loop.end - loop.start;
    if (frame >= loop.end && report.frame < loop.end) frame = loop.start + ((frame - loop.start) % length);
    else if (frame < loop.start && wentRound) frame = loop.end - ((loop.start - frame) % length);
  }
  return Math.max(0, frame);
}

/** The audio clock's time of what is heard now: the browser tells what left the loudspeaker, and when. */
export function heardNow(context: AudioContext, nowMilliseconds: number): number {
  const stamp = context.getOutputTimestamp?.();
  if (stamp?.contextTime !== undefined && stamp.performanceTime) {
    return stamp.contextTime + (nowMilliseconds - stamp.performanceTime) / 1000;
  }
  return context.currentTime - (context.outputLatency || context.baseLatency || 0);
}
