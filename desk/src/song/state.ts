import { batch, computed, signal, type ReadonlySignal } from "@preact/signals";
import { desk, Refusal } from "../api/calls";
import { sameMusic } from "../api/parts";
import type { NewVerdict } from "../api/findings";
import type { Repeat } from "../api/production";
import type { Answer, Bar, Correction, Decision, NewRemark, Offer, SongPage } from "../api/types";
import { ranged, rendered } from "../audio/fetcher";
import { Player, RECORDING, TONES } from "../audio/player";
import { FRAME_RATE, framesAt } from "../audio/sound";
import { pageSettings } from "../settings/settings";
import { barAt, barsOrStretches } from "../time/grid";
import { Listening } from "./listening";

export interface Selection {
  startSeconds: number;
  endSeconds: number;
}

/** What followed from the last thing said, shown until the next. */
export interface Aftermath {
  answer: Answer;
  offers: Offer[];
  taken: Set<number>;
}

const PAUSE_MILLISECONDS = 1500;

/** What takes the desk longer than a word is asked for once no other word follows at once. */
const REST_MILLISECONDS = 150;

/** What is being said: which form stands open. */
export type Task = "chord" | "bass" | "tune" | "key" | "section" | "beat" | "voice" | "line" | "layer" | "place" | "echo" | "room" | "copy" | "remark";

/** One open song: its page as the desk gave it, where the listener is in it, and what plays it. */
export class SongState {
  readonly page = signal<SongPage>(undefined as unknown as SongPage);
  /** The page as the stack was drawn from it last: another only where something in the stack is. */
  readonly music = signal<SongPage>(undefined as unknown as SongPage);
  /** The revision that findings and all else below the rows are of; 0 while none have come. */
  readonly whole = signal(0);
  readonly bars: ReadonlySignal<Bar[]>;
  /** The bar that keys act on, as an index into the bars. */
  readonly cursor = signal(0);
  readonly selection = signal<Selection | null>(null);
  readonly closeUp = signal(false);
  readonly order = signal<"music" | "time">("music");
  readonly asTable = signal(false);
  /** The copy whose differences are listed. */
  readonly compared = signal<Repeat | null>(null);
  /** Whether the reading is kept from the listener until asked for. */
  readonly veiled = signal(pageSettings.value.earFirst ?? false);
  readonly aftermath = signal<Aftermath | null>(null);
  readonly trouble = signal<string | null>(null);
  readonly task = signal<Task | null>(null);
  readonly player = new Player();
  readonly listening: Listening;
  /** Revisions that this window's own words have made. */
  private readonly own = new Set<number>();
  private writing = 0;
  /** The newest revision told of while this window was saying something; 0 for none. */
  private newest = 0;
  private soon: ReturnType<typeof setTimeout> | undefined;

  constructor(readonly id: number, page: SongPage) {
    this.page.value = page;
    this.music.value = page;
    this.bars = computed(() => barsOrStretches(this.music.value));
    this.order.value = pageSettings.value.order ?? "music";
    this.player.source(RECORDING, ranged(desk.soundPath(id)));
    this.listening = new Listening(this);
    this.equip(page);
  }

  /** The bar under the cursor. */
  get bar(): Bar {
    return this.bars.value[this.cursor.value];
  }

  /** What a loop, a hearing or a correction of a span is about: the selection, or else the bar under the cursor. */
  get span(): Selection {
    const { startSeconds, endSeconds } = this.selection.value ?? this.bar;
    return { startSeconds, endSeconds };
  }

  /** Opens the form for something to say; all but remarks are said in close listening. */
  begin(task: Task): void {
    if (task !== "remark") this.closeUp.value = true;
    this.task.value = task;
  }

  goTo(bar: number, extend = false): void {
    const bars = this.bars.value;
    const to = Math.min(bars.length - 1, Math.max(0, bar));
    if (extend) this.selectBars(this.selection.value ? barAt(bars, this.anchor()) : this.cursor.value, to);
    else this.selection.value = null;
    this.cursor.value = to;
  }

  selectBars(one: number, other: number): void {
    const bars = this.bars.value;
    const [from, to] = one <= other ? [one, other] : [other, one];
    this.selection.value = { startSeconds: bars[from].startSeconds, endSeconds: bars[to].endSeconds };
  }

  /** Takes in a newer page, from an answer or because another window said something. */
  take(page: SongPage): void {
    if (page.revision < this.page.value.revision) return;
    const same = sameMusic(page, this.page.value);
    batch(() => {
      this.page.value = page;
      if (same) return;
      this.music.value = page;
      this.cursor.value = Math.min(this.cursor.value, this.bars.value.length - 1);
    });
    if (!same) this.equip(page);
  }

  /**
   * The desk tells that the song changed. What this window says itself is answered with its page already: asking for it
   * again waits until the listener pauses. What another window said is fetched at once.
   */
  news(revision: number): void {
    if (this.writing > 0) this.newest = Math.max(this.newest, revision);
    else if (this.own.has(revision)) this.refreshWithin(PAUSE_MILLISECONDS);
    else if (revision >= this.page.value.revision) void this.refresh();
  }

