import { DrillBox } from "../drill/box";
import "./lesson.css";
import { attach, hasOwnCopy, playOwnCopy } from "./ownCopy";
import { drawExample } from "./staff";
import { playTones, silence, sounding } from "./tones";
import type { Item, Lesson } from "./types";

const lesson = JSON.parse(document.getElementById("lesson")!.textContent!) as Lesson;
const boxes = [...document.querySelectorAll<HTMLElement>(".example")];
let playing: HTMLButtonElement | null = null;

function button(words: string, act: (pressed: HTMLButtonElement) => void): HTMLButtonElement {
  const node = document.createElement("button");
  node.type = "button";
  node.textContent = words;
  node.addEventListener("click", () => (playing === node ? silence() : act(node)));
  return node;
}

/** Shows what plays; pressing again stops it. */
function show(pressed: HTMLButtonElement): () => void {
  silence();
  playing = pressed;
  pressed.setAttribute("aria-pressed", "true");
  return () => {
    pressed.removeAttribute("aria-pressed");
    playing = null;
  };
}

function deeds(item: Item, box: HTMLElement): void {
  const row = document.createElement("p");
  row.className = "deeds";
  const example = item.example;
  const tones = example?.tones ?? [];
  const parts = [...new Set(tones.map((tone) => tone.part))];
  if (tones.length) {
    row.append(button("Plain tones, all", (pressed) => { const over = show(pressed); playTones(tones, over); }));
    for (const part of parts) {
      row.append(button(part, (pressed) => { const over = show(pressed); playTones(tones.filter((tone) => tone.part === part), over); }));
    }
  }
  if (item.excerpt) {
    const sound = item.excerpt;
    row.append(button("Excerpt of the recording", (pressed) => {
      const over = show(pressed);
      const element = new Audio(sound);
      element.volume = 0.7;
      element.onended = () => silence();
      void element.play();
      sounding(() => { element.pause(); over(); });
    }));
  }
  const own = button("Your copy", (pressed) => {
    const over = show(pressed);
    playOwnCopy(example?.start ?? item.start, example?.end ?? item.end, over);
  });
  own.className = "own";
  own.hidden = true;
  row.append(own);
  box.append(row);
}

function copyBox(): void {
  const box = document.getElementById("own-copy");
  if (!box || !lesson.levels) return;
  const label = document.createElement("label");
  label.textContent = "Do you have the recording? Attach your own copy: ";
  const input = document.createElement("input");
  input.type = "file";
  input.accept = "audio/*,video/*";
  label.append(input);
  const answer = document.createElement("p");
  answer.setAttribute("role", "status");
  input.addEventListener("change", async () => {
    const file = input.files?.[0];
    if (!file) return;
    answer.textContent = "Listening ...";
    answer.textContent = await attach(file, lesson);
    document.querySelectorAll<HTMLButtonElement>("button.own").forEach((node) => { node.hidden = !hasOwnCopy(); });
  });
  box.append(label, answer);
}

async function draw(): Promise<void> {
  for (const box of boxes) {
    const example = lesson.items[Number(box.dataset.item)]?.example;
    const staff = box.querySelector<HTMLElement>(".staff");
    if (!example || !staff) continue;
    await drawExample(staff, example, Math.max(280, Math.floor(box.getBoundingClientRect().width)));
  }
  document.body.dataset.drawn = "true";
}

for (const box of boxes) {
  const item = lesson.items[Number(box.dataset.item)];
  if (item?.example) {
    const staff = document.createElement("div");
    staff.className = "staff";
    box.append(staff);
  }
  if (item) deeds(item, box);
}
copyBox();
const drills = document.getElementById("drills");
if (drills && lesson.drills?.length) new DrillBox(drills, lesson.drills, document.title, lesson.level);
void draw();

let width = innerWidth;
let waiting: ReturnType<typeof setTimeout> | undefined;
addEventListener("resize", () => {
  if (innerWidth === width) return;
  width = innerWidth;
  clearTimeout(waiting);
  waiting = setTimeout(() => void draw(), 150);
});
