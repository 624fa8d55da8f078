import type { Change, Stretch } from "../api/types";
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
              {offer.words} in copy {offer.section.occurrence}: {shift(offer.change) || "nothing would change"}{" "}
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
  const more = Math.max(change.after.length, change.before.length) - 1;
  return `${change.facet} ${shift(change)}${more > 0 ? ` and ${plural(more, "more place")}` : ""}`;
}

/** The first place whose words are others now; where only its length changed, its time alone. */
function shift(change: Change): string {
  const { before, after } = change;
  const told = after.find((now) => before.find((was) => overlap(was, now))?.words !== now.words);
  const was = told && before.find((old) => overlap(old, told));
  if (told) return `at ${clock(told.startSeconds)} (${was?.words ?? "nothing"} → ${told.words})`;
  if (after.length === 0 && before.length > 0) return `at ${clock(before[0].startSeconds)} (${before[0].words} → nothing)`;
  return after.length > 0 ? `at ${clock(after[0].startSeconds)}` : "";
}

const overlap = (one: Stretch, other: Stretch) => Math.min(one.endSeconds, other.endSeconds) - Math.max(one.startSeconds, other.startSeconds) > 0.02;
