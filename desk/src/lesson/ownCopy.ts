import { audio, silence, sounding } from "./tones";
import { levelsOf, matchLevels, SAME_FROM } from "./match";
import type { Lesson } from "./types";

let copy: AudioBuffer | null = null;
let offsetSeconds = 0;

export function hasOwnCopy(): boolean {
  return copy !== null;
}

/** Reads the student's file here in the page; nothing leaves it. Answers what to say about it. */
export async function attach(file: File, lesson: Lesson): Promise<string> {
  let decoded: AudioBuffer;
  try {
    decoded = await audio().decodeAudioData(await file.arrayBuffer());
  } catch {
    return `${file.name} is no sound that this browser can read.`;
  }
  const teacher = Uint8Array.from(atob(lesson.levels), (c) => c.charCodeAt(0));
  if (teacher.length === 0) {
    return "This page holds nothing to know the recording by, so no copy can be attached.";
  }
  const match = matchLevels(teacher, levelsOf(await weighted(decoded), decoded.sampleRate));
  if (match.likeness < SAME_FROM) {
    copy = null;
    return `${file.name} does not run like the teacher's recording (likeness ${match.likeness.toFixed(2)}; ${SAME_FROM} is needed). `
      + "Maybe it is another take, mix or speed.";
  }
  copy = decoded;
  offsetSeconds = match.offsetSeconds;
  return `Your copy is used (likeness ${match.likeness.toFixed(2)}`
    + (Math.abs(offsetSeconds) >= 0.1 ? `, it begins ${Math.abs(offsetSeconds).toFixed(1)} s ${offsetSeconds > 0 ? "later" : "earlier"}` : "")
    + "). It stays in this page.";
}

/** Plays a stretch given in the teacher's seconds. */
export function playOwnCopy(startSeconds: number, endSeconds: number, over: () => void): void {
  if (!copy) return;
  const ctx = audio();
  const source = ctx.createBufferSource();
  const level = ctx.createGain();
  level.gain.value = 0.7;
  source.buffer = copy;
  source.connect(level).connect(ctx.destination);
  source.start(0, Math.max(0, startSeconds + offsetSeconds), endSeconds - startSeconds);
  source.onended = () => silence();
  sounding(() => {
    source.onended = null;
    try { source.stop(); } catch { /* had not begun */ }
    over();
  });
}

/** One channel, weighted as loudness meters do (ITU-R BS.1770: a shelf above 1.5 kHz, nothing below 38 Hz). */
async function weighted(buffer: AudioBuffer): Promise<Float32Array> {
  const offline = new OfflineAudioContext(1, buffer.length, buffer.sampleRate);
  const source = offline.createBufferSource();
  source.buffer = buffer;
  const shelf = new BiquadFilterNode(offline, { type: "highshelf", frequency: 1500, gain: 4 });
  const low = new BiquadFilterNode(offline, { type: "highpass", frequency: 38, Q: 0.5 });
  source.connect(shelf).connect(low).connect(offline.destination);
  source.start();
  return (await offline.startRendering()).getChannelData(0);
}
