import { signal } from "@preact/signals";
import { desk } from "../api/calls";
import type { SongEntry, Work } from "../api/types";

export const songs = signal<SongEntry[] | null>(null);
export const query = signal("");
export const work = signal<Work[]>([]);
export const shelfTrouble = signal<string | null>(null);

let asked = 0;

export async function loadShelf(): Promise<void> {
  const mine = ++asked;
  try {
    const [list, queue] = await Promise.all([desk.songs(query.value.trim()), desk.work()]);
    // A slower answer to an earlier question does not undo a later one.
    if (mine !== asked) return;
    songs.value = list;
    work.value = together(work.value, queue);
    shelfTrouble.value = null;
  } catch (trouble) {
    shelfTrouble.value = (trouble as Error).message;
  }
}

export function shelfChanged(): void {
  if (songs.value) void loadShelf();
}

const ENDED: readonly Work["state"][] = ["done", "failed", "cancelled"];

/** The queue as answered, but for what an event told meanwhile: an end is the last that is told of an item. */
export function together(known: readonly Work[], answered: readonly Work[]): Work[] {
  return answered.map((item) => known.find((one) => one.id === item.id && ENDED.includes(one.state)) ?? item);
}

/** Keeps the queue in step; an item that is done also brings its song onto the list. */
export function workChanged(item: Work): void {
  const others = work.value.filter((known) => known.id !== item.id);
  work.value = [...others, item].sort((a, b) => a.id - b.id);
  if (item.state === "done") shelfChanged();
}

export async function bringIn(files: Iterable<File>): Promise<void> {
  for (const file of files) {
    try {
      workChanged(await desk.bringIn(file));
    } catch (trouble) {
      shelfTrouble.value = `${file.name}: ${(trouble as Error).message}`;
    }
  }
}

export async function endWork(id: number): Promise<void> {
  await desk.endWork(id);
  work.value = together(work.value, await desk.work());
}
