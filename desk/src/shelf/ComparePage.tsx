import { useEffect, useState } from "preact/hooks";
import { desk } from "../api/calls";
import type { Comparison } from "../api/teaching";
import type { SongEntry } from "../api/types";
import { compareAddress, songAddress } from "../route";
import { clock } from "../time/words";
import { HEIGHT, steps, WIDTH } from "./energy";

/** Two songs side by side: what both do, what only one does, the same music, the energy of either. */
export function ComparePage({ first, second }: { first: string; second: string }) {
  const [songs, setSongs] = useState<SongEntry[]>([]);
  const [one, setOne] = useState(first);
  const [other, setOther] = useState(second);
  const [compared, setCompared] = useState<Comparison | null>(null);
  const [trouble, setTrouble] = useState("");
  useEffect(() => {
    document.title = "Compare · Undersong";
    void desk.songs("").then(setSongs, (refused: Error) => setTrouble(refused.message));
    if (first && second) void desk.compare(first, second).then(setCompared, (refused: Error) => setTrouble(refused.message));
  }, [first, second]);
  const choose = (label: string, value: string, set: (value: string) => void) => (
    <label class="pair">{label}{" "}
      <select value={value} onChange={(event) => set(event.currentTarget.value)}>
        <option value="">choose</option>
        {songs.map((song) => <option key={song.id} value={String(song.id)}>{song.title}</option>)}
      </select>
    </label>
  );
  return (
    <main class="sheet compare">
      <h1>Compare</h1>
      <p class="trend-form">
        {choose("First", one, setOne)} {choose("Second", other, setOther)}{" "}
        <button type="button" disabled={!one || !other} onClick={() => { location.hash = compareAddress(one, other); }}>Set side by side</button>
      </p>
      {trouble && <p class="trouble" role="alert">{trouble}</p>}
      {compared && <Sides compared={compared} />}
    </main>
  );
}

function Sides({ compared }: { compared: Comparison }) {
  const names = (list: { name: string }[]) => list.map((one) => one.name).sort().join(", ") || "none";
  const { first, second, progression, figure } = compared;
  return (
    <>
      <table class="songs">
        <tbody>
          <tr><th scope="row">Both</th><td>{names(compared.both)}</td></tr>
          <tr><th scope="row">Only <a href={songAddress(first.id)}>{first.title}</a></th><td>{names(compared.onlyFirst)}</td></tr>
          <tr><th scope="row">Only <a href={songAddress(second.id)}>{second.title}</a></th><td>{names(compared.onlySecond)}</td></tr>
        </tbody>
      </table>
      <p>{progression
        ? `The same ${progression.length} chords in a row, ${beginning(progression.words)}: ${clock(progression.inFirst.startSeconds)} in the first, ${clock(progression.inSecond.startSeconds)} in the second.`
        : "No three chords in a row are the same."}</p>
      {progression && <InFull words={progression.words} what={`All ${progression.length} chords`} />}
      {figure && <p>The same figure of {figure.length} notes in the tune ({beginning(figure.words)} in the first): {clock(figure.inFirst.startSeconds)} and {clock(figure.inSecond.startSeconds)}
        {figure.semitones ? `, ${Math.abs(figure.semitones)} semitones ${figure.semitones > 0 ? "higher" : "lower"}` : ", at the same pitch"}.</p>}
      {figure && <InFull words={figure.words} what={`All ${figure.length} notes`} />}
      <p>As a whole {Math.round(100 * compared.likeness)} % alike in chords and tune.</p>
      <figure>
        <svg viewBox={`0 0 ${WIDTH} ${HEIGHT + 4}`} preserveAspectRatio="none" role="img" aria-label={inWords(compared)}>
          <path class="energy-first" d={steps(compared.firstEnergy, first.durationSeconds)} />
          <path class="energy-second" d={steps(compared.secondEnergy, second.durationSeconds)} />
        </svg>
        <figcaption>Energy by section, each song from its beginning to its end: {first.title} drawn through, {second.title} dashed.</figcaption>
      </figure>
    </>
  );
}

/** More in a row than this is told by its beginning. */
const MOST_IN_A_ROW = 16;

const inARow = (words: string) => words.trim().split(/\s+/);

export function beginning(words: string): string {
  const all = inARow(words);
  return all.length > MOST_IN_A_ROW ? `${all.slice(0, MOST_IN_A_ROW).join(" ")} and so on` : words;
}

/** What was told by its beginning only. */
function InFull({ words, what }: { words: string; what: string }) {
  if (inARow(words).length <= MOST_IN_A_ROW) return null;
  return <details><summary>{what}</summary><p>{words}</p></details>;
}

function inWords(compared: Comparison): string {
  const tell = (title: string, sections: Comparison["firstEnergy"]) =>
    `${title}: ` + sections.map((one) => `${one.letter} at ${clock(one.startSeconds)} ${one.height.toFixed(1)}`).join(", ");
  return `Energy by section. ${tell(compared.first.title, compared.firstEnergy)}. ${tell(compared.second.title, compared.secondEnergy)}.`;
}
