import { signal } from "@preact/signals";
import { desk } from "../api/calls";
import type { Speaker } from "../api/types";

/** Who speaks at this desk, as the desk remembers it. */
export const speaker = signal<Speaker>({ name: "listener", given: false, shared: false });

export async function loadSpeaker(): Promise<void> {
  speaker.value = await desk.speaker();
}

export async function speakAs(name: string): Promise<void> {
  speaker.value = await desk.speakAs(name);
}

/** Whose word it is: everybody's name where several share the shelf; alone, one's own goes without saying. */
export function byWhom(author: string): string {
  const { name, shared } = speaker.value;
  return shared || author !== name ? ` (${author})` : "";
}
