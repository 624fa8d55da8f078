import { useEffect } from "preact/hooks";
import type { SongEntry } from "../api/types";
import { songAddress } from "../route";
import { clock } from "../time/words";
import { BringIn } from "./BringIn";
import { Questions } from "./Questions";
import { loadShelf, query, shelfTrouble, songs } from "./state";

/** Every song studied, and the way in for new ones. */
export function ShelfPage() {
  useEffect(() => {
    document.title = "Shelf · Undersong";
    void loadShelf();
  }, []);
  const list = songs.value;
  return (
    <main class="sheet shelf">
      <h1>Shelf</h1>
      <BringIn />
      {shelfTrouble.value && <p class="trouble" role="alert">{shelfTrouble.value}</p>}
      <form class="search" role="search" onSubmit={(event) => event.preventDefault()}>
        <label for="search">Find songs by words of their title, artist, year, key or meter</label>
        <input id="search" type="search" value={query.value}
               onInput={(event) => { query.value = event.currentTarget.value; void loadShelf(); }} />
      </form>
      <Questions />
      {!list && !shelfTrouble.value && <p class="soft" aria-busy="true">Fetching the songs</p>}
      {list && list.length > 0 && <SongTable songs={list} />}
      {list && list.length === 0 && (
        <p>{query.value ? "No song on the shelf has all these words." : "The shelf is empty. Bring in a recording you own."}</p>
      )}
    </main>
  );
}

const WITHOUT_SOUND = { chart: "chart, no sound", memory: "from memory, no sound" };

function SongTable({ songs }: { songs: SongEntry[] }) {
  return (
    <table class="songs">
      <thead>
        <tr>
          <th scope="col">Title</th><th scope="col">Artist</th><th scope="col">Year</th><th scope="col">Key</th>
          <th scope="col">Tempo</th><th scope="col">Meter</th><th scope="col">Length</th>
        </tr>
      </thead>
      <tbody>
        {songs.map((song) => (
          <tr key={song.id}>
            <th scope="row"><a href={songAddress(song.id)}>{song.title}</a></th>
            <td>{song.artist ?? ""}</td>
            <td>{song.year ?? ""}</td>
            <td>{song.key ?? ""}</td>
            <td>{song.tempoBpm ? `${Math.round(song.tempoBpm)} bpm` : ""}</td>
            <td>{song.meter ?? ""}</td>
            <td>{song.origin === "recording" ? clock(song.durationSeconds) : WITHOUT_SOUND[song.origin]}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
