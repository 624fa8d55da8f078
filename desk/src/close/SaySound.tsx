import { useState } from "preact/hooks";
import type { SongState } from "../song/state";
import { placeWords } from "../stack/production";
import { roomAt, roomChange, roomDecay, roomLevel } from "../stack/room";
import { percent } from "../time/words";
import { Part } from "./Part";
import { ECHOES, LAYERS, overlapping, SOURCES } from "./targets";

/** Layers that sound in the span, to be denied, and those that do not, to be said. */
export function LayerSay({ state }: { state: SongState }) {
  const layers = state.page.value.texture?.layers;
  if (!layers) return null;
  const { startSeconds, endSeconds } = state.span;
  const sounding = [...new Set(overlapping(layers, state.span).map((layer) => layer.layer))];
  const say = (layer: string, sounds: boolean) => void state.say({ kind: "LayerOver", span: [startSeconds, endSeconds], layer, sounds });
  return (
    <Part state={state} task="layer" title="Layers">
      {sounding.map((layer) => <button key={layer} type="button" onClick={() => say(layer, false)}>No {layer} here</button>)}
      {LAYERS.filter((layer) => !sounding.includes(layer)).map((layer) => <button key={layer} type="button" class="plain" onClick={() => say(layer, true)}>{layer} sounds here</button>)}
    </Part>
  );
}

/** Where the sounds of the span stand from left to right. */
export function PlaceSay({ state }: { state: SongState }) {
  const here = overlapping(state.page.value.space?.events ?? [], state.span);
  const [source, setSource] = useState<string>(SOURCES[0][0]);
  const heard = here.find((event) => event.source === source)?.placement;
  const [moved, setMoved] = useState<number | null>(null);
  const place = moved ?? heard ?? 0;
  const choose = (next: string) => {
    setSource(next);
    setMoved(null);
  };
  const say = (event: Event) => {
    event.preventDefault();
    const placement = Number(new FormData(event.currentTarget as HTMLFormElement).get("place"));
    void state.say({ kind: "PlacementOver", span: [state.span.startSeconds, state.span.endSeconds], source, placement });
  };
  return (
    <Part state={state} task="place" title="Left and right">
      <ul class="candidates">
        {SOURCES.flatMap(([name, words]) => placesOf(here, name).map((one) => <li key={`${name}${one.words}`}>{words}: {one.words} <small>{percent(one.probability)}</small></li>))}
        {here.length === 0 && <li class="soft">Nothing was placed here.</li>}
      </ul>
      <form onSubmit={say}>
        <label>
          Place of{" "}
          <select value={source} onChange={(event) => choose(event.currentTarget.value)}>
            {SOURCES.map(([name, words]) => <option key={name} value={name}>{words}</option>)}
          </select>
        </label>
        <label>
          <span class="unseen">from left to right</span>
          <input name="place" type="range" min={-1} max={1} step={0.05} value={place} aria-valuetext={placeWords(place)} onInput={(event) => setMoved(Number(event.currentTarget.value))} />
          <output>{placeWords(place)}</output>
        </label>{" "}
        <button type="submit">Say so</button>
      </form>
    </Part>
  );
}

/** Each place of a source once, with how sure the surest sound there is. */
function placesOf(events: readonly { source: string; placement: number; probability: number }[], source: string) {
  const places = new Map<string, number>();
  for (const event of events) {
    if (event.source !== source) continue;
    const words = placeWords(event.placement);
    places.set(words, Math.max(places.get(words) ?? 0, event.probability));
  }
  return [...places].map(([words, probability]) => ({ words, probability }));
}

/** What comes back in the span: a delay, the line sung again, or a second take. */
export function EchoSay({ state }: { state: SongState }) {
  const here = overlapping(state.page.value.echoes?.echoes ?? [], state.span);
  const { startSeconds, endSeconds } = state.span;
  const [first] = here;
  const say = (event: Event) => {
    event.preventDefault();
    const form = new FormData(event.currentTarget as HTMLFormElement);
    void state.say({ kind: "EchoOver", span: [startSeconds, endSeconds], echo: String(form.get("echo")), lagSeconds: Number(form.get("lag")) / 1000 });
  };
  return (
    <Part state={state} task="echo" title="Echoes">
      <ul class="candidates">
        {here.map((echo) => (
          <li key={`${echo.startSeconds}${echo.kind}`}>
            {ECHOES.find(([kind]) => kind === echo.kind)?.[1] ?? echo.kind}, {Math.round(1000 * echo.lagSeconds)} ms
            {echo.noteValue && ` (${echo.noteValue})`} <small>{percent(echo.probability)}</small>{" "}
            <button type="button" onClick={() => void state.say({ kind: "NoEchoOver", span: [echo.startSeconds, echo.endSeconds] })}>Nothing comes back</button>
          </li>
        ))}
        {here.length === 0 && <li class="soft">Nothing was heard to come back here.</li>}
      </ul>
      <form key={`${startSeconds} ${first?.kind} ${first?.lagSeconds}`} onSubmit={say}>
        <label>
          Here it is{" "}
          <select name="echo" defaultValue={first?.kind ?? ECHOES[0][0]}>
            {ECHOES.map(([kind, words]) => <option key={kind} value={kind}>{words}</option>)}
          </select>
        </label>{" "}
        <label>after <input name="lag" type="number" min={1} max={5000} step={1} required defaultValue={first ? String(Math.round(1000 * first.lagSeconds)) : ""} /> ms</label>{" "}
        <button type="submit">Say so</button>
      </form>
    </Part>
  );
}

/** The room of the section that sounds here: how long it takes to fall, how wet it is, and whether that is new. */
export function RoomSay({ state }: { state: SongState }) {
  const page = state.page.value;
  const { startSeconds, endSeconds } = state.span;
  const room = roomAt(page, state.span);
  const section = page.sections.find((one) => room && room.startSeconds < one.endSeconds - 0.03 && room.endSeconds > one.startSeconds + 0.03);
  const say = (decaySeconds: number, wetToDryDb: number) => void state.say({ kind: "RoomOver", span: [startSeconds, endSeconds], decaySeconds, wetToDryDb });
  const submit = (event: Event) => {
    event.preventDefault();
    const form = new FormData(event.currentTarget as HTMLFormElement);
    say(Number(form.get("decay")), Number(form.get("level")));
  };
  return (
    <Part state={state} task="room" title="Room">
      <ul class="candidates">
        {room && (
          <li>
            {section && `${section.name}: `}
            {[roomChange(room), roomLevel(room), roomDecay(room, page.bands)].filter(Boolean).join(", ")} <small>{percent(room.probability)}</small>
          </li>
        )}
        {!room && <li class="soft">No room was heard here.</li>}
      </ul>
      <form key={`${startSeconds} ${room?.wetToDryDb} ${room?.meanDecaySeconds}`} onSubmit={submit}>
        <label>It falls by 60 dB in <input name="decay" type="number" min={0.1} max={30} step={0.1} required defaultValue={room?.meanDecaySeconds ? room.meanDecaySeconds.toFixed(1) : ""} /> s</label>{" "}
        <label>at <input name="level" type="number" min={-60} max={20} step={1} required defaultValue={room ? String(Math.round(room.wetToDryDb)) : ""} /> dB against the direct sound</label>{" "}
        <button type="submit">Say so</button>{" "}
        <button type="button" class="plain" onClick={() => say(0, -60)}>Dry here</button>
      </form>
    </Part>
  );
}
