import { useEffect, useRef, useState } from "preact/hooks";
import { desk } from "../api/calls";
import type { Curve, Note, Peaks } from "../api/types";
import { eachFrame } from "../song/ticker";
import type { Selection, SongState } from "../song/state";
import { textWidth } from "../stack/labels";
import { noteWord } from "../stack/words";
import { beatsWithin, closeWindow, outline } from "./window";

const WAVE_TOP = 16;
const WAVE_HEIGHT = 40;
const PICTURE_TOP = 60;
const PICTURE_HEIGHT = 190;
const COLUMNS = 900;

interface Image {
  url: string;
  lowestMidi: number;
  highestMidi: number;
}

interface Seen {
  window: Selection;
  peaks: Peaks;
  image: Image;
}

/** Waveform, time-frequency picture and, over it, what was heard as notes: all on one line of time. */
export function Picture({ state, curve }: { state: SongState; curve: Curve | null }) {
  const box = useRef<HTMLDivElement>(null);
  const head = useRef<HTMLDivElement>(null);
  const [width, setWidth] = useState(0);
  const page = state.page.value;
  const { startSeconds, endSeconds } = closeWindow(state.span, page.song.durationSeconds);
  const seen = useSeen(state, startSeconds, endSeconds);
  useEffect(() => {
    const watch = new ResizeObserver(([entry]) => setWidth(entry.contentRect.width));
    watch.observe(box.current!);
    return () => watch.disconnect();
  }, []);
  const x = (seconds: number) => ((seconds - startSeconds) / (endSeconds - startSeconds)) * width;
  useEffect(() => eachFrame(() => {
    const now = state.player.nowSeconds();
    const within = now >= startSeconds && now <= endSeconds;
    if (!head.current) return;
    head.current.hidden = !within;
    if (within) head.current.style.transform = `translateX(${x(now)}px)`;
  }), [width, startSeconds, endSeconds]);
  const seek = (event: MouseEvent) => {
    const { left } = box.current!.getBoundingClientRect();
    state.player.seek(startSeconds + ((event.clientX - left) / width) * (endSeconds - startSeconds));
  };
  const current = seen && seen.window.startSeconds === startSeconds && seen.window.endSeconds === endSeconds ? seen : null;
  return (
    <div ref={box} class="picture" onClick={seek}>
      {current && <img src={current.image.url} alt="" width={width} height={PICTURE_HEIGHT} />}
      {width > 0 && (
        <svg width={width} height={PICTURE_TOP + PICTURE_HEIGHT} role="img" aria-label="Waveform, time-frequency picture and notes; the table of the stack has the notes in words">
          {beatsWithin(page.beats, page.bars, { startSeconds, endSeconds }).map((beat) => (
            <g key={beat.seconds}>
              <line class={beat.first ? "bar-line" : "beat-line"} x1={x(beat.seconds)} x2={x(beat.seconds)} y1={beat.first ? 0 : 10} y2={PICTURE_TOP + PICTURE_HEIGHT} />
              {beat.bar && <text class="bar-number" x={x(beat.seconds) + 3} y={10}>{beat.bar.number}</text>}
            </g>
          ))}
          <rect class="chosen" x={x(state.span.startSeconds)} width={Math.max(0, x(Math.min(state.span.endSeconds, endSeconds)) - x(state.span.startSeconds))} y={0} height={WAVE_TOP - 2} />
          {current && <path class="wave" d={outline(current.peaks.lowest, current.peaks.highest, width, WAVE_TOP, WAVE_HEIGHT)} />}
          {current && <Notes state={state} curve={curve} image={current.image} x={x} window={current.window} />}
        </svg>
      )}
      <div ref={head} class="playhead" style={{ height: `${PICTURE_TOP + PICTURE_HEIGHT}px` }} aria-hidden="true" />
    </div>
  );
}

interface NotesProps {
  state: SongState;
  curve: Curve | null;
  image: Image;
  x: (seconds: number) => number;
  window: Selection;
}

