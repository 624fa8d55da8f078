import { useEffect, useState } from "preact/hooks";
import { desk } from "../api/calls";
import type { KeptLesson, Lesson, LessonItem } from "../api/teaching";
import { songAddress } from "../route";
import { INSTRUMENTS } from "../settings/instruments";
import { clock } from "../time/words";
import { barsOf, barsWords, changed, moved, notYet, without, withItem } from "./edit";

/** Where a lesson is put together: what was found, in the teacher's order and words. */
export function LessonPage({ song }: { song: number }) {
  const [all, setAll] = useState<KeptLesson[]>([]);
  const [kept, setKept] = useState<KeptLesson | null>(null);
  const [lesson, setLesson] = useState<Lesson | null>(null);
  const [offers, setOffers] = useState<LessonItem[]>([]);
  const [said, setSaid] = useState("");
  useEffect(() => {
    document.title = "Lesson · Undersong";
    void (async () => {
      try {
        const lessons = await desk.lessons(song);
        const before = lessons.at(-1) ?? null;
        setAll(lessons);
        setOffers(await desk.lessonOffers(song));
        setKept(before);
        setLesson(before ? before.lesson : await desk.draftLesson(song));
        setSaid(before ? "" : "A draft from the findings most worth telling. Nothing is kept yet.");
      } catch (trouble) {
        setSaid((trouble as Error).message);
      }
    })();
  }, [song]);
  const open = (one: KeptLesson) => {
    setKept(one);
    setLesson(one.lesson);
    setSaid("");
  };
  const keep = async () => {
    if (!lesson) return;
    try {
      const saved = kept ? await desk.saveLesson(kept.id, kept.version, lesson) : await desk.addLesson(song, lesson);
      open(saved);
      setAll(await desk.lessons(song));
      const beside = saved.id !== kept?.id && saved.beside !== undefined;
      setSaid(beside ? "Somebody kept another version since you opened it. Nothing is lost: yours is kept beside it, as a lesson of its own."
        : `Kept, version ${saved.version}.`);
    } catch (trouble) {
      setSaid((trouble as Error).message);
    }
  };
  const again = async () => {
    setLesson(await desk.draftLesson(song, 20));
    setSaid("Drafted anew, up to twenty items. The kept lesson stays until you keep this one.");
  };
  return (
    <main class="sheet lesson">
      <h1>Lesson</h1>
      <p><a href={songAddress(song)}>Back to the song</a></p>
      <p role="status">{said}</p>
      {all.length > 1 && (
        <label>
          Kept on this song{" "}
          <select value={kept?.id} onChange={(event) => open(all.find((one) => one.id === Number(event.currentTarget.value))!)}>
            {all.map((one) => <option key={one.id} value={one.id}>{lessonWords(one)}</option>)}
          </select>
        </label>
      )}
      {kept && <p class="soft">{lessonWords(kept)}</p>}
      {lesson && (
        <>
          <p>
            <label>Title <input value={lesson.title} size={40} onInput={(event) => setLesson({ ...lesson, title: event.currentTarget.value })} /></label>
          </p>
          <Settings lesson={lesson} change={setLesson} />
          <ol class="lesson-items">
            {lesson.items.map((item, i) => (
              <li key={`${item.technique}-${item.start}-${item.end}`}>
                <Item lesson={lesson} place={i} change={setLesson} told={kept?.lesson.items[i] === item ? kept?.changes.find((one) => one.item === i) : undefined} />
              </li>
            ))}
          </ol>
          <Offers offers={notYet(lesson, offers)} add={(item) => setLesson(withItem(lesson, item))} />
          <p class="lesson-deeds">
            <button type="button" onClick={() => void keep()}>Keep the lesson</button>{" "}
            <button type="button" class="plain" onClick={() => void again()}>Draft anew</button>{" "}
            {kept && <a href={desk.lessonPath(kept.id)} download={`lesson-${kept.id}.html`}>Page as kept (one file)</a>}
          </p>
          <p class="soft">
            A recording and the composition in it are two rights. Staves and plain tones quote the composition; an excerpt carries part of the
            recording, and the page says so. Laws on teaching and quotation differ by country; ask someone licensed to advise where it matters.
          </p>
        </>
      )}
    </main>
  );
}

