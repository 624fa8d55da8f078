import type { Room } from "../api/production";
import type { SongPage } from "../api/types";

/** Below this what is reverberant is hardly noticed. */
const DRY_DB = -27;
/** Differences of decay between bands that are worth naming. */
const APART = 1.25;

/** The room that sounds in the middle of a span. */
export function roomAt(page: SongPage, { startSeconds, endSeconds }: { startSeconds: number; endSeconds: number }): Room | undefined {
  const middle = (startSeconds + endSeconds) / 2;
  return page.echoes?.reverbs.find((room) => middle >= room.startSeconds && middle < room.endSeconds);
}

/** "wetter by 6 dB"; nothing where no change is told. */
export function roomChange(room: Room | undefined): string {
  if (!room || room.changeDb === 0) return "";
  return `${room.changeDb > 0 ? "wetter" : "drier"} by ${Math.abs(Math.round(room.changeDb))} dB`;
}

/** "falls in 1.4 s (low 1.7, high middle 0.9)"; bands are named where they are apart. */
export function roomDecay(room: Room, bands: SongPage["bands"]): string {
  if (room.meanDecaySeconds === 0) return "";
  const told = room.decaySeconds.map((seconds, band) => ({ seconds, name: bands?.[band]?.name })).filter(({ seconds, name }) => seconds > 0 && name);
  const apart = told.filter(({ seconds }) => Math.max(seconds / room.meanDecaySeconds, room.meanDecaySeconds / seconds) >= APART);
  const named = apart.length > 0 ? ` (${apart.map(({ seconds, name }) => `${name} ${seconds.toFixed(1)}`).join(", ")})` : "";
  return `falls in ${room.meanDecaySeconds.toFixed(1)} s${named}`;
}

/** "12 dB under the direct sound". */
export function roomLevel({ wetToDryDb }: Room): string {
  const whole = Math.round(wetToDryDb);
  if (whole <= DRY_DB) return "dry";
  return whole === 0 ? "as loud as the direct sound" : `${Math.abs(whole)} dB ${whole < 0 ? "under" : "above"} the direct sound`;
}
