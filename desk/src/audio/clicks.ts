const SECONDS = 0.03;

/** Short tones on beats, higher on the first of a bar; they are added to what sounds, at the very frame. */
export class Clicks {
  private readonly ringing: { age: number; hertz: number; gain: number }[] = [];

  constructor(private readonly frameRate: number) {}

  /** Lets a click begin `offset` frames into the block that is rendered next. */
  strike(offset: number, first: boolean, gain: number): void {
    this.ringing.push({ age: -offset, hertz: first ? 1600 : 1100, gain });
  }

  render(left: Float32Array, right: Float32Array): void {
    const last = SECONDS * this.frameRate;
    for (const click of this.ringing) {
      for (let i = 0; i < left.length; i++, click.age++) {
        if (click.age < 0 || click.age > last) continue;
        const seconds = click.age / this.frameRate;
        const rise = Math.min(1, click.age / 20);
        const value = click.gain * rise * Math.exp(-seconds * 130) * Math.sin(2 * Math.PI * click.hertz * seconds);
        left[i] += value;
        right[i] += value;
      }
    }
    for (let i = this.ringing.length - 1; i >= 0; i--) if (this.ringing[i].age > last) this.ringing.splice(i, 1);
  }
}

/** Index of the first beat at or after a place, in beats that rise. */
export function firstBeatAt(beats: ArrayLike<number>, place: number): number {
  let low = 0;
  let high = beats.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (beats[middle] < place) low = middle + 1;
    else high = middle;
  }
  return low;
}
