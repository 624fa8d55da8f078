import type { SongState } from "../song/state";
import { clock } from "../time/words";
import { ChordForm } from "./ChordForm";

/** One bar or phrase opened: what was heard there, what else it could be, and the place to put it right. */
export function CloseListening({ state }: { state: SongState }) {
  const { startSeconds, endSeconds } = state.span;
  return (
    <section class="close-up" aria-label="Close listening">
      <header>
        <h2>Close listening, {clock(startSeconds, true)} to {clock(endSeconds, true)}</h2>
        <button type="button" class="plain" onClick={() => (state.closeUp.value = false)}>Close</button>
      </header>
      <ChordForm state={state} />
    </section>
  );
}
