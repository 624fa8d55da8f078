import { useEffect, useState } from "preact/hooks";
import { desk } from "../api/calls";
import type { Chord } from "../api/types";
import type { SongState } from "../song/state";
import { chordWords } from "../stack/words";
import { clock, percent } from "../time/words";
import { CopyChanges } from "./CopyChanges";
import { Part } from "./Part";
import { FurtherParts, NoteSay } from "./SayNotes";
import { EchoSay, LayerSay, PlaceSay, RoomSay } from "./SaySound";
import { chordAt, ROLES, spanOfChord } from "./targets";

/** What is heard in the opened span, what else it could be, and the forms to say otherwise. */
export function Say({ state }: { state: SongState }) {
  return (
    <div class="say" aria-label="Say what you hear" role="group">
      <CopyChanges state={state} />
      <ChordSay state={state} />
      <NoteSay state={state} task="bass" title="Bass" notes={state.page.value.bass} over={{ kind: "BassNoteOver" }} none={{ kind: "NoBassOver" }} noneWords="No bass here" />
      <NoteSay state={state} task="tune" title="Tune" notes={state.page.value.melody} over={{ kind: "MelodyNoteOver" }} none={{ kind: "NoMelodyOver" }} noneWords="No tune here"
               sounds={{ said: { kind: "MelodyOver" }, words: "A tune sounds throughout" }} />
      <KeySay state={state} />
      <SectionSay state={state} />
      <BeatSay state={state} />
      <FurtherParts state={state} task="voice" />
      <FurtherParts state={state} task="line" />
      <LayerSay state={state} />
      <PlaceSay state={state} />
      <EchoSay state={state} />
      <RoomSay state={state} />
    </div>
  );
}

function ChordSay({ state }: { state: SongState }) {
  const page = state.page.value;
  const chords = page.chords.filter((chord) => chord.endSeconds > state.span.startSeconds + 0.03 && chord.startSeconds < state.span.endSeconds - 0.03);
  const [typed, setTyped] = useState("");
  const understood = useUnderstood(typed);
  // Without chosen bars a typed chord is meant for the chord that the cursor's bar brings, where it really stands.
  const target = state.selection.value ?? spanOfChord(chordAt(page.chords, state.bar), state.bar);
  const say = (span: { startSeconds: number; endSeconds: number }, chord: string) =>
    void state.say({ kind: "ChordOver", span: [span.startSeconds, span.endSeconds], chord });
  return (
    <Part state={state} task="chord" title="Chords">
      <ul class="candidates">
        {chords.map((chord) => (
          <li key={chord.startSeconds}>
            <strong>{chordWords(chord)}</strong> {clock(chord.startSeconds, true)} <small>{percent(chord.probability)}</small>
            <Members chord={chord} />
            {chord.runnersUp.map((other) => (
              <button key={other.harte} type="button" onClick={() => say(chord, other.harte)}>{other.label} <small>{percent(other.probability)}</small></button>
            ))}
            {chord.third && chord.third.accompaniment !== "absent" && (
              <button type="button" onClick={() => void state.say({ kind: "NoThirdOver", span: [chord.startSeconds, chord.endSeconds] })}>No third here</button>
            )}
          </li>
        ))}
      </ul>
      <form onSubmit={(event) => { event.preventDefault(); say(target, typed); }}>
        <label>
          From {clock(target.startSeconds, true)} to {clock(target.endSeconds, true)} it is{" "}
          <input value={typed} size={10} placeholder="Gm7/Bb" required onInput={(event) => setTyped(event.currentTarget.value)} aria-describedby="understood" />
        </label>{" "}
        <button type="submit">Say so</button>
        <p id="understood" class="soft" aria-live="polite">{understood}</p>
      </form>
    </Part>
  );
}

/** Which members sound, where that is not all of them. */
function Members({ chord }: { chord: Chord }) {
  const said = (["third", "fifth", "seventh"] as const).flatMap((name) => {
    const member = chord[name];
    if (!member || member.accompaniment === "sounding" || (name === "seventh" && member.voices === "absent")) return [];
    if (member.voices === "sounding") return [`${name} only in the voices`];
    return [member.impliedBy ? `${name} implied: ${member.impliedBy}` : `no ${name} sounds`];
  });
  return said.length > 0 ? <span class="soft"> {said.join(", ")}</span> : null;
}

