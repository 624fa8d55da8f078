import { useEffect, useState } from "preact/hooks";
import { desk } from "../api/calls";
import type { KeptSearch, SearchHit } from "../api/teaching";
import { songAddress } from "../route";
import { byWhom, speaker } from "../settings/speaker";
import { clock } from "../time/words";

/** Asking the whole shelf for music: chords, loops, figures, techniques. */
export function Questions() {
  const [question, setQuestion] = useState("");
  const [hits, setHits] = useState<SearchHit[] | null>(null);
  const [kept, setKept] = useState<KeptSearch[]>([]);
  const [trouble, setTrouble] = useState("");
  const reload = () => void desk.searches().then(setKept, () => setKept([]));
  useEffect(reload, []);
  const ask = async (words: string) => {
    try {
      setHits(await desk.search(words));
      setTrouble("");
    } catch (refused) {
      setHits(null);
      setTrouble((refused as Error).message);
    }
  };
  const keep = async () => {
    try {
      await desk.keepSearch({ name: question, question });
      reload();
    } catch (refused) {
      setTrouble((refused as Error).message);
    }
  };
  return (
    <details class="questions">
      <summary>Ask for music: chords, a figure, a technique</summary>
      <form onSubmit={(event) => { event.preventDefault(); void ask(question); }}>
        <label for="question">For example: <code>chords I iii IV iv</code>, <code>loop vi IV I V</code>, <code>tune do re mi</code>,{" "}
          <code>bass la sol fa</code>, <code>with key-lift in 4/4 at 90-130</code></label>
        <p><input id="question" value={question} size={48} onInput={(event) => setQuestion(event.currentTarget.value)} />{" "}
          <button type="submit">Ask</button>{" "}
          <button type="button" class="plain" disabled={!question} onClick={() => void keep()}>Keep the question</button></p>
      </form>
      {kept.length > 0 && (
        <p>Kept: {kept.map((one) => (
          <span key={`${one.name} ${one.author}`}>
            <button type="button" class="plain" onClick={() => { setQuestion(one.question); void ask(one.question); }}>{one.name}{byWhom(one.author ?? "")}</button>{" "}
            {one.author === speaker.value.name && <button type="button" class="plain" aria-label={`Forget ${one.name}`} onClick={() => void desk.dropSearch(one.name).then(reload)}>×</button>}{" "}
          </span>))}
        </p>
      )}
      {trouble && <p class="trouble" role="alert">{trouble}</p>}
      {hits && <Hits hits={hits} />}
    </details>
  );
}

function Hits({ hits }: { hits: SearchHit[] }) {
  if (!hits.length) return <p role="status">No song on the shelf has all of it.</p>;
  return (
    <ul class="hits" role="status">
      {hits.map((hit) => (
        <li key={hit.id}>
          <a href={songAddress(hit.id)}>{hit.title}</a>{hit.key ? ` · ${hit.key}` : ""}
          {hit.places.length > 0 && (
            <span class="soft"> {hit.places.slice(0, 6).map((place) =>
              `${clock(place.startSeconds)}${place.bars ? `, bars ${place.bars[0]} to ${place.bars[1]}` : ""}`).join("; ")}
              {hit.places.length > 6 ? ` and ${hit.places.length - 6} more` : ""}</span>
          )}
        </li>
      ))}
    </ul>
  );
}
