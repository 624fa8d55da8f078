import { byWhom } from "../settings/speaker";
import type { SongState } from "../song/state";

/** All that was said against the reading, newest first; each step can be taken back and brought back. */
export function Steps({ state }: { state: SongState }) {
  const { steps, canUndo, canRedo, unplaced } = state.page.value;
  return (
    <section>
      <h2>Said so far</h2>
      <p>
        <button type="button" disabled={!canUndo} onClick={() => void state.undo()}>Undo</button>{" "}
        <button type="button" disabled={!canRedo} onClick={() => void state.redo()}>Redo</button>
      </p>
      {steps.length === 0 && <p class="soft">Nothing yet. What you put right appears here.</p>}
      <ol class="steps" reversed>
        {[...steps].reverse().map((step) => (
          <li key={step.id} class={step.inForce ? "" : "taken-back"}>
            {step.corrections.map((said) => said.words).join("; ")}<span class="soft">{byWhom(step.author)}</span>{" "}
            <button type="button" class="plain" onClick={() => void (step.inForce ? state.takeBack(step.id) : state.bringBack(step.id))}>
              {step.inForce ? "take back" : "bring back"}
            </button>
          </li>
        ))}
      </ol>
      {unplaced.length > 0 && <p class="trouble">Fits nowhere now: {unplaced.map((said) => said.words).join("; ")}</p>}
    </section>
  );
}
