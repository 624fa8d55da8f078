import { useEffect } from "preact/hooks";
import type { Settings } from "../api/types";
import { INSTRUMENTS } from "./instruments";
import { SpeakerForm } from "./SpeakerForm";
import { speaker } from "./speaker";
import { pageSettings, set, setPage, settings } from "./settings";

type Trade = Exclude<keyof Settings, "page">;

interface Choice {
  name: Trade;
  title: string;
  options: [value: string, words: string][];
}

const CHOICES: Choice[] = [
  { name: "minorSyllables", title: "Minor begins on", options: [["la", "la"], ["do", "do"]] },
  {
    name: "modeSyllables", title: "Other modes",
    options: [["own", "begin on their own syllable (dorian on re)"], ["altered", "begin as major or minor do, with one note altered"]],
  },
  {
    name: "minorNumerals", title: "Numerals in minor count from",
    options: [["major-scale", "the major scale (bVI)"], ["natural-minor", "the natural minor scale (VI)"]],
  },
  { name: "inversions", title: "Inversions", options: [["figures", "figures (V6)"], ["slash", "slashes (V/7)"]] },
  {
    name: "noteNames", title: "Note names",
    options: [["english", "C D E F G A B, Bb"], ["german", "C D E F G A H, B"], ["fixed-do", "do re mi fa sol la si (fixed)"]],
  },
  { name: "instrument", title: "Written for an instrument in", options: INSTRUMENTS },
];

const SIZES: [number, string][] = [[0.9, "small"], [1, "usual"], [1.2, "large"], [1.45, "very large"]];

/** Settings that belong to the trade, and those of the page; all remembered by the desk. */
export function SettingsPage() {
  useEffect(() => {
    document.title = "Settings · Undersong";
  }, []);
  const page = pageSettings.value;
  return (
    <main class="sheet settings">
      <h1>Settings</h1>
      <h2>Who speaks</h2>
      <SpeakerForm key={speaker.value.name} />
      <h2>How music is written</h2>
      {CHOICES.map(({ name, title, options }) => (
        <label key={name}>
          <span>{title}</span>
          <select value={settings.value[name] ?? options[0][0]}
                  onChange={(event) => void set({ [name]: event.currentTarget.value } as Settings)}>
            {options.map(([value, words]) => <option key={value} value={value}>{words}</option>)}
          </select>
        </label>
      ))}
      <h2>The page</h2>
      <label>
        <span>Text</span>
        <select value={page.textSize ?? 1} onChange={(event) => void setPage({ textSize: Number(event.currentTarget.value) })}>
          {SIZES.map(([value, words]) => <option key={value} value={value}>{words}</option>)}
        </select>
      </label>
      <label>
        <span>Letter keys lie under</span>
        <select value={page.hand ?? "left"} onChange={(event) => void setPage({ hand: event.currentTarget.value as "left" | "right" })}>
          <option value="left">the left hand (the right hand points)</option>
          <option value="right">the right hand (the left hand points)</option>
        </select>
      </label>
      <label class="check">
        <input type="checkbox" checked={page.earFirst ?? false}
               onChange={(event) => void setPage({ earFirst: event.currentTarget.checked })} />
        <span>Ear first: songs open with the reading hidden, until you ask for it</span>
      </label>
    </main>
  );
}
