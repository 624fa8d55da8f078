const TAPS = 24;
const STEPS = 256;

/** Windowed sinc, sampled at `STEPS` places between two frames. `cut` is the share of the band that is let through. */
function kernel(cut: number): Float32Array {
  const table = new Float32Array(TAPS * (STEPS + 1));
  for (let step = 0; step <= STEPS; step++) {
    let sum = 0;
    for (let tap = 0; tap < TAPS; tap++) {
      const x = tap - TAPS / 2 + 1 - step / STEPS;
      const sinc = x === 0 ? cut : Math.sin(Math.PI * cut * x) / (Math.PI * x);
      const value = sinc * (0.5 + 0.5 * Math.cos((2 * Math.PI * x) / TAPS));
      table[step * TAPS + tap] = value;
      sum += value;
    }
    for (let tap = 0; tap < TAPS; tap++) table[step * TAPS + tap] /= sum;
  }
  return table;
}

/** Reads sound faster or slower, which moves its pitch; asks for as many frames as the next block takes. */
export class Resampler {
  private factor = 1;
  private table = kernel(1);
  private kept: Float32Array[] = [new Float32Array(TAPS), new Float32Array(TAPS)];
  private place = TAPS / 2 - 1;

  /** @param factor frames read for each frame given; 2 is an octave up */
  set(factor: number): void {
    if (factor === this.factor) return;
    this.factor = factor;
    this.table = kernel(Math.min(1, 1 / factor));
  }

  /** Frames that must be put before `count` can be taken. */
  need(count: number): number {
    return Math.max(0, Math.floor(this.place + (count - 1) * this.factor) + TAPS / 2 + 1 - this.kept[0].length);
  }

  /** Takes new sound and fills `out` from it. */
  run(sound: Float32Array[], out: Float32Array[]): void {
    this.kept = this.kept.map((channel, c) => {
      const joined = new Float32Array(channel.length + sound[c].length);
      joined.set(channel);
      joined.set(sound[c], channel.length);
      return joined;
    });
    const frames = out[0].length;
    out.forEach((channel, c) => {
      const kept = this.kept[c];
      for (let i = 0; i < frames; i++) {
        const place = this.place + i * this.factor;
        const whole = Math.floor(place);
        const row = Math.round((place - whole) * STEPS) * TAPS;
        let value = 0;
        for (let tap = 0; tap < TAPS; tap++) value += this.table[row + tap] * kept[whole - TAPS / 2 + 1 + tap];
        channel[i] = value;
      }
    });
    this.place += frames * this.factor;
    const spent = Math.max(0, Math.floor(this.place) - TAPS / 2 + 1);
    this.kept = this.kept.map((channel) => channel.slice(spent));
    this.place -= spent;
  }
}
