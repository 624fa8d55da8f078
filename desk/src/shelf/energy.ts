export const WIDTH = 640;
export const HEIGHT = 70;

/** A curve in steps, one a section, over the song's length. */
export function steps(sections: { startSeconds: number; endSeconds: number; height: number }[], seconds: number): string {
  if (!sections.length) return "";
  const low = Math.min(...sections.map((one) => one.height));
  const high = Math.max(...sections.map((one) => one.height));
  const y = (height: number) => (HEIGHT - (high > low ? (height - low) / (high - low) : 0) * (HEIGHT - 6)).toFixed(1);
  const x = (at: number) => ((at / seconds) * WIDTH).toFixed(1);
  return sections.map((one, i) => `${i ? "L" : "M"}${x(one.startSeconds)} ${y(one.height)} L${x(one.endSeconds)} ${y(one.height)}`).join(" ");
}
