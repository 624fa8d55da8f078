/** 3:58, or 3:58.4 where tenths are asked for. */
export function clock(seconds: number, tenths = false): string {
  const whole = Math.max(0, tenths ? Math.floor(seconds * 10 + 1e-6) / 10 : Math.floor(seconds + 1e-6));
  const minutes = Math.floor(whole / 60);
  const rest = whole - 60 * minutes;
  return `${minutes}:${tenths ? rest.toFixed(1).padStart(4, "0") : String(rest).padStart(2, "0")}`;
}

/** How sure the program is, in a word. */
export function sureness(probability: number): "sure" | "likely" | "open" {
  return probability >= 0.85 ? "sure" : probability >= 0.5 ? "likely" : "open";
}

export const percent = (probability: number) => `${Math.round(100 * probability)} %`;

export const plural = (count: number, one: string, many = `${one}s`) => `${count} ${count === 1 ? one : many}`;
