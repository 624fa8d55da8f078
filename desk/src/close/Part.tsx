import type { ComponentChildren } from "preact";
import { useEffect, useRef } from "preact/hooks";
import type { SongState, Task } from "../song/state";

/** One thing that can be said of the opened span, folded away until it is wanted. */
export function Part({ state, task, title, children }: { state: SongState; task: Task; title: string; children: ComponentChildren }) {
  const box = useRef<HTMLDetailsElement>(null);
  const wanted = state.task.value === task;
  useEffect(() => {
    if (!wanted || !box.current) return;
    box.current.open = true;
    box.current.querySelector<HTMLElement>("input, select, button")?.focus();
  }, [wanted]);
  return <details ref={box} open={task === "chord"} class="part"><summary>{title}</summary>{children}</details>;
}
