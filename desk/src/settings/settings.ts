import { computed, effect, signal } from "@preact/signals";
import { desk } from "../api/calls";
import type { PageSettings, Settings } from "../api/types";

/** The settings as the desk remembers them. */
export const settings = signal<Settings>({});

export const pageSettings = computed<PageSettings>(() => settings.value.page ?? {});

export async function loadSettings(): Promise<void> {
  settings.value = await desk.settings();
}

export async function set(change: Settings): Promise<void> {
  settings.value = { ...settings.value, ...change };
  settings.value = await desk.set(change);
}

export const setPage = (change: PageSettings) => set({ page: { ...pageSettings.value, ...change } });

/** Text grows by the root's size, which everything else is measured by. */
effect(() => {
  document.documentElement.style.fontSize = `${Math.round(16 * (pageSettings.value.textSize ?? 1))}px`;
});
