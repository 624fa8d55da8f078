import { signal } from "@preact/signals";
import { desk } from "../api/calls";
import type { Focus } from "../api/types";
import { within } from "../audio/fetcher";
import { RECORDING, TONES } from "../audio/player";
import { framesAt, secondsAt } from "../audio/sound";
import { pageSettings, setPage } from "../settings/settings";
import { barAt, samePlace } from "../time/grid";
import type { Selection, SongState } from "./state";

const CLICK_GAIN = 0.3;

/** What a focus covers while the reading, and with it the sections, is hidden. */
const BLIND_SECONDS = 10;

/** The source that is one side of the recording by itself. */
const FOCUS = "focus";

/** The source that sounds in place of the recording, or over it, for one span. */
const GUEST = "guest";

/** Something the desk made for a span, to be heard in place of the recording or over it. */
export interface Guest {
  /** What it is, as the foot of the page tells. */
  words: string;
  path: string;
  span: Selection;
  /** How much of the recording sounds beside it, 0 to 1. */
  recording: number;
}

export const FOCUSES: readonly [Focus, string][] = [
  ["low-octave-up", "bass, an octave up"], ["middle", "middle"], ["sides", "sides"], ["left", "left"], ["right", "right"],
  ["held", "held sounds"], ["struck", "struck sounds"],
];

/** How the listener listens: click and count-in, the balance with plain tones, two spans to switch between. */
export class Listening {
  readonly clicks = signal(false);
  readonly countsIn = signal(false);
  /** 0 the recording alone, 1 the plain tones alone. */
  readonly balance = signal(0);
  /** The side that is listened to, over the span that loops; null for the recording as it is. */
  readonly focus = signal<Focus | null>(null);
  readonly guest = signal<Guest | null>(null);
  readonly spans = signal<[Selection | null, Selection | null]>([null, null]);
  /** Which of the two spans sounds. */
  readonly heardSpan = signal<0 | 1>(0);
  readonly caution = signal(false);

  constructor(private readonly state: SongState) {
    this.setBalance(0);
  }

  toggleClick(): void {
    this.clicks.value = !this.clicks.value;
    this.state.player.click(this.clicks.value ? CLICK_GAIN : 0);
  }

  /** A bar of clicks at the pace of the music that follows, slowed as it is; nothing where there is no pulse. */
  countIn(fromSeconds: number): { clicks: number; secondsApart: number } | undefined {
    const { page, player } = this.state;
    const bar = page.value.bars[barAt(page.value.bars, fromSeconds)];
    if (!this.countsIn.value || !bar || bar.beats === 0) return undefined;
    return { clicks: bar.beats, secondsApart: (bar.endSeconds - bar.startSeconds) / bar.beats / player.rate.value };
  }

  /** Together never louder than the recording alone. */
  setBalance(balance: number): void {
    this.balance.value = balance;
    const guest = this.guest.value;
    if (guest) {
      this.state.player.levels([{ source: RECORDING, gain: guest.recording }, { source: GUEST, gain: 1 - guest.recording }]);
      return;
    }
    this.state.player.levels([
      { source: this.focus.value ? FOCUS : RECORDING, gain: 1 - balance },
      { source: TONES, gain: balance },
    ]);
  }

  nextBalance(): void {
    this.setBalance(this.balance.value === 0 ? 0.5 : this.balance.value < 1 ? 1 : 0);
  }

  /** Renders one side of what loops, is chosen, or else of the section that sounds, and loops it. */
  setFocus(focus: Focus | null): void {
    const { player, page, id } = this.state;
    this.guest.value = null;
    this.focus.value = focus;
    if (focus) {
      const span = this.focusSpan();
      player.loopOver(span);
      const path = `${desk.focusPath(id, focus)}?fromSeconds=${span.startSeconds}&toSeconds=${Math.min(span.endSeconds, page.value.song.durationSeconds)}`;
      player.source(FOCUS, within(path, framesAt(span.startSeconds), framesAt(span.endSeconds)));
      this.warnOnce();
    }
    this.setBalance(this.balance.value);
  }

  nextFocus(): void {
    const at = FOCUSES.findIndex(([focus]) => focus === this.focus.value);
    this.setFocus(FOCUSES[at + 1]?.[0] ?? null);
  }

  /** Loops a span with what was made for it; null goes back to the recording as it is. */
  setGuest(guest: Guest | null): void {
    const { player, page } = this.state;
    this.focus.value = null;
    this.guest.value = guest;
    if (guest) {
      const end = Math.min(guest.span.endSeconds, page.value.song.durationSeconds);
      const path = `${guest.path}${guest.path.includes("?") ? "&" : "?"}fromSeconds=${guest.span.startSeconds}&toSeconds=${end}`;
      player.source(GUEST, within(path, framesAt(guest.span.startSeconds), framesAt(end)));
      player.loopOver(guest.span);
      player.seek(guest.span.startSeconds);
      void player.play();
      this.warnOnce();
    } else {
      player.loopOver(null);
    }
    this.setBalance(this.balance.value);
  }

  /** Whatever stands in for the recording goes: something else is to be heard. */
  plainly(): void {
    if (this.focus.value) this.setFocus(null);
    if (this.guest.value) this.setGuest(null);
  }

  private focusSpan(): Selection {
    const { player, selection, page } = this.state;
    const loop = player.loop.value;
    if (loop) return { startSeconds: secondsAt(loop.start), endSeconds: secondsAt(loop.end) };
    if (selection.value) return selection.value;
    const now = player.nowSeconds();
    if (this.state.veiled.value) return { startSeconds: now, endSeconds: Math.min(page.value.song.durationSeconds, now + BLIND_SECONDS) };
    const section = page.value.sections.find(({ startSeconds, endSeconds }) => now >= startSeconds - 0.01 && now < endSeconds - 0.01);
    const { startSeconds, endSeconds } = section ?? this.state.bar;
    return { startSeconds, endSeconds };
  }

  /** The first mark is one span, the second the other; a third begins anew. */
  markSpan(): void {
    const [first, second] = this.spans.value;
    this.spans.value = first && !second ? [first, this.state.span] : [this.state.span, null];
    this.heardSpan.value = 0;
  }

  forgetSpans(): void {
    this.spans.value = [null, null];
  }

  /** Goes on in the other span at the same bar and beat, looping it. */
  switchSpan(): void {
    const [first, second] = this.spans.value;
    if (!first || !second) return;
    const { player, bars } = this.state;
    const [from, to] = this.heardSpan.value === 0 ? [first, second] : [second, first];
    const bar = (seconds: number) => barAt(bars.value, seconds + 0.02);
    const place = samePlace(bars.value, player.nowSeconds(), bar(from.startSeconds), bar(to.startSeconds), barAt(bars.value, to.endSeconds - 0.02));
    this.heardSpan.value = this.heardSpan.value === 0 ? 1 : 0;
    player.loopOver(null);
    player.seek(place);
    player.loopOver(to);
    this.warnOnce();
  }

  /** The caution on loops, at the first one. */
  warnOnce(): void {
    if (!pageSettings.value.cautioned) this.caution.value = true;
  }

  understood(): void {
    this.caution.value = false;
    void setPage({ cautioned: true });
  }
}
