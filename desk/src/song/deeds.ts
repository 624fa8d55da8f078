import type { Deed } from "../keys/map";
import { barAt } from "../time/grid";
import { neighbour } from "../stack/neighbour";
import type { SongState } from "./state";

export const SLOWEST = 0.4;
export const FASTEST = 1.5;
const FURTHEST_SEMITONES = 12;

/** What each key does; the same deeds stand on the page as buttons. */
export function act(state: SongState, deed: Deed): void {
  const { player } = state;
  switch (deed) {
    case "play": return playOrPause(state);
    case "back": return state.goTo(state.cursor.value - 1);
    case "forth": return state.goTo(state.cursor.value + 1);
    case "up": return state.goTo(neighbour(state.page.value, state.order.value, state.cursor.value, -1));
    case "down": return state.goTo(neighbour(state.page.value, state.order.value, state.cursor.value, 1));
    case "extend-back": return state.goTo(state.cursor.value - 1, true);
    case "extend-forth": return state.goTo(state.cursor.value + 1, true);
    case "loop": return loop(state);
    case "slower": return speed(state, player.rate.value - 0.05);
    case "faster": return speed(state, player.rate.value + 0.05);
    case "full-speed": return player.speed(1, 0);
    case "lower": return transpose(state, player.semitones.value - 1);
    case "higher": return transpose(state, player.semitones.value + 1);
    case "click": return state.listening.toggleClick();
    case "count-in": return void (state.listening.countsIn.value = !state.listening.countsIn.value);
    case "tones": return state.listening.nextBalance();
    case "focus": return state.listening.nextFocus();
    case "mark-span": return state.listening.markSpan();
    case "switch-span": return state.listening.switchSpan();
    case "close-up": return void (state.closeUp.value = true);
    case "remark": return state.begin("remark");
    case "say-chord": return state.begin("chord");
    case "say-bass": return state.begin("bass");
    case "say-key": return state.begin("key");
    case "say-section": return state.begin("section");
    case "undo": return void state.undo();
    case "redo": return void state.redo();
    case "veil": return veil(state);
    case "leave": return leave(state);
    case "help": return;
  }
}

export function playOrPause(state: SongState): void {
  const { player } = state;
  if (player.playing.value) {
    player.pause();
    return;
  }
  const now = player.nowSeconds();
  if (now >= state.page.value.song.durationSeconds - 0.05) player.seek(0);
  void player.play(state.listening.countIn(player.nowSeconds()));
}

export function loop(state: SongState): void {
  const { player } = state;
  // A focus or guest was made for its loop alone.
  const guest = state.listening.guest.value !== null;
  state.listening.plainly();
  if (guest) return;
  if (player.loop.value) {
    player.loopOver(null);
    return;
  }
  // A bar that loops by itself would tell the listener's ear first where bars lie.
  if (state.veiled.value && !state.selection.value) return;
  player.loopOver(state.span);
  state.listening.warnOnce();
}

export function speed(state: SongState, rate: number): void {
  const rounded = Math.round(rate * 100) / 100;
  state.player.speed(Math.min(FASTEST, Math.max(SLOWEST, rounded)), state.player.semitones.value);
}

export function transpose(state: SongState, semitones: number): void {
  const within = Math.min(FURTHEST_SEMITONES, Math.max(-FURTHEST_SEMITONES, Math.round(semitones)));
  state.player.speed(state.player.rate.value, within);
}

/** Plays on from a moment. */
export function hearIt(state: SongState, startSeconds: number): void {
  state.listening.plainly();
  state.player.loopOver(null);
  state.player.seek(startSeconds);
  state.cursor.value = barAt(state.bars.value, startSeconds + 0.02);
  void state.player.play();
}

/** Chooses a span and plays it from its start; loop keeps it going round. */
export function hearSpan(state: SongState, { startSeconds, endSeconds }: { startSeconds: number; endSeconds: number }): void {
  hearIt(state, startSeconds);
  state.selection.value = { startSeconds, endSeconds };
}

/** Hides the reading, and what would sound of it; or shows it. */
export function veil(state: SongState): void {
  const { listening } = state;
  state.veiled.value = !state.veiled.value;
  if (!state.veiled.value) return;
  state.closeUp.value = false;
  state.task.value = null;
  state.aftermath.value = null;
  if (listening.clicks.value) listening.toggleClick();
  listening.countsIn.value = false;
  listening.setBalance(0);
}

function leave(state: SongState): void {
  if (state.task.value) state.task.value = null;
  else if (state.aftermath.value) state.aftermath.value = null;
  else if (state.closeUp.value) state.closeUp.value = false;
  else state.selection.value = null;
  (document.activeElement as HTMLElement | null)?.blur();
}
