import type { Signal } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import { pageSettings } from "../settings/settings";
import { BINDINGS } from "./map";

/** The list of keys. */
export function KeyHelp({ help }: { help: Signal<boolean> }) {
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    if (help.value) dialog.current?.showModal();
    else dialog.current?.close();
  }, [help.value]);
  const hand = pageSettings.value.hand ?? "left";
  return (
    <dialog ref={dialog} class="key-help" aria-labelledby="keys-title" onClose={() => (help.value = false)}>
      <h2 id="keys-title">Keys</h2>
      <div class="key-groups">
        {(["Hearing", "Moving", "Saying", "Page"] as const).map((group) => (
          <table key={group}>
            <caption>{group}</caption>
            <tbody>
              {BINDINGS.filter((binding) => binding.group === group).map((binding) => (
                <tr key={binding.deed}><th scope="row"><kbd>{printed(binding[hand])}</kbd></th><td>{binding.words}</td></tr>
              ))}
            </tbody>
          </table>
        ))}
      </div>
      <p class="soft">Letters lie under the {hand} hand; Settings changes that.</p>
      <form method="dialog"><button>Close</button></form>
    </dialog>
  );
}

const SIGNS: Record<string, string> = { ArrowLeft: "←", ArrowRight: "→", ArrowUp: "↑", ArrowDown: "↓", Escape: "Esc" };

function printed(key: string): string {
  return key.split("+").map((part) => SIGNS[part] ?? (part.length === 1 ? part.toUpperCase() : part)).join(" ");
}
