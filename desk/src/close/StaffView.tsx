import { useEffect, useRef, useState } from "preact/hooks";
import type { SongPage } from "../api/types";
import { settings } from "../settings/settings";
import { afterFrame } from "../song/afterFrame";
import type { SongState } from "../song/state";
import { barAt } from "../time/grid";

const MOST_BARS = 4;

/** The opened bars on two staves: tune and bass, chords and numerals above. */
export function StaffView({ state }: { state: SongState }) {
  const box = useRef<HTMLDivElement>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  const page = state.music.value;
  const english = useEnglish(state);
  const from = barAt(page.bars, state.span.startSeconds + 0.02);
  const to = Math.min(from + MOST_BARS - 1, barAt(page.bars, state.span.endSeconds - 0.02));
  useEffect(() => {
    if (!english || page.bars.length === 0) return;
    let gone = false;
    // Setting notes takes as long as all rows of the stack: those are shown first.
    const callOff = afterFrame(() => {
      import("./engrave").then(
        async ({ engrave }) => {
          const width = box.current?.clientWidth ?? 600;
          if (!gone && box.current) await engrave(box.current, page, english, from, to, width);
        },
      ).catch((reason) => !gone && setTrouble((reason as Error).message));
    });
    return () => {
      gone = true;
      callOff();
    };
  }, [page, english, from, to]);
  if (page.bars.length === 0) return null;
  return (
    <>
      <div ref={box} class="staff" role="img" aria-label={`Bars ${page.bars[from].number} to ${page.bars[to].number} in staff notation, rhythm to the nearest sixteenth`} />
      {trouble && <p class="soft">These bars cannot be set as notes: {trouble}</p>}
    </>
  );
}

/** The page with English note names, which staff notation is set from, whatever names are read. */
function useEnglish(state: SongState): SongPage | null {
  const page = state.music.value;
  const plain = (settings.value.noteNames ?? "english") === "english";
  const [fetched, setFetched] = useState<SongPage | null>(null);
  useEffect(() => {
    if (plain) return;
    let gone = false;
    fetch(`/api/songs/${state.id}?noteNames=english`).then((response) => response.json()).then((got) => !gone && setFetched(got as SongPage), () => {});
    return () => { gone = true; };
  }, [page, plain]);
  return plain ? page : fetched;
}
