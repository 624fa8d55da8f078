import { audio } from "../lesson/tones";
import { pitchOf } from "./pitch";

const FRAME = 2048;
const HOP_SECONDS = 0.05;

export interface Listening {
  hopSeconds: number;
  /** One a hop: hertz, or null where nobody sang. */
  pitches: (number | null)[];
}

/** Listens to the microphone; what it hears is neither kept nor sent. Refused: throws. */
export async function listen(seconds: number, heard: (hertz: number | null) => void): Promise<Listening> {
  const stream = await navigator.mediaDevices.getUserMedia({ audio: { echoCancellation: false, noiseSuppression: false, autoGainControl: false } });
  const ctx = audio();
  const source = ctx.createMediaStreamSource(stream);
  const analyser = new AnalyserNode(ctx, { fftSize: FRAME });
  source.connect(analyser);
  const frame = new Float32Array(FRAME);
  const pitches: (number | null)[] = [];
  try {
    await new Promise<void>((done) => {
      const timer = setInterval(() => {
        analyser.getFloatTimeDomainData(frame);
        const hertz = pitchOf(frame, ctx.sampleRate);
        pitches.push(hertz);
        heard(hertz);
        if (pitches.length * HOP_SECONDS >= seconds) {
          clearInterval(timer);
          done();
        }
      }, HOP_SECONDS * 1000);
    });
  } finally {
    source.disconnect();
    stream.getTracks().forEach((track) => track.stop());
  }
  return { hopSeconds: HOP_SECONDS, pitches };
}
