import { useState } from "preact/hooks";
import type { Correction, Note } from "../api/types";
import type { SongState, Task } from "../song/state";
import { partWords } from "../stack/words";
import { clock, percent } from "../time/words";
import { Part } from "./Part";
import { partsOf, overlapping } from "./targets";

interface NotesProps {
  state: SongState;
  title: string;
  notes: readonly Note[];
  /** What is said of a note, and of there being none: the kind and, where the kind wants one, the part's name. */
  over: Correction;
  none: Correction;
  noneWords: string;
  /** What is said where the part sounds unheard, if the desk has notes at hand for it. */
  sounds?: { said: Correction; words: string };
}

export function NoteSay({ task, ...props }: NotesProps & { task: Task }) {
  return <Part state={props.state} task={task} title={props.title}><NotesHere {...props} /></Part>;
}

/** The notes of one part in the opened span, each to be put right, and a form for the whole of it. */
function NotesHere({ state, title, notes, over, none, noneWords, sounds }: NotesProps) {
  const span = state.span;
  const within = overlapping(notes, span);
  const say = (at: { startSeconds: number; endSeconds: number }) => (event: Event) => {
    event.preventDefault();
    const pitch = String(new FormData(event.currentTarget as HTMLFormElement).get("pitch"));
    void state.say({ ...over, span: [at.startSeconds, at.endSeconds], pitch });
  };
  return (
    <>
      <ul class="candidates">
        {within.map((note) => (
          <li key={note.startSeconds}>
            <form onSubmit={say(note)}>
              {clock(note.startSeconds, true)} <strong>{note.pitch}</strong> {note.syllable} <small>{percent(note.probability)}</small>{" "}
              <label class="inline"><span class="unseen">{title} at {clock(note.startSeconds, true)} is</span><PitchField hint={note.pitch} /></label>{" "}
              <button type="submit">Say so</button>
            </form>
          </li>
        ))}
        {within.length === 0 && <li class="soft">Nothing was heard here.</li>}
      </ul>
      <form onSubmit={say(span)}>
        <label>All of it is <PitchField hint="F#3" /></label>{" "}
        <button type="submit">Say so</button>{" "}
        <button type="button" onClick={() => void state.say({ ...none, span: [span.startSeconds, span.endSeconds] })}>{noneWords}</button>
        {sounds && <>{" "}<button type="button" onClick={() => void state.say({ ...sounds.said, span: [span.startSeconds, span.endSeconds] })}>{sounds.words}</button></>}
      </form>
    </>
  );
}

function PitchField({ hint }: { hint: string }) {
  return <input name="pitch" size={4} placeholder={hint} required pattern="[A-Ga-g][#b]*-?[0-9]" title="A note name and an octave, as in F#3" />;
}

const FURTHER = {
  voice: { title: "Further voices", facet: "voices", note: "VoiceNoteOver", none: "NoVoiceOver", first: 2, new: "a voice not heard yet" },
  line: { title: "Lines of the accompaniment", facet: "lines", note: "LineNoteOver", none: "NoLineOver", first: 1, new: "a line not heard yet" },
} as const;

/** Sung voices beside the tune, or lines of the accompaniment: one is chosen, its notes are put right as those of the bass. */
export function FurtherParts({ state, task }: { state: SongState; task: "voice" | "line" }) {
  const kind = FURTHER[task];
  const parts = state.page.value[kind.facet] ?? [];
  const { names, fresh } = partsOf(parts, task, kind.first, state.span);
  const [chosen, choose] = useState<string | null>(null);
  const name = chosen ?? names[0] ?? fresh;
  const notes = parts.find((part) => part.name === name)?.notes ?? [];
  return (
    <Part state={state} task={task} title={kind.title}>
      <label>
        Part{" "}
        <select value={name} onChange={(event) => choose(event.currentTarget.value)}>
          {names.map((one) => <option key={one} value={one}>{partWords(one)}</option>)}
          <option value={fresh}>{kind.new}</option>
        </select>
      </label>
      <NotesHere state={state} title={partWords(name)} notes={notes} over={{ kind: kind.note, [task]: name }} none={{ kind: kind.none, [task]: name }}
                 noneWords={`No ${partWords(name)} here`} />
    </Part>
  );
}
