import { useState } from "preact/hooks";
import { desk } from "../api/calls";
import { drillsAddress, lessonAddress } from "../route";
import { byWhom } from "../settings/speaker";
import { veil } from "./deeds";
import type { SongState } from "./state";

/** Title, artist and year, in the listener's words or those of the file. */
export function Title({ state }: { state: SongState }) {
  const [editing, setEditing] = useState(false);
  const { song } = state.page.value;
  if (editing) return <WordsForm state={state} done={() => setEditing(false)} />;
  return (
    <header class="title">
      <h1>{song.title}</h1>
      <p>
        {(song.artist || song.year) && <span>{song.artist}{song.artist && song.year ? ", " : ""}{song.year}</span>}
        <button type="button" class="plain" onClick={() => setEditing(true)}>Edit title</button>
        {!state.veiled.value && <button type="button" class="plain" onClick={() => veil(state)}>Hide the reading</button>}
        {!state.veiled.value && <><a href={lessonAddress(state.id)}>Make a lesson</a><a href={drillsAddress(state.id)}>Exercises</a></>}
      </p>
    </header>
  );
}

function WordsForm({ state, done }: { state: SongState; done: () => void }) {
  const { song } = state.page.value;
  const [title, setTitle] = useState(song.title);
  const [artist, setArtist] = useState(song.artist ?? "");
  const [year, setYear] = useState(song.year ? String(song.year) : "");
  const save = async (event: Event) => {
    event.preventDefault();
    try {
      await desk.sayWords(state.id, { title: title || null, artist: artist || null, year: year ? Number(year) : null });
      await state.refresh();
      done();
    } catch (trouble) {
      state.trouble.value = (trouble as Error).message;
    }
  };
  return (
    <form class="title-form" onSubmit={(event) => void save(event)}>
      <label>Title <input value={title} onInput={(event) => setTitle(event.currentTarget.value)} /></label>
      <label>Artist <input value={artist} onInput={(event) => setArtist(event.currentTarget.value)} /></label>
      <label>Year <input value={year} inputMode="numeric" pattern="[0-9]{4}" size={5} onInput={(event) => setYear(event.currentTarget.value)} /></label>
      <button type="submit">Keep</button> <button type="button" class="plain" onClick={done}>Leave as it was</button>
      <p class="soft">Empty goes back to what the file says.</p>
      {(state.page.value.earlierWords ?? []).length > 0 && (
        <ul class="earlier" aria-label="Earlier titles">
          {[...state.page.value.earlierWords!].reverse().map((one) => (
            <li key={one.saidAt} class="soft">before: {[one.title, one.artist, one.year].filter(Boolean).join(", ") || "as the file says"}{byWhom(one.author)}</li>
          ))}
        </ul>
      )}
    </form>
  );
}
