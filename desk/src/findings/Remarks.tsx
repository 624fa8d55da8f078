import { useEffect, useRef, useState } from "preact/hooks";
import type { Remark } from "../api/types";
import { byWhom } from "../settings/speaker";
import { hearIt } from "../song/deeds";
import type { SongState } from "../song/state";
import { clock } from "../time/words";

/** The listener's own words, each at its moment. */
export function Remarks({ state }: { state: SongState }) {
  const remarks = state.page.value.remarks ?? [];
  return (
    <section>
      <h2>Remarks</h2>
      {remarks.length > 0 && (
        <ul class="remarks">{[...remarks].sort((a, b) => a.startSeconds - b.startSeconds).map((remark) => <Item key={remark.id} state={state} remark={remark} />)}</ul>
      )}
      {state.task.value === "remark" ? <RemarkForm state={state} />
        : <button type="button" onClick={() => state.begin("remark")}>Remark at the playhead</button>}
    </section>
  );
}

function Item({ state, remark }: { state: SongState; remark: Remark }) {
  const [rewording, setRewording] = useState(false);
  const reword = async (event: Event) => {
    event.preventDefault();
    const text = String(new FormData(event.currentTarget as HTMLFormElement).get("text"));
    if (await state.reword(remark.id, { startSeconds: remark.startSeconds, endSeconds: remark.endSeconds, text })) setRewording(false);
  };
  return (
    <li>
      <button type="button" class="plain time" aria-label={`Hear ${clock(remark.startSeconds)}`} onClick={() => hearIt(state, remark.startSeconds)}>{clock(remark.startSeconds)}</button>{" "}
      {rewording ? (
        <form class="remark-form" onSubmit={(event) => void reword(event)}>
          <label>In other words <input name="text" required maxLength={4000} defaultValue={remark.text} /></label> <button type="submit">Keep</button>{" "}
          <button type="button" class="plain" onClick={() => setRewording(false)}>Cancel</button>
        </form>
      ) : (
        <>
          {remark.text}<span class="soft">{byWhom(remark.author)}</span>{" "}
          <button type="button" class="plain" aria-label={`Reword the remark ${remark.text}`} onClick={() => setRewording(true)}>reword</button>{" "}
          <button type="button" class="plain" aria-label={`Remove the remark ${remark.text}`} onClick={() => void state.dropRemark(remark.id)}>remove</button>
        </>
      )}
      {(remark.earlier ?? []).length > 0 && (
        <ul class="earlier" aria-label="Earlier wordings">
          {[...remark.earlier!].reverse().map((one) => <li key={one.saidAt} class="soft">before: {one.text}{byWhom(one.author)}</li>)}
        </ul>
      )}
    </li>
  );
}

export function RemarkForm({ state }: { state: SongState }) {
  const field = useRef<HTMLInputElement>(null);
  const at = useRef(state.selection.value?.startSeconds ?? state.player.nowSeconds());
  useEffect(() => field.current?.focus(), []);
  const keep = async (event: Event) => {
    event.preventDefault();
    if (await state.remark({ startSeconds: at.current, endSeconds: state.selection.value?.endSeconds, text: field.current!.value })) state.task.value = null;
  };
  return (
    <form class="remark-form" onSubmit={(event) => void keep(event)}>
      <label>At {clock(at.current, true)} <input ref={field} required maxLength={4000} /></label>{" "}
      <button type="submit">Keep</button>{" "}
      <button type="button" class="plain" onClick={() => (state.task.value = null)}>Cancel</button>
    </form>
  );
}
