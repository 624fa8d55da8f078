import { useState } from "preact/hooks";
import { desk } from "../api/calls";
import type { Correction, Hearing } from "../api/types";
import { Remarks } from "../findings/Remarks";
import { hearSpan } from "../song/deeds";
import { speaker } from "../settings/speaker";
import type { SongState } from "../song/state";
import { clock } from "../time/words";

/** The page while the reading is kept from the listener: their own ears first. */
export function EarFirst({ state }: { state: SongState }) {
  const hearings = state.page.value.hearings ?? [];
  return (
    <div class="ear-first">
      <section aria-label="Your ears first">
        <h2>Your ears first</h2>
        <p>
          The reading is hidden. Listen, choose a span by dragging over the line above, and write down what you hear; it is kept apart
          from what the program says.
        </p>
        <HearingForm state={state} />
        {hearings.length > 0 && (
          <ul>{hearings.map((hearing) => <li key={hearing.id}>{spanWords(hearing.heard)}: {hearing.label} <Drop state={state} id={hearing.id} /></li>)}</ul>
        )}
        <p><button type="button" class="main" onClick={() => (state.veiled.value = false)}>Show the reading, and where it differs</button></p>
      </section>
      <Remarks state={state} />
    </div>
  );
}

const KINDS = [["ChordOver", "chord"], ["KeyOver", "key"], ["BassNoteOver", "bass note"]] as const;
const HINTS = { ChordOver: "Gm7/Bb", KeyOver: "D dorian", BassNoteOver: "F#2" } as const;

function HearingForm({ state }: { state: SongState }) {
  const [kind, setKind] = useState<(typeof KINDS)[number][0]>("ChordOver");
  const selection = state.selection.value;
  const [words, setWords] = useState("");
  const keep = async (event: Event) => {
    event.preventDefault();
    if (!selection) return;
    const field = { ChordOver: "chord", KeyOver: "key", BassNoteOver: "pitch" }[kind];
    if (await state.hear({ kind, span: [selection.startSeconds, selection.endSeconds], [field]: words })) setWords("");
  };
  return (
    <form onSubmit={(event) => void keep(event)} class="hearing-form">
      <span>{selection ? `${clock(selection.startSeconds, true)} to ${clock(selection.endSeconds, true)}` : "Choose a span first"}</span>{" "}
      <label>
        I hear the{" "}
        <select value={kind} onChange={(event) => setKind(event.currentTarget.value as typeof kind)}>
          {KINDS.map(([value, name]) => <option key={value} value={value}>{name}</option>)}
        </select>
      </label>{" "}
      <label class="inline"><span class="unseen">What you hear</span><input value={words} placeholder={HINTS[kind]} required size={12} onInput={(event) => setWords(event.currentTarget.value)} /></label>{" "}
      <button type="submit" disabled={!selection}>Keep it</button>{" "}
      <SpanSetter state={state} />
    </form>
  );
}

/** A span by keyboard or as it sounds: from one press to the next. */
function SpanSetter({ state }: { state: SongState }) {
  const [from, setFrom] = useState<number | null>(null);
  const press = () => {
    const now = state.player.nowSeconds();
    if (from === null) {
      setFrom(now);
      return;
    }
    if (now > from) state.selection.value = { startSeconds: from, endSeconds: now };
    setFrom(null);
  };
  return <button type="button" onClick={press}>{from === null ? "The span begins now" : `The span ends now (began ${clock(from, true)})`}</button>;
}

function Drop({ state, id }: { state: SongState; id: number }) {
  return <button type="button" class="plain" onClick={() => void state.dropHearing(id)}>remove</button>;
}

export function spanWords(heard: Correction): string {
  return heard.span ? `${clock(heard.span[0], true)} to ${clock(heard.span[1], true)}` : "";
}

