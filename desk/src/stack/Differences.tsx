import { useEffect, useRef } from "preact/hooks";
import { hearSpan } from "../song/deeds";
import type { SongState } from "../song/state";
import { listed } from "./changes";

/** All that one copy does otherwise than the earlier one it is held against, bar by bar and in full; each bar to go to and to hear. */
export function Differences({ state }: { state: SongState }) {
  const dialog = useRef<HTMLDialogElement>(null);
  const repeat = state.compared.value;
  useEffect(() => {
    if (repeat) dialog.current?.showModal();
    else dialog.current?.close();
  }, [repeat]);
  const { sections, bars } = state.page.value;
  const named = (occurrence: number) => sections.find((section) => section.letter === repeat?.letter && section.occurrence === occurrence)?.name ?? "";
  const go = (number: number) => {
    const index = bars.findIndex((bar) => bar.number === number);
    if (index >= 0) state.cursor.value = index;
    state.compared.value = null;
  };
  const hear = (number: number) => {
    const bar = bars.find((one) => one.number === number);
    if (bar) hearSpan(state, bar);
  };
  return (
    <dialog ref={dialog} class="differences" aria-labelledby="differences-title" onClose={() => (state.compared.value = null)}>
      {repeat && (
        <>
          <h2 id="differences-title">{named(repeat.occurrence)}, held against {named(repeat.against)}</h2>
          <table>
            <thead><tr><th scope="col">Bar</th><th scope="col">What is otherwise</th><th scope="col"><span class="unseen">To hear</span></th></tr></thead>
            <tbody>
              {listed(repeat).map(({ bar, words }) => (
                <tr key={bar}>
                  <th scope="row"><button type="button" class="plain" aria-label={`Go to bar ${bar}`} onClick={() => go(bar)}>{bar}</button></th>
                  <td>{words.map((one) => <div key={one}>{one}</div>)}</td>
                  <td><button type="button" class="plain" aria-label={`Hear bar ${bar}`} onClick={() => hear(bar)}>Hear</button></td>
                </tr>
              ))}
            </tbody>
          </table>
        </>
      )}
      <form method="dialog"><button>Close</button></form>
    </dialog>
  );
}