/** Notes as strokes at their pitch, named; and the lead's pitch as it was sung. */
function Notes({ state, curve, image, x, window }: NotesProps) {
  const page = state.page.value;
  const rows = image.highestMidi - image.lowestMidi;
  const y = (midi: number) => PICTURE_TOP + ((image.highestMidi - midi) / rows) * PICTURE_HEIGHT;
  const visible = (note: Note) => note.endSeconds > window.startSeconds && note.startSeconds < window.endSeconds;
  const strokes = (notes: Note[], kind: string) => notes.filter(visible).map((note, i, shown) => (
    <g key={`${kind}${note.startSeconds}`} class={`heard-note ${kind}${note.open ? " unsure" : ""}`}>
      <line x1={x(note.startSeconds)} x2={Math.max(x(note.startSeconds) + 3, x(note.endSeconds) - 1)} y1={y(note.midi)} y2={y(note.midi)} />
      <text x={x(note.startSeconds) + 1} y={y(note.midi) - 5}>{named(note, (i + 1 < shown.length ? x(shown[i + 1].startSeconds) : Infinity) - x(note.startSeconds))}</text>
    </g>
  ));
  return (
    <>
      {strokes(page.bass, "bass")}
      {strokes(page.melody, "tune")}
      {curve?.stretches.map((stretch) => {
        const points = stretch.midiPitches
          .map((midi, i) => ({ seconds: stretch.startSeconds + i * stretch.stepSeconds, midi }))
          .filter(({ seconds }) => seconds >= window.startSeconds && seconds <= window.endSeconds);
        if (points.length < 2) return null;
        return <polyline key={stretch.startSeconds} class="pitch-curve" points={points.map((p) => `${x(p.seconds).toFixed(1)},${y(p.midi).toFixed(1)}`).join(" ")} />;
      })}
    </>
  );
}

const NAME_SIZE = 11;

/** A note's name as fully as it has room before the next; the staff below has them all. */
function named(note: Note, room: number): string {
  const syllable = note.syllable ? noteWord(note) : "";
  return [`${note.pitch} ${syllable}`, syllable, note.pitch].find((words) => words && textWidth(words, NAME_SIZE) <= room) ?? "";
}

/** Fetches what can be seen of a window; what came for an earlier one is dropped. */
function useSeen(state: SongState, startSeconds: number, endSeconds: number): Seen | null {
  const [seen, setSeen] = useState<Seen | null>(null);
  useEffect(() => {
    // What is no longer wanted is broken off: an answer that nobody reads would keep its connection.
    const stop = new AbortController();
    let url = "";
    void (async () => {
      try {
        const [peaks, response] = await Promise.all([
          desk.peaks(state.id, startSeconds, endSeconds, COLUMNS, stop.signal),
          fetch(desk.picturePath(state.id, startSeconds, endSeconds, COLUMNS), { signal: stop.signal }),
        ]);
        if (!response.ok) throw new Error(`The picture did not come (${response.status}).`);
        const blob = await response.blob();
        const bitmap = await createImageBitmap(blob);
        if (stop.signal.aborted) return;
        const perSemitone = Number(response.headers.get("X-Rows-Per-Semitone") ?? 3);
        const lowestMidi = Number(response.headers.get("X-Lowest-Midi") ?? 24) - 0.5 / perSemitone;
        url = URL.createObjectURL(blob);
        const image = { url, lowestMidi, highestMidi: lowestMidi + bitmap.height / perSemitone };
        bitmap.close();
        if (!stop.signal.aborted) setSeen({ window: { startSeconds, endSeconds }, peaks, image });
      } catch (trouble) {
        if (!stop.signal.aborted) state.trouble.value = (trouble as Error).message;
      }
    })();
    return () => {
      stop.abort();
      if (url) URL.revokeObjectURL(url);
    };
  }, [state, startSeconds, endSeconds]);
  return seen;
}
