import type { ComponentChildren } from "preact";
import type { KeyRegion, SongPage } from "../api/types";
import { clock, percent, sureness } from "../time/words";
import type { SongState } from "./state";

/** The header line: what the song is, in words, each with how sure that is; behind each, what else it could be. */
export function Facts({ state }: { state: SongState }) {
  const page = state.page.value;
  const { facts } = page;
  return (
    <div class="facts">
      {facts.tempoBpm
        ? <Fact words={`${Math.round(facts.tempoBpm)} bpm${swing(facts.swingRatio)}`} probability={facts.tempoProbability}><Tempo state={state} /></Fact>
        : <Fact words="no steady pulse" />}
      {facts.meter && <Fact words={facts.meter} probability={facts.meterProbability}><Meter state={state} /></Fact>}
      {page.keys.length > 0 && (
        <Fact words={facts.keys} probability={Math.min(...page.keys.map((key) => key.probability))}><Keys state={state} /></Fact>
      )}
      {facts.tuningCents !== undefined && (
        <Fact words={tuning(facts.tuningCents)} probability={facts.tuningProbability}><Tuning state={state} /></Fact>
      )}
      <Fact words={clock(page.song.durationSeconds)} />
    </div>
  );
}

const swing = (ratio?: number) => (ratio && ratio > 1.15 ? `, swung ${ratio.toFixed(1)} : 1` : "");

export function tuning(cents: number): string {
  const whole = Math.round(cents);
  return whole === 0 ? "tuned to A = 440" : `tuned ${Math.abs(whole)} ${Math.abs(whole) === 1 ? "cent" : "cents"} ${whole < 0 ? "low" : "high"}`;
}

function Fact({ words, probability, children }: { words: string; probability?: number; children?: ComponentChildren }) {
  if (!children) return <span class="fact">{words}</span>;
  return (
    <details class="fact" name="fact">
      <summary>
        {words}{probability !== undefined && <small> {sureness(probability)}</small>},
      </summary>
      <div class="behind">{children}</div>
    </details>
  );
}

function Tempo({ state }: { state: SongState }) {
  const { facts } = state.page.value;
  const level = (factor: number) => void state.say({ kind: "TempoLevel", factor });
  return (
    <>
      <Others others={(facts.otherTempi ?? []).map((other) => ({ words: `${Math.round(other.bpm)} bpm`, probability: other.probability }))} />
      <button type="button" onClick={() => level(2)}>Count twice as fast</button>
      <button type="button" onClick={() => level(0.5)}>Count half as fast</button>
      <p class="soft">A beat out of place: put it right in close listening.</p>
    </>
  );
}

function Meter({ state }: { state: SongState }) {
  const { facts, song } = state.page.value;
  const say = (signature: string) => void state.say({ kind: "MeterOver", span: [0, song.durationSeconds], signature });
  return (
    <>
      <Others others={(facts.otherMeters ?? []).map((other) => ({ words: other.meter, probability: other.probability }))} />
      <label>
        Count the whole song in{" "}
        <select value={facts.meter} onChange={(event) => say(event.currentTarget.value)}>
          {["2/4", "3/4", "4/4", "5/4", "6/8", "7/8", "9/8", "12/8"].map((meter) => <option key={meter}>{meter}</option>)}
        </select>
      </label>
    </>
  );
}

function Keys({ state }: { state: SongState }) {
  const page: SongPage = state.page.value;
  return <>{page.keys.map((region) => <KeyRow key={region.startSeconds} region={region} state={state} />)}</>;
}

function KeyRow({ region, state }: { region: KeyRegion; state: SongState }) {
  const say = (key: string) => void state.say({ kind: "KeyOver", span: [region.startSeconds, region.endSeconds], key });
  return (
    <div class="key-region">
      <strong>{clock(region.startSeconds)} to {clock(region.endSeconds)}: {region.label}</strong>{" "}
      <small>{sureness(region.probability)}</small>
      {region.runnersUp.map((other) => (
        <button key={other.key} type="button" onClick={() => say(other.key)}>{other.label} <small>{percent(other.probability)}</small></button>
      ))}
      <form onSubmit={(event) => { event.preventDefault(); say(String(new FormData(event.currentTarget).get("key"))); }}>
        <label>It is in <input name="key" size={16} placeholder="D dorian" required /></label> <button type="submit">Say so</button>
      </form>
    </div>
  );
}

function Tuning({ state }: { state: SongState }) {
  const { facts } = state.page.value;
  return (
    <form onSubmit={(event) => { event.preventDefault(); void state.say({ kind: "TuningIs", cents: Number(new FormData(event.currentTarget).get("cents")) }); }}>
      <p>A is {facts.a4Hertz?.toFixed(1)} Hz.</p>
      <label>
        Cents above A = 440{" "}
        <input name="cents" type="number" min={-50} max={50} step={1} value={Math.round(facts.tuningCents ?? 0)} />
      </label>{" "}
      <button type="submit">Say so</button>
    </form>
  );
}

function Others({ others }: { others: { words: string; probability: number }[] }) {
  if (others.length === 0) return <p class="soft">Nothing else comes close.</p>;
  return <p>It could also be {others.map((other) => `${other.words} (${percent(other.probability)})`).join(", ")}.</p>;
}
