import { signal, type Signal } from "@preact/signals";
import { useEffect, useMemo } from "preact/hooks";
import { act } from "../song/deeds";
import type { SongState } from "../song/state";
import { pageSettings } from "../settings/settings";
import { allowed, deedOf, keyName } from "./map";

/** Lets keys act on the song page, unless something is being typed; returns whether the list of keys is shown. */
export function useKeys(state: SongState): Signal<boolean> {
  const help = useMemo(() => signal(false), []);
  useEffect(() => {
    const pressed = (event: KeyboardEvent) => {
      const name = keyName(event);
      const deed = name && deedOf(name, pageSettings.value.hand ?? "left");
      if (!deed || !allowed(deed, state.veiled.value) || help.value || state.compared.value || belongsElsewhere(event, deed === "leave")) return;
      event.preventDefault();
      if (deed === "help") help.value = true;
      else act(state, deed);
    };
    addEventListener("keydown", pressed);
    return () => removeEventListener("keydown", pressed);
  }, [state]);
  return help;
}

/** Keys typed into fields are text; Space and Enter on a button or link press it. */
function belongsElsewhere(event: KeyboardEvent, leave: boolean): boolean {
  const at = event.target as HTMLElement;
  if (event.defaultPrevented) return true;
  if (at.closest("input:not([type=range]):not([type=checkbox]), textarea, select")) return !leave;
  if (at.closest("input[type=range]") && event.key.startsWith("Arrow")) return true;
  return (event.key === " " || event.key === "Enter") && at.closest("button, a, summary, input, label") !== null;
}
