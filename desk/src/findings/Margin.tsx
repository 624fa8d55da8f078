import type { SongState } from "../song/state";
import { Disagreements } from "../hearing/EarFirst";
import { Beside } from "./Beside";
import { Findings } from "./Findings";
import { Remarks } from "./Remarks";
import { Steps } from "./Steps";

/** What is said about the song: what the program finds worth telling, and the listener's own words. */
export function Margin({ state }: { state: SongState }) {
  return (
    <aside class="margin" aria-label="Findings and remarks" data-revision={state.whole.value} aria-busy={state.whole.value < state.page.value.revision}>
      <Disagreements state={state} />
      <Findings state={state} />
      <Beside state={state} />
      <Remarks state={state} />
      <Steps state={state} />
    </aside>
  );
}
