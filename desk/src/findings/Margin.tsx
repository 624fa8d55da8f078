import type { SongState } from "../song/state";
import { Remarks } from "./Remarks";
import { Steps } from "./Steps";

/** What is said about the song: the listener's remarks and words. */
export function Margin({ state }: { state: SongState }) {
  return (
    <aside class="margin" aria-label="Findings and remarks">
      <Remarks state={state} />
      <Steps state={state} />
    </aside>
  );
}
