import { useEffect, useMemo, useRef, useState } from "preact/hooks";
import type { SongPage } from "../api/types";
import { memo } from "../memo";
import { pageSettings, setPage } from "../settings/settings";
import { eachFrame } from "../song/ticker";
import type { SongState } from "../song/state";
import { barAt } from "../time/grid";
import { clock, sureness } from "../time/words";
import { geometry, placeOf, seen, type Geometry, type PlacedLine, type PlacedSystem } from "./geometry";
import { changeWords, listed } from "./changes";
import { Differences } from "./Differences";
import { LineView } from "./LineView";
import { roomAt, roomChange } from "./room";
import { repeatOf } from "./sameness";
import { barWords } from "./words";

/** The stack: rows of bars, copies of the same music under each other. Only what can be seen is drawn. */
export function Stack({ state }: { state: SongState }) {
  const box = useRef<HTMLDivElement>(null);
  const width = useWidth(box);
  const unit = pageSettings.value.textSize ?? 1;
  const page = state.music.value;
  const { space } = state.page.value;
  const order = state.order.value;
  const shape = useMemo(() => geometry(page, order, width, unit), [page, order, width, unit]);
  const [top, bottom] = useView(box);
  const scrolled = useRef(state.cursor.value);
  useEffect(() => {
    if (scrolled.current === state.cursor.value) return;
    scrolled.current = state.cursor.value;
    bringIntoView(box.current!, shape, state);
  }, [state.cursor.value, shape]);
  return (
    <>
      <Tools state={state} />
      <Differences state={state} />
      <div ref={box} class="stack" role="grid" aria-label="The stack, bar by bar" aria-rowcount={shape.byTime.length}
           style={{ height: `${shape.height}px` }}>
        {width > 0 && seen(shape, top, bottom).map((system) => (
          <SystemView key={system.key} state={state} page={page} space={space} system={system} unit={unit} namesAbove={shape.namesAbove} />
        ))}
        <Playhead state={state} shape={shape} unit={unit} />
      </div>
    </>
  );
}

function Tools({ state }: { state: SongState }) {
  const turn = (order: "music" | "time") => {
    state.order.value = order;
    void setPage({ order });
  };
  return (
    <div class="stack-tools">
      <label>
        Rows{" "}
        <select value={state.order.value} onChange={(event) => turn(event.currentTarget.value as "music" | "time")}>
          <option value="music">with copies under each other</option>
          <option value="time">in the order they are heard</option>
        </select>
      </label>
      <button type="button" class="plain" onClick={() => (state.asTable.value = true)}>Read it as a table</button>
    </div>
  );
}

interface SystemProps {
  state: SongState;
  page: SongPage;
  space: SongPage["space"];
  system: PlacedSystem;
  unit: number;
  namesAbove: boolean;
}

/** Drawn once and then left alone while the reader scrolls; its cells follow the cursor by themselves. */
const SystemView = memo(function SystemView({ state, page, space, system, unit, namesAbove }: SystemProps) {
  return (
    <div class="system" role="rowgroup" style={{ transform: `translateY(${system.y}px)`, height: `${system.height}px` }}>
      {system.lines.map((placed) => (
        <div key={placed.line.row.index} class="row" role="row" style={{ transform: `translateY(${placed.y - system.y}px)`, height: `${placed.height}px` }}>
          <RowName state={state} page={page} placed={placed} namesAbove={namesAbove} />
          <div class="bars" style={{ left: `${placed.x}px`, top: namesAbove ? `${20 * unit}px` : "0" }}>
            <LineView page={page} space={space} placed={placed} system={system} unit={unit} />
            <Cells state={state} page={page} placed={placed} unit={unit} />
          </div>
        </div>
      ))}
    </div>
  );
});

function RowName({ state, page, placed, namesAbove }: { state: SongState; page: SongPage; placed: PlacedLine; namesAbove: boolean }) {
  const { line } = placed;
  const { section } = line.row;
  const lifted = line.row.above ? section.transposedSemitones - line.row.above.section.transposedSemitones : 0;
  const first = line.from === 0;
  const repeat = first ? repeatOf(page, line.row) : undefined;
  const room = first ? roomChange(roomAt(page, section)) : "";
  const different = repeat ? listed(repeat).length : 0;
  const differ = `${different} ${different === 1 ? "bar differs" : "bars differ"}`;
  return (
    <div class={`row-name${line.copy > 0 ? " copy" : ""}${namesAbove ? " above" : ""}`} role="rowheader">
      {first ? <strong>{section.name}</strong> : <span>{section.name}<span class="unseen">, continued</span></span>}
      {first && <span> {clock(section.startSeconds)}</span>}
      {first && section.probability < 0.5 && <small> {sureness(section.probability)}</small>}
      {first && lifted !== 0 && <small> {Math.abs(lifted)} {Math.abs(lifted) === 1 ? "semitone" : "semitones"} {lifted > 0 ? "higher" : "lower"}</small>}
      {room && <small> {room}</small>}
      {different > 0 && (
        <button type="button" class="plain" aria-label={`${section.name}: ${differ} from before; list them`} onClick={() => (state.compared.value = repeat!)}>{differ}</button>
      )}
    </div>
  );
}