/** Where listener and program differ, both to hear, until the listener decides. */
export function Disagreements({ state }: { state: SongState }) {
  const open = (state.page.value.hearings ?? []).filter((hearing) => hearing.agrees === false && hearing.decision === "open");
  const both = (state.page.value.hearings ?? []).filter((hearing) => hearing.decision === "both");
  const divided = (state.page.value.hearings ?? []).filter((hearing) => hearing.decision !== "open" && dividedOn(hearing));
  if (open.length + both.length + divided.length === 0) return null;
  return (
    <section aria-label="Where you and the program differ">
      {open.length > 0 && <h2>{open.every(isOwn) ? "You and the program differ" : "Listeners and the program differ"}</h2>}
      {open.map((hearing) => <Disagreement key={hearing.id} state={state} hearing={hearing} />)}
      {divided.length > 0 && (
        <>
          <h2>Decided otherwise by others</h2>
          <ul>{divided.map((hearing) => (
            <li key={hearing.id}>
              {spanWords(hearing.heard)}: {hearing.label} ({hearing.author}). {decisionWords(hearing)}{" "}
              <button type="button" class="plain" onClick={() => void state.decide(hearing.id, "open")}>decide anew</button>
            </li>
          ))}</ul>
        </>
      )}
      {both.length > 0 && (
        <>
          <h2>Side by side</h2>
          <ul>{both.map((hearing) => (
            <li key={hearing.id}>
              {spanWords(hearing.heard)}: {hearing.label} ({hearing.author}), {programWords(hearing)} (program){" "}
              <button type="button" class="plain" onClick={() => void state.decide(hearing.id, "open")}>decide anew</button>
            </li>
          ))}</ul>
        </>
      )}
    </section>
  );
}

const isOwn = (hearing: Hearing) => hearing.author === speaker.value.name;

const DECIDED = { mine: "the listener's holds", program: "the program's holds", both: "both are kept", open: "open again" } as const;

/** What each last decided, in the order they did. */
export function lastWords(hearing: Hearing): { author: string; decision: Hearing["decision"] }[] {
  const last = new Map<string, Hearing["decision"]>();
  for (const { author, decision } of hearing.decisions ?? []) {
    last.delete(author);
    last.set(author, decision);
  }
  return [...last].map(([author, decision]) => ({ author, decision }));
}

/** Whether two people decided differently. */
export const dividedOn = (hearing: Hearing) =>
  new Set(lastWords(hearing).map((one) => one.decision).filter((one) => one !== "open")).size > 1;

const decisionWords = (hearing: Hearing) => lastWords(hearing).map(({ author, decision }) => `${author}: ${DECIDED[decision]}`).join("; ");

const programWords = (hearing: Hearing) => hearing.program?.map((part) => part.label).join(", ") || "nothing of the kind";

function Disagreement({ state, hearing }: { state: SongState; hearing: Hearing }) {
  const { listening } = state;
  const span = hearing.heard.span ?? [0, 0];
  const hear = (balance: number) => {
    listening.setBalance(balance);
    hearSpan(state, { startSeconds: span[0], endSeconds: span[1] });
  };
  const own = isOwn(hearing);
  const sounds = hearing.heard.kind !== "KeyOver";
  const hearOwn = () => {
    listening.setGuest({ words: `plain tones, ${hearing.label}`, path: desk.heardPath(state.id, hearing.id), span: { startSeconds: span[0], endSeconds: span[1] }, recording: 0 });
  };
  const decide = (decision: "mine" | "program" | "both") => void state.decide(hearing.id, decision);
  return (
    <div class="found">
      <h3>{spanWords(hearing.heard)}</h3>
      <p>{own ? "You" : hearing.author}: <strong>{hearing.label}</strong>. Program: <strong>{programWords(hearing)}</strong>.{hearing.differsIn && hearing.differsIn.length > 0 && ` Not the same: ${hearing.differsIn.join(", ")}.`}</p>
      <p>
        <button type="button" onClick={() => hear(0)}>Hear the recording</button>{" "}
        {sounds && <button type="button" onClick={hearOwn}>{own ? "Hear yours as tones" : "Hear theirs as tones"}</button>}{" "}
        <button type="button" onClick={() => hear(1)}>Hear the program's tones</button>
      </p>
      <p class="verdict">
        <button type="button" onClick={() => decide("mine")}>{own ? "Mine holds" : `${hearing.author}'s holds`}</button> <button type="button" onClick={() => decide("program")}>The program's</button>{" "}
        <button type="button" onClick={() => decide("both")}>Keep both</button>
      </p>
    </div>
  );
}
