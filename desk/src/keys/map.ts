/** Everything a key can do on the song page. */
export type Deed =
  | "play" | "back" | "forth" | "up" | "down" | "extend-back" | "extend-forth" | "loop" | "slower" | "faster" | "full-speed"
  | "lower" | "higher" | "click" | "count-in" | "tones" | "switch-span" | "mark-span" | "close-up" | "remark" | "say-chord" | "say-bass"
  | "say-key" | "say-section" | "undo" | "redo" | "veil" | "focus" | "leave" | "help";

/** A key as it is named to people, under each hand; `ctrl` keys and named keys are the same for both. */
export interface Binding {
  deed: Deed;
  words: string;
  left: string;
  right: string;
  group: "Hearing" | "Moving" | "Saying" | "Page";
}

const both = (deed: Deed, group: Binding["group"], key: string, words: string): Binding => ({ deed, words, left: key, right: key, group });
const hands = (deed: Deed, group: Binding["group"], left: string, right: string, words: string): Binding => ({ deed, words, left, right, group });

/** Letters lie under the hand that does not point: the left of the keyboard, or the right of it. */
export const BINDINGS: readonly Binding[] = [
  both("play", "Hearing", "Space", "play or pause"),
  hands("loop", "Hearing", "a", "l", "loop the chosen bars, or stop looping"),
  hands("slower", "Hearing", "q", "u", "slower"),
  hands("faster", "Hearing", "w", "i", "faster"),
  hands("full-speed", "Hearing", "e", "o", "full speed, own pitch"),
  hands("lower", "Hearing", "Shift+q", "Shift+u", "a semitone lower"),
  hands("higher", "Hearing", "Shift+w", "Shift+i", "a semitone higher"),
  hands("click", "Hearing", "s", "k", "click on the beats"),
  hands("count-in", "Hearing", "Shift+s", "Shift+k", "count in before playing"),
  hands("tones", "Hearing", "d", "j", "check by ear: recording, both, plain tones"),
  hands("focus", "Hearing", "f", "h", "next focus: one side of what loops or is chosen"),
  hands("mark-span", "Hearing", "Shift+x", "Shift+m", "mark the chosen bars as first, then as second span"),
  hands("switch-span", "Hearing", "x", "m", "switch between the two marked spans, in place"),
  both("back", "Moving", "ArrowLeft", "a bar back"),
  both("forth", "Moving", "ArrowRight", "a bar on"),
  both("up", "Moving", "ArrowUp", "the same bar in the row above"),
  both("down", "Moving", "ArrowDown", "the same bar in the row below"),
  both("extend-back", "Moving", "Shift+ArrowLeft", "choose a bar back"),
  both("extend-forth", "Moving", "Shift+ArrowRight", "choose a bar on"),
  both("close-up", "Moving", "Enter", "open the bar for close listening"),
  hands("say-chord", "Saying", "c", "n", "say the chord"),
  hands("say-bass", "Saying", "v", "b", "say the bass note"),
  hands("say-key", "Saying", "t", "y", "say the key"),
  hands("say-section", "Saying", "g", ".", "say where a section begins, and its name"),
  hands("remark", "Saying", "r", "p", "remark at the playhead"),
  both("undo", "Saying", "Ctrl+z", "take back the last step"),
  both("redo", "Saying", "Ctrl+Shift+z", "bring it back"),
  hands("veil", "Page", "z", "/", "hide the reading, or show it"),
  both("leave", "Page", "Escape", "close what is open"),
  both("help", "Page", "?", "this list"),
];

/** What may be done while the reading is hidden: nothing that would tell of bars, beats, sections or notes. */
const VEILED: ReadonlySet<Deed> = new Set([
  "play", "loop", "slower", "faster", "full-speed", "lower", "higher", "focus", "remark", "veil", "leave", "help",
]);

export const allowed = (deed: Deed, veiled: boolean) => !veiled || VEILED.has(deed);

/** The name of a pressed key, as bindings write it. */
export function keyName(event: Pick<KeyboardEvent, "key" | "shiftKey" | "ctrlKey" | "metaKey" | "altKey">): string | null {
  if (event.altKey) return null;
  const named = event.key === " " ? "Space" : event.key.length === 1 ? event.key.toLowerCase() : event.key;
  const control = event.ctrlKey || event.metaKey ? "Ctrl+" : "";
  // A sign that needs Shift on this keyboard is its own name; letters and named keys tell Shift apart.
  const shift = event.shiftKey && (/^[a-z]$/.test(named) || event.key.length > 1) ? "Shift+" : "";
  return `${control}${shift}${named}`;
}

export function deedOf(name: string, hand: "left" | "right"): Deed | null {
  return BINDINGS.find((binding) => binding[hand] === name)?.deed ?? null;
}