  /** Says something that the desk answers with the rows as they are then; findings, which take longer, follow. */
  private async written(call: (held: SongPage) => Promise<Answer>): Promise<Answer> {
    this.writing++;
    this.dropRefresh();
    try {
      const answer = await call(this.page.value);
      this.take(answer.page);
      this.own.add(answer.page.revision);
      return answer;
    } finally {
      const missed = this.newest > this.page.value.revision;
      if (--this.writing === 0) {
        this.newest = 0;
        if (missed) void this.refresh();
        else if (this.whole.value < this.page.value.revision) this.refreshWithin(REST_MILLISECONDS);
      }
    }
  }

  /** Unless it is to be asked for sooner already. */
  private refreshWithin(milliseconds: number): void {
    if (this.soon !== undefined) return;
    this.soon = setTimeout(() => {
      this.soon = undefined;
      void this.refresh();
    }, milliseconds);
  }

  private dropRefresh(): void {
    clearTimeout(this.soon);
    this.soon = undefined;
  }

  async refresh(): Promise<void> {
    await this.trying(() => this.fetchAll());
  }

  private async fetchAll(): Promise<void> {
    const page = await desk.page(this.id, this.page.value);
    if (page.revision < this.page.value.revision) return;
    batch(() => {
      this.take(page);
      this.whole.value = page.revision;
    });
  }

  async say(...corrections: Correction[]): Promise<boolean> {
    return this.trying(async () => {
      const answer = await this.written((held) => desk.correct(this.id, held, corrections, held.revision));
      const aftermath: Aftermath = { answer, offers: [], taken: new Set() };
      this.aftermath.value = aftermath;
      if (corrections.length === 1 && corrections[0].span) void this.askOffers(aftermath, corrections[0]);
    });
  }

  /** Where else it could hold: asked for once the page is drawn anew, as it takes a little longer. */
  private async askOffers(aftermath: Aftermath, correction: Correction): Promise<void> {
    await new Promise((rested) => setTimeout(rested, REST_MILLISECONDS));
    if (this.aftermath.value !== aftermath || this.writing > 0) return;
    const offers = await desk.offers(this.id, correction).catch(() => []);
    if (this.aftermath.value === aftermath) this.aftermath.value = { ...aftermath, offers };
  }

  async takeOffer(index: number): Promise<void> {
    const aftermath = this.aftermath.value;
    if (!aftermath) return;
    await this.trying(async () => {
      await this.written((held) => desk.correct(this.id, held, [aftermath.offers[index].correction]));
      this.aftermath.value = { ...aftermath, taken: new Set([...aftermath.taken, index]) };
    });
  }

  undo = () => this.step((held) => desk.undo(this.id, held));
  redo = () => this.step((held) => desk.redo(this.id, held));
  takeBack = (step: number) => this.step((held) => desk.takeBack(this.id, held, step));
  bringBack = (step: number) => this.step((held) => desk.bringBack(this.id, held, step));

  remark = (remark: NewRemark) => this.changing(() => desk.remark(this.id, remark));
  reword = (id: number, remark: NewRemark) => this.changing(() => desk.rewordRemark(this.id, id, remark));
  dropRemark = (id: number) => this.changing(() => desk.dropRemark(this.id, id));

  judge = (verdict: NewVerdict) => this.changing(() => desk.judge(this.id, verdict));
  dropVerdict = (verdict: number) => this.changing(() => desk.dropVerdict(this.id, verdict));

  hear = (heard: Correction) => this.changing(() => desk.hear(this.id, heard));
  decide = (hearing: number, decision: Decision) => this.changing(() => desk.decide(this.id, hearing, decision));
  dropHearing = (hearing: number) => this.changing(() => desk.dropHearing(this.id, hearing));

  close(): void {
    this.dropRefresh();
    this.player.close();
  }

  private anchor(): number {
    const { startSeconds, endSeconds } = this.selection.value!;
    const here = this.bar.startSeconds;
    // The end of the selection that the cursor is not at stays.
    return Math.abs(here - startSeconds) < 0.01 ? endSeconds - 0.01 : startSeconds + 0.01;
  }

  private step(call: (held: SongPage) => Promise<Answer>): Promise<boolean> {
    return this.trying(async () => {
      const answer = await this.written(call);
      this.aftermath.value = { answer, offers: [], taken: new Set() };
    });
  }

  private changing(call: () => Promise<unknown>): Promise<boolean> {
    return this.trying(async () => {
      await call();
      await this.fetchAll();
    });
  }

  private async trying(act: () => Promise<void>): Promise<boolean> {
    try {
      await act();
      this.trouble.value = null;
      return true;
    } catch (trouble) {
      this.trouble.value = (trouble as Error).message;
      // Another window was faster: what it said is shown, so that the word can be said again or left.
      if (trouble instanceof Refusal && trouble.kind === "moved-on") await this.fetchAll().catch(() => {});
      return false;
    }
  }

  /** Tells the player what the page says of time, and that its tones have changed. */
  private equip(page: SongPage): void {
    const firsts = new Set(page.bars.map((bar) => bar.firstBeat));
    this.player.length(page.song.durationSeconds);
    this.player.beats(page.beats, (beat) => firsts.has(beat));
    this.player.source(TONES, rendered(desk.checkPath(this.id, "bass,chords,melody"), FRAME_RATE, framesAt(page.song.durationSeconds)));
  }
}
