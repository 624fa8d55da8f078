import { useEffect, useState } from "preact/hooks";
import { desk } from "../api/calls";
import type { Curve } from "../api/types";
import { loop } from "../song/deeds";
import type { SongState } from "../song/state";
import { clock } from "../time/words";
import { Picture } from "./Picture";
import { Say } from "./Say";
import { StaffView } from "./StaffView";

/** One bar or phrase opened: what was heard there, what else it could be, and the place to put it right. */
export function CloseListening({ state }: { state: SongState }) {
  const { startSeconds, endSeconds } = state.span;
  const [curve, setCurve] = useState<Curve | null>(null);
  const { melody } = state.page.value;
  useEffect(() => {
    let gone = false;
    desk.curve(state.id).then((got) => !gone && setCurve(got), () => {});
    return () => { gone = true; };
  }, [state, melody]);
  return (
    <section class="close-up" aria-label="Close listening">
      <header>
        <h2>Close listening, {clock(startSeconds, true)} to {clock(endSeconds, true)}</h2>
        <span>
          <button type="button" onClick={() => loop(state)}>{state.player.loop.value ? "Stop looping" : "Loop it"}</button>{" "}
          <button type="button" class="plain" onClick={() => { state.closeUp.value = false; state.task.value = null; }}>Close</button>
        </span>
      </header>
      <div class="close-spread">
        <div>
          <Picture state={state} curve={curve} />
          <StaffView state={state} />
        </div>
        <Say state={state} />
      </div>
    </section>
  );
}
