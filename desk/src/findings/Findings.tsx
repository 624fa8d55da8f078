import { useState } from "preact/hooks";
import { desk } from "../api/calls";
import type { Evidence, FindingGroup, FindingKind, Occurrence, Verdict } from "../api/findings";
import { sketchAddress } from "../route";
import { hearSpan } from "../song/deeds";
import type { SongState } from "../song/state";
import { clock, sureness } from "../time/words";
import { byWhom, speaker } from "../settings/speaker";
import { barsWords, byTechnique, verdictsOn, whereWords } from "./words";

const KINDS: [FindingKind, string][] = [["theory", "Theory"], ["songwriting", "Songwriting"], ["production", "Production"]];

/** What the program found worth telling, those worth most first within each kind. */
export function Findings({ state }: { state: SongState }) {
  const { findings, verdicts = [] } = state.page.value;
  if (!findings) return <p class="soft">Looking for findings</p>;
  const denied = verdicts.filter((verdict) => verdict.answer === "no");
  return (
    <section aria-label="Findings">
      {KINDS.map(([kind, title]) => {
        const groups = byTechnique(findings.filter((group) => group.kind === kind));
        return groups.length > 0 && (
          <section key={kind}>
            <h2>{title}</h2>
            {groups.map((group) => <Group key={group.technique} state={state} group={group} />)}
          </section>
        );
      })}
      {findings.length === 0 && <p class="soft">No findings in this song yet.</p>}
      {denied.length > 0 && (
        <details>
          <summary>Held not to be so ({denied.length})</summary>
          <ul>
            {denied.map((verdict) => (
              <li key={verdict.id}>
                {verdict.name}, {clock(verdict.startSeconds)}<span class="soft">{byWhom(verdict.author)}</span>{" "}
                <button type="button" class="plain" onClick={() => void state.dropVerdict(verdict.id)}>take back</button>
              </li>
            ))}
          </ul>
        </details>
      )}
    </section>
  );
}

function Group({ state, group }: { state: SongState; group: FindingGroup }) {
  const [first] = group.occurrences;
  // What stands folded is drawn once it is opened.
  const [opened, setOpened] = useState(false);
  return (
    <details class="finding" onToggle={(event) => event.currentTarget.open && setOpened(true)}>
      <summary>
        <strong>{group.name}</strong> <small>{sureness(group.probability)}</small>
        <span class="where">{whereWords(group.occurrences)}</span>
      </summary>
      {opened && (
        <>
          <p>{group.definition}</p>
          <p class="soft">Listen: {group.listen}</p>
          {group.occurrences.map((found) => <Found key={`${found.startSeconds} ${found.endSeconds} ${found.summary}`} state={state} group={group} found={found} alone={found === first && group.occurrences.length === 1} />)}
          <p class="soft">Try it: {group.try}{" "}
            {group.sketched && <a href={sketchAddress(group.technique, state.id)}>Open a sketch</a>}
          </p>
        </>
      )}
    </details>
  );
}

function Found({ state, group, found, alone }: { state: SongState; group: FindingGroup; found: Occurrence; alone: boolean }) {
  const said = verdictsOn(state.page.value.verdicts ?? [], group.technique, found);
  const own = said.find((verdict) => verdict.author === speaker.value.name);
  return (
    <div class="found">
      {!alone && <h3>{barsWords(found)}, {clock(found.startSeconds)}</h3>}
      <p>{found.summary}</p>
      <button type="button" onClick={() => hearSpan(state, found)}>Hear it, {clock(found.startSeconds)}</button>
      {found.plain && <PlainVersion state={state} group={group} found={found} plain={found.plain} />}
      <details>
        <summary>Why</summary>
        <ul>{found.evidence.map((evidence, i) => <Proof key={i} state={state} evidence={evidence} />)}</ul>
        {found.under.length > 0 && <p class="soft">Also told by it: {found.under.join(", ")}.</p>}
      </details>
      {said.filter((verdict) => verdict !== own && verdict.author !== own?.author).map((verdict) => (
        <p key={verdict.id} class="verdict">
          {verdict.author} said: {verdictWords(verdict)}
          {!speaker.value.shared && <>{" "}<button type="button" class="plain" onClick={() => void state.dropVerdict(verdict.id)}>take back</button></>}
        </p>
      ))}
      <VerdictBar state={state} group={group} found={found} verdict={own} />
    </div>
  );
}

/** The same bars by plain tones, with the technique and without it. */
function PlainVersion({ state, group, found, plain }: { state: SongState; group: FindingGroup; found: Occurrence; plain: string }) {
  const { listening, id } = state;
  const span = { startSeconds: found.startSeconds, endSeconds: found.endSeconds };
  const hear = (words: string, path: string) => listening.setGuest({ words, path, span, recording: 0 });
  return (
    <p class="verdict">
      <button type="button" onClick={() => hear(`plain tones, ${plain}`, desk.plainPath(id, group.technique, found.startSeconds))}>Hear it {plain}</button>
      <button type="button" onClick={() => hear("plain tones, as it is", desk.checkPath(id, "bass,chords,melody"))}>As it is, by plain tones</button>
    </p>
  );
}

function Proof({ state, evidence }: { state: SongState; evidence: Evidence }) {
  if (evidence.kind === "measured") return <li>{evidence.text}</li>;
  return (
    <li>
      {evidence.text}{" "}
      <button type="button" class="plain time" onClick={() => hearSpan(state, evidence)}>hear {clock(evidence.startSeconds)}</button>
    </li>
  );
}

const verdictWords = (verdict: Verdict) => verdict.answer === "yes" ? "it holds" : verdict.answer === "no" ? "it does not hold" : verdict.words;

interface VerdictProps {
  state: SongState;
  group: FindingGroup;
  found: Occurrence;
  verdict: Verdict | undefined;
}

function VerdictBar({ state, group, found, verdict }: VerdictProps) {
  const [wording, setWording] = useState(false);
  const judge = (answer: "yes" | "no" | "words", words?: string) =>
    void state.judge({ technique: group.technique, startSeconds: found.startSeconds, answer, ...(words ? { words } : {}) });
  if (verdict) {
    return (
      <p class="verdict">
        You said: {verdictWords(verdict)}{" "}
        <button type="button" class="plain" onClick={() => void state.dropVerdict(verdict.id)}>take back</button>
      </p>
    );
  }
  if (wording) {
    return (
      <form class="verdict" onSubmit={(event) => { event.preventDefault(); judge("words", String(new FormData(event.currentTarget).get("words"))); }}>
        <label>In your words <input name="words" required maxLength={2000} /></label> <button type="submit">Keep</button>
      </form>
    );
  }
  return (
    <p class="verdict">
      <button type="button" onClick={() => judge("yes")}>It holds</button> <button type="button" onClick={() => judge("no")}>It does not</button>{" "}
      <button type="button" onClick={() => setWording(true)}>In my words</button>
    </p>
  );
}