/** What can be pointed at and stepped through: one cell a bar, above the drawing. */
function Cells({ state, page, placed, unit }: { state: SongState; page: SongPage; placed: PlacedLine; unit: number }) {
  const { line, scale } = placed;
  const bars = line.row.bars.slice(line.from, line.to);
  const selection = state.selection.value;
  const repeat = repeatOf(page, line.row);
  return (
    <>
      {bars.map((bar, i) => {
        const index = barAt(state.bars.value, bar.startSeconds);
        const current = index === state.cursor.value;
        const chosen = selection !== null && bar.startSeconds >= selection.startSeconds - 0.01 && bar.endSeconds <= selection.endSeconds + 0.01;
        return (
          <div key={bar.number} role="gridcell" class={`cell${chosen ? " chosen" : ""}${current ? " current" : ""}`} data-bar={index}
               tabIndex={current ? 0 : -1} aria-selected={chosen} aria-label={barWords(page, bar, line.row.section.name, repeat && changeWords(repeat, bar.number).full)}
               style={{ left: `${scale.left + i * scale.barWidth}px`, width: `${scale.barWidth}px`, height: `${placed.layout.height * unit - 4}px` }}
               onPointerDown={(event) => grip(event, state, index)}
               onDblClick={() => (state.closeUp.value = true)}
               onFocus={() => { if (!current) state.cursor.value = index; }} />
        );
      })}
    </>
  );
}

/** A press goes to the bar; a drag chooses bars; a press on the chosen leaves them. */
function grip(event: PointerEvent, state: SongState, from: number): void {
  if (event.button !== 0) return;
  const cell = event.currentTarget as HTMLElement;
  cell.releasePointerCapture?.(event.pointerId);
  let dragged = false;
  const over = (moved: PointerEvent) => {
    const bar = (document.elementFromPoint(moved.clientX, moved.clientY) as HTMLElement | null)?.dataset?.bar;
    if (bar === undefined || (!dragged && Number(bar) === from)) return;
    dragged = true;
    state.selectBars(from, Number(bar));
  };
  const done = () => {
    removeEventListener("pointermove", over);
    removeEventListener("pointerup", done);
    removeEventListener("pointercancel", done);
    state.cursor.value = from;
    if (dragged) return;
    if (event.shiftKey) return;
    state.selection.value = null;
    state.player.seek(state.bars.value[from].startSeconds);
  };
  if (event.shiftKey) {
    event.preventDefault();
    state.selectBars(state.cursor.value, from);
  }
  addEventListener("pointermove", over);
  addEventListener("pointerup", done);
  addEventListener("pointercancel", done);
}

/** From the bar numbers down to the words of the bass. */
const PLAYHEAD_HEIGHT = 122;

function Playhead({ state, shape, unit }: { state: SongState; shape: Geometry; unit: number }) {
  const mark = useRef<HTMLDivElement>(null);
  useEffect(() => eachFrame(() => {
    const place = placeOf(shape, state.player.nowSeconds());
    if (!mark.current || !place) return;
    const y = place.line.y + (shape.namesAbove ? 20 * unit : 0);
    mark.current.style.transform = `translate(${place.x}px, ${y}px)`;
    mark.current.style.height = `${(PLAYHEAD_HEIGHT + place.line.layout.lift) * unit}px`;
  }), [shape, state]);
  return <div ref={mark} class="playhead" aria-hidden="true" />;
}

function useWidth(box: { current: HTMLElement | null }): number {
  const [width, setWidth] = useState(0);
  useEffect(() => {
    const watch = new ResizeObserver(([entry]) => setWidth(Math.floor(entry.contentRect.width)));
    watch.observe(box.current!);
    return () => watch.disconnect();
  }, []);
  return width;
}

/** A line or so: what comes into view at once is little enough to be drawn between two frames. */
const STEP_PIXELS = 150;

/** The heights of the stack that can be seen, and some lines more on both sides; changes in steps, not at every pixel. */
function useView(box: { current: HTMLElement | null }): [number, number] {
  const [view, setView] = useState<[number, number]>([0, 2000]);
  useEffect(() => {
    const look = () => {
      const step = STEP_PIXELS;
      const above = -box.current!.getBoundingClientRect().top;
      const top = Math.floor(above / step) * step - 3 * step;
      const bottom = top + 7 * step + Math.ceil(innerHeight / step) * step;
      setView((was) => (was[0] === top && was[1] === bottom ? was : [top, bottom]));
    };
    look();
    addEventListener("scroll", look, { passive: true });
    addEventListener("resize", look);
    return () => {
      removeEventListener("scroll", look);
      removeEventListener("resize", look);
    };
  }, []);
  return view;
}

function bringIntoView(box: HTMLElement, shape: Geometry, state: SongState): void {
  const place = placeOf(shape, state.bar.startSeconds + 0.01);
  if (!place) return;
  const top = box.getBoundingClientRect().top + place.line.y;
  const foot = document.querySelector<HTMLElement>(".foot")?.offsetHeight ?? 0;
  if (top < 0) scrollBy({ top: top - 20 });
  else if (top + place.line.height > innerHeight - foot) scrollBy({ top: top + place.line.height - innerHeight + foot + 20 });
  const focused = document.activeElement;
  if (focused instanceof HTMLElement && (focused === document.body || focused.classList.contains("cell"))) {
    requestAnimationFrame(() => box.querySelector<HTMLElement>(".cell.current")?.focus({ preventScroll: true }));
  }
}
