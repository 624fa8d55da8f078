import type { SongState } from "../song/state";

export function ChordForm({ state }: { state: SongState }) {
  const { startSeconds, endSeconds } = state.span;
  const say = (event: Event) => {
    event.preventDefault();
    const chord = String(new FormData(event.currentTarget as HTMLFormElement).get("chord"));
    void state.say({ kind: "ChordOver", span: [startSeconds, endSeconds], chord });
  };
  return <form onSubmit={say}><label>Chord <input name="chord" required /></label> <button type="submit">Say so</button></form>;
}
