import { desk } from "../api/calls";
import type { Repeat } from "../api/production";
import type { Section } from "../api/types";
import type { SongState } from "../song/state";
import { otherChanges, partChanges } from "../stack/changes";
import { partWords } from "../stack/words";
import { samePlace } from "../time/grid";
import { Part } from "./Part";

/** What the opened bars do otherwise than the earlier copy; what a part adds can be heard laid over that copy. */
export function CopyChanges({ state }: { state: SongState }) {
  const { repeats = [], sections } = state.page.value;
  const middle = (state.span.startSeconds + state.span.endSeconds) / 2;
  const repeat = repeats.find((one) => middle >= one.startSeconds && middle < one.endSeconds);
  const earlier = repeat && sections.find((section) => section.letter === repeat.letter && section.occurrence === repeat.against);
  if (!repeat || !earlier) return null;
  const parts = partChanges(repeat, state.span);
  const others = otherChanges(repeat, state.span);
  return (
    <Part state={state} task="copy" title={`Otherwise than in ${earlier.name}`}>
      <ul class="candidates">
        {others.map((words) => <li key={words}>{words}</li>)}
        {parts.map((change) => (
          <li key={change.part}>
            <strong>{partWords(change.part)}</strong> {change.words}{" "}
            {change.adds && <button type="button" onClick={() => layOver(state, repeat, earlier, change.part)}>Hear it over {earlier.name}</button>}
          </li>
        ))}
        {parts.length + others.length === 0 && <li class="soft">Nothing that is likely.</li>}
      </ul>
    </Part>
  );
}

/** Loops the same bars of the earlier copy, with this copy's part laid over them by plain tones. */
function layOver(state: SongState, repeat: Repeat, earlier: Section, part: string): void {
  const bars = state.bars.value;
  const index = (seconds: number) => bars.findIndex((bar) => bar.startSeconds <= seconds + 0.02 && bar.endSeconds > seconds + 0.02);
  const there = (seconds: number) => samePlace(bars, seconds, index(repeat.startSeconds), index(earlier.startSeconds), index(earlier.endSeconds - 0.1));
  const startSeconds = there(Math.max(repeat.startSeconds, state.span.startSeconds) + 0.02) - 0.02;
  const endSeconds = Math.min(earlier.endSeconds, startSeconds + (state.span.endSeconds - state.span.startSeconds));
  state.listening.setGuest({
    words: `${earlier.name} with this copy's ${partWords(part)} laid over it by plain tones`,
    path: desk.partOverPath(state.id, repeat, part), span: { startSeconds: Math.max(0, startSeconds), endSeconds }, recording: 0.6,
  });
}
