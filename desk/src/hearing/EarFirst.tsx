import type { SongState } from "../song/state";
import { Remarks } from "../findings/Remarks";

/** The page while the reading is kept from the listener: their own ears first. */
export function EarFirst({ state }: { state: SongState }) {
  return (
    <section class="ear-first" aria-label="Ear first">
      <p>The reading is hidden. Listen first; <button type="button" onClick={() => (state.veiled.value = false)}>show the reading</button> when you want it.</p>
      <Remarks state={state} />
    </section>
  );
}