const SYLLABLES = [["la-based", "minor begins on la"], ["do-based", "minor begins on do"]] as const;

/** How the class reads. */
function Settings({ lesson, change }: { lesson: Lesson; change: (lesson: Lesson) => void }) {
  return (
    <p>
      <label>
        Syllables{" "}
        <select value={lesson.minorSyllables ?? "la-based"} onChange={(event) => change({ ...lesson, minorSyllables: event.currentTarget.value })}>
          {SYLLABLES.map(([value, words]) => <option key={value} value={value}>{words}</option>)}
        </select>
      </label>{" "}
      <label>
        Written for an instrument in{" "}
        <select value={lesson.instrument ?? "concert"} onChange={(event) => change({ ...lesson, instrument: event.currentTarget.value })}>
          {INSTRUMENTS.map(([value, words]) => <option key={value} value={value}>{words}</option>)}
        </select>
      </label>{" "}
      <label>
        Exercises begin at level{" "}
        <select value={lesson.level ?? 1} onChange={(event) => change({ ...lesson, level: Number(event.currentTarget.value) })}>
          {[1, 2, 3].map((level) => <option key={level} value={level}>{level}</option>)}
        </select>
      </label>
    </p>
  );
}

/** What was found and remarked but is not in the lesson. */
function Offers({ offers, add }: { offers: LessonItem[]; add: (item: LessonItem) => void }) {
  if (offers.length === 0) return null;
  return (
    <details class="lesson-offers">
      <summary>Not in the lesson: {offers.length === 1 ? "one finding or remark" : `${offers.length} findings and remarks`}</summary>
      <ul>
        {offers.map((item) => (
          <li key={`${item.technique}-${item.start}-${item.end}`}>
            <button type="button" class="plain" aria-label={`Add ${item.heading} at ${clock(item.start)}`} onClick={() => add(item)}>Add</button>{" "}
            {clock(item.start)} {item.technique ? item.heading : `Remark: ${item.heading}`}
          </li>
        ))}
      </ul>
    </details>
  );
}

const lessonWords = (kept: KeptLesson) =>
  `${kept.lesson.title}: lesson ${kept.id}, version ${kept.version} by ${kept.author}${kept.beside ? `, beside lesson ${kept.beside}` : ""}`;

function Item({ lesson, place, change, told }: {
  lesson: Lesson; place: number; change: (lesson: Lesson) => void; told?: { before: string; now?: string };
}) {
  const item = lesson.items[place];
  const name = `item ${place + 1}`;
  return (
    <fieldset>
      <legend>{clock(item.start)} to {clock(item.end)}</legend>
      <p><label>Heading <input value={item.heading} size={40} onInput={(event) => change(changed(lesson, place, { heading: event.currentTarget.value }))} /></label></p>
      <p class="soft">{item.asTold}</p>
      {told && <p class="trouble">The reading changed: {told.now ?? "this is told no more"}. Your words stay as they are.</p>}
      <label>
        Your words (Markdown)
        <textarea rows={3} value={item.words} onInput={(event) => change(changed(lesson, place, { words: event.currentTarget.value }))} />
      </label>
      <p>
        <label>Example bars <input size={7} value={item.bars ? barsWords(item.bars) : ""} placeholder="none"
          onChange={(event) => change(changed(lesson, place, { bars: barsOf(event.currentTarget.value) ?? undefined }))} /></label>{" "}
        <label><input type="checkbox" checked={item.excerpt}
          onChange={(event) => change(changed(lesson, place, { excerpt: event.currentTarget.checked }))} /> carry {Math.round(item.end - item.start)} s of the recording</label>
      </p>
      <p>
        <button type="button" class="plain" aria-label={`Move ${name} up`} disabled={place === 0} onClick={() => change(moved(lesson, place, -1))}>Up</button>{" "}
        <button type="button" class="plain" aria-label={`Move ${name} down`} disabled={place + 1 === lesson.items.length} onClick={() => change(moved(lesson, place, 1))}>Down</button>{" "}
        <button type="button" class="plain" aria-label={`Leave out ${name}`} onClick={() => change(without(lesson, place))}>Leave out</button>
      </p>
    </fieldset>
  );
}
