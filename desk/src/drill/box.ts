import { playTones } from "../lesson/tones";
import { listen } from "./listen";
import { judge, midiOf } from "./pitch";
import { count, keepVoice, scoreOf, voiceOf, within } from "./score";
import type { Drill } from "./types";

const NOTES = ["C", "C#", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B"];
const SING_SECONDS = 4;
const HELD_SECONDS = 0.6;

export const noteName = (midi: number): string => NOTES[((midi % 12) + 12) % 12] + (Math.floor(midi / 12) - 1);

function element<K extends keyof HTMLElementTagNameMap>(name: K, words = "", kind = ""): HTMLElementTagNameMap[K] {
  const node = document.createElement(name);
  node.textContent = words;
  if (kind) node.className = kind;
  return node;
}

function button(words: string, act: () => void): HTMLButtonElement {
  const node = element("button", words);
  node.type = "button";
  node.addEventListener("click", act);
  return node;
}

function select(label: string, options: [string, string][], chosen: string, act: (value: string) => void): HTMLLabelElement {
  const node = element("label", label + " ");
  const list = element("select");
  for (const [value, words] of options) {
    const option = element("option", words);
    option.value = value;
    option.selected = value === chosen;
    list.append(option);
  }
  list.addEventListener("change", () => act(list.value));
  node.append(list);
  return node;
}

/** The exercises of a page: one at a time, by kind and level, answered at once. */
export class DrillBox {
  private readonly turns = new Map<string, number>();
  private kind: string;
  private readonly asked = element("div", "", "asked");
  private readonly tally = element("p", "", "tally");

  constructor(box: HTMLElement, private readonly drills: readonly Drill[], private readonly page: string, private level = 1) {
    this.kind = drills[0].kind;
    const kinds = [...new Map(drills.map((drill) => [drill.kind, drill.title]))];
    const choice = element("p", "", "drill-choice");
    choice.append(
      select("Exercise", kinds, this.kind, (value) => { this.kind = value; this.ask(); }),
      select("Level", [["1", "1"], ["2", "2"], ["3", "3"]], String(this.level), (value) => { this.level = Number(value); this.ask(); }),
    );
    box.append(choice, this.asked, this.tally);
    if (drills.some((drill) => drill.sung !== undefined)) box.append(this.limits());
    this.ask();
    this.count();
  }

  private ask(): void {
    const fitting = this.drills.filter((drill) => drill.kind === this.kind && drill.level === this.level);
    const key = `${this.kind} ${this.level}`;
    const turn = this.turns.get(key) ?? 0;
    const drill = fitting[turn % fitting.length];
    this.asked.replaceChildren();
    if (!drill) return;
    const answer = element("p", "", "drill-answer");
    answer.setAttribute("role", "status");
    const deeds = element("p", "", "deeds");
    const play = button("Hear it", () => playTones(drill.tones));
    const next = button("Next", () => { this.turns.set(key, turn + 1); this.ask(); });
    const number = `${(turn % fitting.length) + 1} of ${fitting.length}`;
    this.asked.append(element("p", drill.levels, "drill-levels"), element("p", `${number}. ${drill.prompt}`, "drill-prompt"), deeds);
    deeds.append(play);
    if (drill.sung === undefined) this.choose(drill, answer);
    else this.sing(drill, deeds, answer);
    const end = element("p", "", "deeds");
    end.append(next);
    this.asked.append(answer, end);
  }

  private choose(drill: Drill, answer: HTMLElement): void {
    const list = element("p", "", "deeds choices");
    const buttons = drill.choices.map((words, i) => button(words, () => {
      const right = i === drill.answer;
      buttons.forEach((one, k) => { one.disabled = true; if (k === drill.answer) one.classList.add("right"); });
      answer.textContent = `${right ? "Yes." : `No, ${drill.choices[drill.answer]}.`} ${drill.explanation}`;
      this.count(drill.kind, right);
    }));
    list.append(...buttons);
    this.asked.append(list);
  }

  private sing(drill: Drill, deeds: HTMLElement, answer: HTMLElement): void {
    const told = () => { answer.textContent = drill.explanation; };
    deeds.append(
      button(`Sing (${SING_SECONDS} s)`, () => void this.judged(drill, answer)),
      button("Hear the answer", () => {
        const midi = within(voiceOf(), drill.sung!) ?? 60 + drill.sung!;
        playTones([{ part: "melody", at: 0, for: 1.5, midi }]);
        told();
      }),
    );
  }

  private async judged(drill: Drill, answer: HTMLElement): Promise<void> {
    const voice = voiceOf();
    if (within(voice, drill.sung!) === null) {
      answer.textContent = "Your range holds no such note; widen it below only if it is comfortable, or take the next one.";
      return;
    }
    try {
      answer.textContent = "Listening ...";
      const heard = await listen(SING_SECONDS, (hertz) => {
        answer.textContent = hertz === null ? "Listening ..." : `Listening ... ${noteName(Math.round(midiOf(hertz)))}`;
      });
      const sung = judge(heard.pitches, drill.sung!, voice.toleranceCents, heard.hopSeconds);
      if (sung.cents === null) {
        answer.textContent = "Nothing was heard. Sing a little closer to the microphone, not louder.";
        return;
      }
      const right = sung.heldSeconds >= HELD_SECONDS;
      answer.textContent = `${right ? "Yes" : "Not yet"}: ${describe(sung.cents)}. ${drill.explanation}`;
      this.count(drill.kind, right);
    } catch {
      answer.textContent = "The microphone is not allowed or not there. Sing, then press \"Hear the answer\" and compare.";
    }
  }

  /** Range and tolerance, set by whoever sings. */
  private limits(): HTMLElement {
    const details = element("details");
    details.append(element("summary", "Your voice"));
    const voice = voiceOf();
    const notes = Array.from({ length: 49 }, (_, i) => [String(36 + i), noteName(36 + i)] as [string, string]);
    const set = (part: Partial<typeof voice>) => keepVoice(Object.assign(voice, part));
    const row = element("p", "", "drill-choice");
    row.append(
      select("lowest note", notes, String(voice.lowest), (value) => set({ lowest: Math.min(Number(value), voice.highest) })),
      select("highest note", notes, String(voice.highest), (value) => set({ highest: Math.max(Number(value), voice.lowest) })),
      select("counts as right within", [["25", "25 cents"], ["50", "50 cents"], ["80", "80 cents"]], String(voice.toleranceCents),
        (value) => set({ toleranceCents: Number(value) })),
    );
    details.append(row, element("p", "Sing softly and stay inside what is comfortable; stop when it strains or hurts, and ask a doctor or voice "
      + "teacher if it does again. What the microphone hears stays in this page."));
    return details;
  }

  private count(kind?: string, right?: boolean): void {
    const score = kind === undefined ? scoreOf(this.page) : count(this.page, kind, right!);
    const titles = new Map(this.drills.map((drill) => [drill.kind, drill.title]));
    const told = Object.entries(score).filter(([name]) => titles.has(name)).map(([name, one]) => `${titles.get(name)} ${one.right} of ${one.asked}`);
    this.tally.textContent = told.length ? `So far, kept in this browser: ${told.join("; ")}.` : "";
  }
}

export function describe(cents: number): string {
  const off = Math.round(Math.abs(cents));
  return off <= 5 ? "on the note" : `${off} cents too ${cents > 0 ? "high" : "low"}${off > 150 ? ", another note" : ""}`;
}

