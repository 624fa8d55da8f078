import { useState } from "preact/hooks";
import { desk } from "../api/calls";
import type { SongState } from "../song/state";
import { shareWords } from "../trends/draw";
import type { Unusual } from "../trends/types";

/** What sets the song apart from the others on the shelf; asked for when it is opened. */
export function Beside({ state }: { state: SongState }) {
  const [unusual, setUnusual] = useState<Unusual | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  const toggle = (event: Event) => {
    if (!(event.currentTarget as HTMLDetailsElement).open) return;
    desk.unusual(state.id).then(setUnusual, (reason: Error) => setTrouble(reason.message));
  };
  return (
    <details class="beside" onToggle={toggle}>
      <summary><strong>Beside the other songs</strong></summary>
      {trouble && <p class="trouble">{trouble}</p>}
      {unusual && (
        <>
          <p>{unusual.said}</p>
          {unusual.rare.length > 0 && (
            <ul>{unusual.rare.map((rare) => <li key={rare.technique}>{rare.name}: in {shareWords(rare)} of the others</li>)}</ul>
          )}
        </>
      )}
    </details>
  );
}
