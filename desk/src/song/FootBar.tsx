import { useEffect, useRef, useState } from "preact/hooks";
import type { Focus } from "../api/types";
import { clock } from "../time/words";
import { FASTEST, loop, playOrPause, SLOWEST, speed, transpose } from "./deeds";
import { FOCUSES } from "./listening";
import { eachFrame } from "./ticker";
import type { SongState } from "./state";

/** Where listening is steered: always at the foot of the page. */
export function FootBar({ state }: { state: SongState }) {
  const { player, listening } = state;
  const rate = player.rate.value;
  const semitones = player.semitones.value;
  const [all, setAll] = useState(false);
  return (
    <div class="foot-bar" role="toolbar" aria-label="Listening">
      {listening.caution.value && <Caution state={state} />}
      {player.trouble.value && <p class="trouble" role="alert">{player.trouble.value}</p>}
      {listening.guest.value && (
        <p class="guest" role="status">
          Sounding: {listening.guest.value.words}{" "}
          <button type="button" onClick={() => listening.setGuest(null)}>Back to the recording</button>
        </p>
      )}
      <div class="foot-row">
        <button type="button" class="main" aria-pressed={player.playing.value} onClick={() => playOrPause(state)}>
          {player.playing.value ? "Pause" : "Play"}
        </button>
        <Now state={state} />
        <button type="button" aria-pressed={player.loop.value !== null} disabled={state.veiled.value && !player.loop.value && !state.selection.value} onClick={() => loop(state)}>
          {player.loop.value ? "Stop looping" : state.selection.value || state.veiled.value ? "Loop chosen" : "Loop bar"}
        </button>
        <button type="button" class="foot-more" aria-expanded={all} onClick={() => setAll(!all)}>{all ? "Less" : "More"}</button>
        <span class={`foot-rest${all ? "" : " shut"}`}>
          <label>
            Speed
            <input type="range" min={SLOWEST} max={FASTEST} step={0.05} value={rate} aria-valuetext={`${Math.round(rate * 100)} percent`}
                   onInput={(event) => speed(state, Number(event.currentTarget.value))} />
            <output>{Math.round(rate * 100)} %</output>
          </label>
          <label>
            Pitch
            <input type="number" min={-12} max={12} step={1} value={semitones} aria-label="Transposition in semitones"
                   onInput={(event) => transpose(state, Number(event.currentTarget.value))} />
            <span aria-hidden="true">semitones</span>
          </label>
          {!state.veiled.value && (
            <>
              <label class="check"><input type="checkbox" checked={listening.clicks.value} onChange={() => listening.toggleClick()} /> Click</label>
              <label class="check">
                <input type="checkbox" checked={listening.countsIn.value} onChange={() => (listening.countsIn.value = !listening.countsIn.value)} /> Count-in
              </label>
            </>
          )}
          <label>
            Focus
            <select value={listening.focus.value ?? ""} onChange={(event) => listening.setFocus((event.currentTarget.value || null) as Focus | null)}>
              <option value="">the recording as it is</option>
              {FOCUSES.map(([focus, words]) => <option key={focus} value={focus}>{words}</option>)}
            </select>
          </label>
          {!state.veiled.value && (
            <label>
              Recording
              <input type="range" min={0} max={1} step={0.05} value={listening.balance.value} aria-label="Balance between recording and plain tones"
                     onInput={(event) => listening.setBalance(Number(event.currentTarget.value))} />
              Plain tones
            </label>
          )}
          {!state.veiled.value && <Spans state={state} />}
          <label>
            Level
            <input type="range" min={0} max={1} step={0.02} value={player.volume.value} onInput={(event) => player.loudness(Number(event.currentTarget.value))} />
          </label>
        </span>
      </div>
    </div>
  );
}

function Now({ state }: { state: SongState }) {
  const text = useRef<HTMLSpanElement>(null);
  useEffect(() => eachFrame(() => {
    const shown = clock(state.player.nowSeconds(), true);
    if (text.current && text.current.textContent !== shown) text.current.textContent = shown;
  }), [state]);
  return <span class="now"><span ref={text}>0:00.0</span>{state.player.waiting.value && <small> waiting for sound</small>}</span>;
}

function Spans({ state }: { state: SongState }) {
  const { listening } = state;
  const [first, second] = listening.spans.value;
  const words = (span: { startSeconds: number }) => clock(span.startSeconds);
  return (
    <span class="spans">
      <button type="button" onClick={() => listening.markSpan()}>
        {first && !second ? "Mark second span" : "Mark first span"}
      </button>
      {first && second && (
        <button type="button" onClick={() => listening.switchSpan()}>
          Switch to {words(listening.heardSpan.value === 0 ? second : first)}
        </button>
      )}
      {first && <button type="button" class="plain" aria-label="Forget the marked spans" onClick={() => listening.forgetSpans()}>Forget</button>}
    </span>
  );
}

function Caution({ state }: { state: SongState }) {
  return (
    <div class="caution" role="alertdialog" aria-label="Caution about hearing">
      <p>
        Loops are listened to for long. With headphones, begin at a moderate level: as a guide, about 80 dB for 40 hours a week is
        held safe for adults (WHO-ITU H.870). Nothing here sounds louder than the recording. Ringing ears are a reason to stop.
      </p>
      <button type="button" onClick={() => state.listening.understood()}>Understood</button>
    </div>
  );
}
