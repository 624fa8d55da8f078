import { useEffect, useRef, useState } from "preact/hooks";
import type { SongPage } from "../api/types";
import { eachFrame } from "../song/ticker";
import type { SongState } from "../song/state";
import { barAt } from "../time/grid";
import { clock } from "../time/words";
import { loudnessPath, markEvery } from "./curve";

const HEIGHT = 84;
const CURVE_TOP = 22;
const CURVE_BOTTOM = 62;

/** The whole song on one line. A press goes there, a drag chooses a span. */
export function Strip({ state }: { state: SongState }) {
  const box = useRef<HTMLDivElement>(null);
  const head = useRef<HTMLDivElement>(null);
  const [width, setWidth] = useState(0);
  const page = state.page.value;
  const duration = page.song.durationSeconds;
  useEffect(() => {
    const watch = new ResizeObserver(([entry]) => setWidth(entry.contentRect.width));
    watch.observe(box.current!);
    return () => watch.disconnect();
  }, []);
  useEffect(() => eachFrame(() => {
    if (!head.current || width === 0) return;
    const now = state.player.nowSeconds();
    head.current.style.transform = `translateX(${(now / duration) * width}px)`;
    const shown = clock(now);
    if (head.current.dataset.at !== shown) {
      head.current.dataset.at = shown;
      box.current!.setAttribute("aria-valuetext", shown);
      box.current!.setAttribute("aria-valuenow", String(Math.round(now)));
    }
  }), [state, width, duration]);
  const x = (seconds: number) => (seconds / duration) * width;
  const selection = state.selection.value;
  return (
    <div ref={box} class="strip" role="slider" tabIndex={0} aria-label="Place in the song" aria-valuemin={0} aria-valuemax={Math.round(duration)}
         aria-valuenow={0} aria-valuetext="0:00" onPointerDown={(event) => grip(event, state, box.current!)}
         onKeyDown={(event) => step(event, state)}>
      {width > 0 && (
        <svg width={width} height={HEIGHT} aria-hidden="true">
          {selection && <rect class="chosen" x={x(selection.startSeconds)} width={x(selection.endSeconds - selection.startSeconds)} y={0} height={HEIGHT} />}
          {!state.veiled.value && <path class="loudness" d={loudnessPath(page.bars, x, CURVE_BOTTOM, CURVE_BOTTOM - CURVE_TOP)} />}
          {!state.veiled.value && page.sections.map((section) => (
            <g key={section.startSeconds} class="bracket">
              <path d={`M${x(section.startSeconds) + 1} 20v-5H${x(section.endSeconds) - 1}v5`} />
              {x(section.endSeconds) - x(section.startSeconds) > 7 * section.name.length
                ? <text x={x(section.startSeconds) + 3} y={11}>{section.name}</text>
                : <text x={x(section.startSeconds) + 3} y={11}>{section.letter}</text>}
            </g>
          ))}
          {!state.veiled.value && (page.findings ?? []).flatMap((group) => group.occurrences.map((found) => (
            <line key={`${group.technique} ${found.startSeconds}`} class="finding-mark" x1={x(found.startSeconds)} x2={x(found.startSeconds)} y1={CURVE_BOTTOM - 9} y2={CURVE_BOTTOM} />
          )))}
          {!state.veiled.value && climaxes(page).map((seconds) => (
            <path key={seconds} class="climax-mark" d={`M${x(seconds)} ${CURVE_TOP - 2}l5 8h-10z`}><title>The peak of the song</title></path>
          ))}
          <Ruler duration={duration} width={width} />
          {(page.remarks ?? []).map((remark) => <path key={remark.id} class="remark-mark" d={`M${x(remark.startSeconds)} ${HEIGHT - 22}l-5 -9h10z`} />)}
        </svg>
      )}
      <div ref={head} class="playhead" style={{ height: `${HEIGHT - 16}px` }} aria-hidden="true" />
    </div>
  );
}

/** Where findings place the peak of the song. */
function climaxes(page: SongPage): number[] {
  return (page.findings ?? []).filter((group) => group.technique.startsWith("climax")).flatMap((group) => group.occurrences.map((found) => found.startSeconds));
}

function Ruler({ duration, width }: { duration: number; width: number }) {
  const every = markEvery(duration, width);
  return (
    <g class="ruler">
      <line x1={0} x2={width} y1={CURVE_BOTTOM} y2={CURVE_BOTTOM} />
      {Array.from({ length: Math.floor(duration / every) + 1 }, (_, i) => {
        const x = ((i * every) / duration) * width;
        return <g key={i}><line x1={x} x2={x} y1={CURVE_BOTTOM} y2={CURVE_BOTTOM + 5} /><text x={Math.min(x + 2, width - 2)} y={HEIGHT - 6} text-anchor={x + 34 > width ? "end" : "start"}>{clock(i * every)}</text></g>;
      })}
    </g>
  );
}

const NUDGE_SECONDS = 5;

function step(event: KeyboardEvent, state: SongState): void {
  const by: Record<string, number> = { ArrowLeft: -NUDGE_SECONDS, ArrowRight: NUDGE_SECONDS, ArrowDown: -NUDGE_SECONDS, ArrowUp: NUDGE_SECONDS };
  const to = event.key in by ? state.player.nowSeconds() + by[event.key] : event.key === "Home" ? 0 : null;
  if (to === null) return;
  event.preventDefault();
  event.stopPropagation();
  goTo(state, to);
}

function goTo(state: SongState, seconds: number): void {
  state.player.seek(Math.min(state.page.value.song.durationSeconds, Math.max(0, seconds)));
  state.cursor.value = barAt(state.bars.value, seconds);
}

const DRAG_PIXELS = 4;

function grip(event: PointerEvent, state: SongState, box: HTMLElement): void {
  if (event.button !== 0) return;
  const { left, width } = box.getBoundingClientRect();
  const duration = state.page.value.song.durationSeconds;
  const at = (moved: PointerEvent) => (Math.min(width, Math.max(0, moved.clientX - left)) / width) * duration;
  const from = at(event);
  let dragged = false;
  const move = (moved: PointerEvent) => {
    if (!dragged && Math.abs(moved.clientX - event.clientX) < DRAG_PIXELS) return;
    dragged = true;
    const to = at(moved);
    state.selection.value = { startSeconds: Math.min(from, to), endSeconds: Math.max(from, to) + 0.05 };
  };
  const done = () => {
    removeEventListener("pointermove", move);
    removeEventListener("pointerup", done);
    removeEventListener("pointercancel", done);
    if (!dragged) goTo(state, from);
  };
  addEventListener("pointermove", move);
  addEventListener("pointerup", done);
  addEventListener("pointercancel", done);
}
