import { useState } from "preact/hooks";
import type { Work } from "../api/types";
import { songAddress } from "../route";
import { bringIn, endWork, work } from "./state";

const WORDS: Record<Work["state"], string> = {
  waiting: "waits", working: "is being studied", done: "done", failed: "could not be studied", cancelled: "cancelled",
};

/** Where recordings are dropped or picked, and how far each has come. */
export function BringIn() {
  const [over, setOver] = useState(false);
  const drop = (event: DragEvent) => {
    event.preventDefault();
    setOver(false);
    void bringIn(event.dataTransfer?.files ?? []);
  };
  return (
    <section class={`bring-in${over ? " over" : ""}`} aria-label="Bring in recordings"
             onDragOver={(event) => { event.preventDefault(); setOver(true); }} onDragLeave={() => setOver(false)} onDrop={drop}>
      <label class="button">
        Bring in recordings
        <input type="file" multiple accept="audio/*,video/*" class="unseen"
               onChange={(event) => { void bringIn([...(event.currentTarget.files ?? [])]); event.currentTarget.value = ""; }} />
      </label>
      <p class="soft">
        Pick files or drop them here: WAV, FLAC, MP3, M4A, OGG, Opus, or the sound of a video. Bring in what you own; everything
        stays on this machine.
      </p>
      {work.value.length > 0 && <ul class="queue">{work.value.map((item) => <QueueItem key={item.id} item={item} />)}</ul>}
    </section>
  );
}

function QueueItem({ item }: { item: Work }) {
  const runs = item.state === "waiting" || item.state === "working";
  return (
    <li>
      <span class="name">{item.name}</span>{" "}
      {item.song && item.state === "done" ? <a href={songAddress(item.song)}>open</a> : <span>{WORDS[item.state]}</span>}
      {item.state === "working" && (
        <>
          {" "}<span class="soft">{item.stage}</span>{" "}
          <progress max={1} value={item.share ?? 0} aria-label={`${item.name}: ${item.stage ?? "begins"}`} />
        </>
      )}
      {item.error && <span class="trouble"> {item.error}</span>}{" "}
      <button type="button" class="plain" onClick={() => void endWork(item.id)}>{runs ? "Cancel" : "Clear"}</button>
    </li>
  );
}