/** What the desk understands by a typed chord, while it is typed. */
function useUnderstood(typed: string): string {
  const [understood, setUnderstood] = useState("");
  useEffect(() => {
    if (!typed.trim()) {
      setUnderstood("");
      return;
    }
    const stop = new AbortController();
    desk.readChord(typed, stop.signal).then(
      (chord) => setUnderstood(`Read as ${chord.label} (${chord.harte})`),
      (trouble: Error) => !stop.signal.aborted && setUnderstood(trouble.message),
    );
    return () => stop.abort();
  }, [typed]);
  return understood;
}

function KeySay({ state }: { state: SongState }) {
  const { startSeconds, endSeconds } = state.span;
  const here = state.page.value.keys.find((key) => key.endSeconds > startSeconds && key.startSeconds <= startSeconds + 0.02);
  const say = (key: string) => void state.say({ kind: "KeyOver", span: [startSeconds, endSeconds], key });
  return (
    <Part state={state} task="key" title="Key">
      {here && <p><strong>{here.label}</strong> <small>{percent(here.probability)}</small></p>}
      {here?.runnersUp.map((other) => <button key={other.key} type="button" onClick={() => say(other.key)}>{other.label} <small>{percent(other.probability)}</small></button>)}
      <form onSubmit={(event) => { event.preventDefault(); say(String(new FormData(event.currentTarget).get("key"))); }}>
        <label>This span is in <input name="key" size={14} placeholder="A minor" required /></label> <button type="submit">Say so</button>
      </form>
    </Part>
  );
}

function SectionSay({ state }: { state: SongState }) {
  const { sections } = state.page.value;
  const at = state.span.startSeconds;
  const here = sections.find((section) => at >= section.startSeconds - 0.02 && at < section.endSeconds - 0.02);
  const begins = here !== undefined && Math.abs(here.startSeconds - at) < 0.1;
  const span = here && ([here.startSeconds, here.endSeconds] as [number, number]);
  return (
    <Part state={state} task="section" title="Section">
      {here && <p><strong>{here.name}</strong>, bars {here.firstBar} to {here.lastBar}, music {here.letter} <small>{percent(here.probability)}</small></p>}
      {begins
        ? <button type="button" onClick={() => void state.say({ kind: "NoBoundaryAt", seconds: here.startSeconds })}>No section begins here</button>
        : <button type="button" onClick={() => void state.say({ kind: "BoundaryAt", seconds: at })}>A section begins at {clock(at, true)}</button>}
      {span && (
        <>
          <label>
            It is a{" "}
            <select value={here.place ?? ""} onChange={(event) => void state.say({ kind: "NameOver", span, role: event.currentTarget.value })}>
              {!ROLES.includes(here.place ?? "") && <option value={here.place ?? ""}>{here.place ?? "(no name)"}</option>}
              {ROLES.map((role) => <option key={role}>{role}</option>)}
            </select>
          </label>
          <label>
            The same music as{" "}
            <select value={here.letter} onChange={(event) => void state.say({ kind: "SamenessOver", span, letter: event.currentTarget.value })}>
              {letters(sections.map((section) => section.letter)).map((letter) => <option key={letter}>{letter}</option>)}
            </select>
          </label>
        </>
      )}
    </Part>
  );
}

/** The letters in use and the next one free. */
function letters(used: string[]): string[] {
  const known = [...new Set(used)].sort();
  const free = [..."ABCDEFGHIJKLMNOPQRSTUVWXYZ"].find((letter) => !known.includes(letter));
  return free ? [...known, free] : known;
}

function BeatSay({ state }: { state: SongState }) {
  const at = state.span.startSeconds;
  const meter = (signature: string) => void state.say({ kind: "MeterOver", span: [state.span.startSeconds, state.span.endSeconds], signature });
  const [tapped, setTapped] = useState<number | null>(null);
  return (
    <Part state={state} task="beat" title="Beat and meter">
      <p>
        <button type="button" onClick={() => void state.say({ kind: "DownbeatAt", seconds: tapped ?? at })}>A bar begins at {clock(tapped ?? at, true)}</button>{" "}
        <button type="button" onClick={() => void state.say({ kind: "BeatAt", seconds: tapped ?? at })}>A beat falls at {clock(tapped ?? at, true)}</button>
      </p>
      <p>
        <button type="button" onClick={() => setTapped(state.player.nowSeconds())}>Tap the moment as it sounds</button>{" "}
        {tapped !== null && <button type="button" class="plain" onClick={() => setTapped(null)}>forget the tap</button>}
      </p>
      <label>
        These bars are in{" "}
        <select value={state.bar.signature} onChange={(event) => meter(event.currentTarget.value)}>
          {["2/4", "3/4", "4/4", "5/4", "6/8", "7/8", "9/8", "12/8"].map((signature) => <option key={signature}>{signature}</option>)}
        </select>
      </label>
    </Part>
  );
}
