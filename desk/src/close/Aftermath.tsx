import type { Change } from "../api/types";
import type { SongState } from "../song/state";
import { clock, plural } from "../time/words";

/** What followed from the last word, and where else it could hold. */
export function Aftermath({ state }: { state: SongState }) {
  const after = state.aftermath.value;
  if (!after) return null;
  const { changes, unplaced } = after.answer;
  return (
    <section class="aftermath" aria-label="What followed" aria-live="polite">
      <p>
        {changes.length === 0 ? "Nothing else changed." : `Changed: ${changes.map(changeWords).join("; ")}.`}
        {unplaced.length > 0 && ` ${plural(unplaced.length, "earlier word")} no longer ${unplaced.length === 1 ? "fits" : "fit"} anywhere.`}
      </p>
      {after.offers.length > 0 && (
        <ul class="offers">
          {after.offers.map((offer, i) => (
            <li key={i}>
              {offer.words} in copy {offer.section.occurrence}: {shift(offer.change)}{" "}
              {after.taken.has(i) ? <em>said</em> : <button type="button" onClick={() => void state.takeOffer(i)}>Say it here too</button>}
            </li>
          ))}
        </ul>
      )}
      <button type="button" onClick={() => void state.undo()} disabled={!state.page.value.canUndo}>Undo</button>{" "}
      <button type="button" class="plain" onClick={() => (state.aftermath.value = null)}>Close</button>
    </section>
  );
}

function changeWords(change: Change): string {
  const first = change.after[0] ?? change.before[0];
  const more = Math.max(change.after.length, change.before.length) - 1;
  if (!first) return change.facet;
  return `${change.facet} at ${clock(first.startSeconds)} (${shift(change)})${more > 0 ? ` and ${plural(more, "more place")}` : ""}`;
}

function shift(change: Change): string {
  return `${change.before[0]?.words ?? "nothing"} → ${change.after[0]?.words ?? "nothing"}`;
}
