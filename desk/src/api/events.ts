import type { Settings, Speaker, Work } from "./types";

export interface Opening {
  song: number;
  stage: string;
  share: number;
}

/** What the desk tells every open window, so that they stay in step. */
export interface Listener {
  song?(song: number, revision: number): void;
  /** How far a song has come that is measured or heard anew before it can be shown. */
  opening?(opening: Opening): void;
  songs?(): void;
  work?(work: Work): void;
  settings?(settings: Settings): void;
  speaker?(speaker: Speaker): void;
  /** After the line was lost and found again: whatever was missed must be asked for anew. */
  again?(): void;
}

export function listen(listener: Listener): () => void {
  const source = new EventSource("/api/events");
  let opened = false;
  source.onopen = () => {
    if (opened) listener.again?.();
    opened = true;
  };
  const on = <T>(name: string, use: (data: T) => void) =>
    source.addEventListener(name, (event) => use(JSON.parse((event as MessageEvent<string>).data) as T));
  on<{ song: number; revision: number }>("song", ({ song, revision }) => listener.song?.(song, revision));
  on<Opening>("opening", (opening) => listener.opening?.(opening));
  on("songs", () => listener.songs?.());
  on<Work>("work", (work) => listener.work?.(work));
  on<Settings>("settings", (settings) => listener.settings?.(settings));
  on<Speaker>("speaker", (speaker) => listener.speaker?.(speaker));
  return () => source.close();
}
