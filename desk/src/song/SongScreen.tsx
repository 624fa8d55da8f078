import { useEffect, useMemo, useState } from "preact/hooks";
import { desk } from "../api/calls";
import type { Origin } from "../api/types";
import { CloseListening } from "../close/CloseListening";
import { Aftermath } from "../close/Aftermath";
import { Margin } from "../findings/Margin";
import { EarFirst } from "../hearing/EarFirst";
import { KeyHelp } from "../keys/KeyHelp";
import { useKeys } from "../keys/useKeys";
import { Strip } from "../overview/Strip";
import { loadSettings, settings } from "../settings/settings";
import { Stack } from "../stack/Stack";
import { StackTable } from "../stack/StackTable";
import { Facts } from "./Facts";
import { FootBar } from "./FootBar";
import { afterFrame } from "./afterFrame";
import { open, opening } from "./open";
import { SongState } from "./state";
import { Title } from "./Title";

const NO_SOUND: Record<Origin, string> = {
  recording: "",
  chart: "From a published chart: there is no recording to play. Bring one in to hear it.",
  memory: "From memory, unchecked: there is no recording to play. Bring one in to hear it and to check the memory.",
};

const hasSound = (state: SongState) => (state.page.value.song.origin ?? "recording") === "recording";

/** The song page; everything about one recording on one sheet. */
export function SongScreen({ id }: { id: number }) {
  const [trouble, setTrouble] = useState<string | null>(null);
  // Asked for before anything is drawn.
  const rows = useMemo(() => desk.rows(id), [id]);
  useEffect(() => {
    let gone = false;
    void (async () => {
      try {
        const page = await rows;
        if (Object.keys(settings.value).length === 0) await loadSettings();
        if (gone) return;
        const state = new SongState(id, page);
        open.value = state;
        // The rest once the rows can be seen.
        afterFrame(() => { if (!gone) void state.refresh(); });
      } catch (reason) {
        if (!gone) setTrouble((reason as Error).message);
      }
    })();
    return () => {
      gone = true;
      opening.value = null;
      open.value?.close();
      open.value = null;
    };
  }, [id]);
  // How the desk writes music has changed: so has every word on the page.
  const { page: _own, ...trade } = settings.value;
  const key = JSON.stringify(trade);
  useEffect(() => {
    if (open.value) void open.value.refresh();
  }, [key]);
  if (trouble) return <main class="sheet"><p class="trouble" role="alert">{trouble}</p></main>;
  return open.value?.id === id ? <SongSheet state={open.value} /> : <Waiting id={id} />;
}

/** Mostly for a moment; longer where the song must be measured or heard anew, which is told then. */
function Waiting({ id }: { id: number }) {
  const told = opening.value?.song === id ? opening.value : null;
  return (
    <main class="sheet" aria-busy="true">
      <p class="soft">Opening the song</p>
      {told && (
        <p class="opening">
          It was heard by an earlier ear, or what was measured is no longer at hand: it is listened to anew. <span>{told.stage}</span>{" "}
          <progress max={1} value={told.share} aria-label={told.stage} />
        </p>
      )}
    </main>
  );
}

function SongSheet({ state }: { state: SongState }) {
  const help = useKeys(state);
  const veiled = state.veiled.value;
  useEffect(() => {
    document.title = `${state.page.value.song.title} · Undersong`;
  }, [state.page.value.song.title]);
  return (
    <>
      <main class="sheet song" data-revision={state.page.value.revision}>
        <Title state={state} />
        {!veiled && <Facts state={state} />}
        {state.trouble.value && <p class="trouble" role="alert">{state.trouble.value}</p>}
        <Strip state={state} />
        {veiled ? <EarFirst state={state} /> : (
          <div class="spread">
            <section class="music" aria-label="The stack">
              {state.asTable.value ? <StackTable state={state} /> : <Stack state={state} />}
            </section>
            <Margin state={state} />
          </div>
        )}
      </main>
      <footer class="foot">
        {!veiled && <Aftermath state={state} />}
        {!veiled && state.closeUp.value && <CloseListening state={state} />}
        {hasSound(state) ? <FootBar state={state} /> : <p class="foot-bar soft">{NO_SOUND[state.page.value.song.origin]}</p>}
      </footer>
      <KeyHelp help={help} />
    </>
  );
}
