import type { Drill } from "../drill/types";
import { address } from "../trends/draw";
import type { NamedTechnique, Trend, TrendQuestion, Unusual } from "../trends/types";
import { ALL, FIRST, heldWords, joined, partsOf } from "./parts";
import type { NewVerdict, Verdict } from "./findings";
import type { Comparison, KeptLesson, KeptSearch, Lesson, LikeSong, SearchHit, Sketch, LessonItem } from "./teaching";
import type {
  Answer, ChordName, Correction, Curve, Decision, Focus, Hearing, NewRemark, Offer, Peaks, Remark, Settings, Song,
  SongEntry, SongPage, SongWords, Speaker, Trouble, Work,
} from "./types";

/** What the desk answered instead of what was asked for; its message is made for people. */
export class Refusal extends Error {
  readonly kind: string;

  constructor(trouble: Trouble) {
    super(trouble.error);
    this.kind = trouble.kind;
  }
}

function token(): string {
  return document.querySelector<HTMLMetaElement>('meta[name="undersong-token"]')?.content ?? "";
}

async function ask(path: string, init: RequestInit = {}): Promise<Response> {
  let response: Response;
  try {
    response = await fetch(path, init);
  } catch (unreachable) {
    if (init.signal?.aborted) throw unreachable;
    throw new Refusal({ error: "The desk does not answer. Is the program still running?", kind: "gone" });
  }
  if (response.ok) return response;
  let trouble: Trouble;
  try {
    trouble = (await response.json()) as Trouble;
  } catch {
    trouble = { error: `The desk answered ${response.status} without a reason.`, kind: "inside" };
  }
  throw new Refusal(trouble);
}

async function get<T>(path: string, signal?: AbortSignal): Promise<T> {
  return (await ask(path, { signal })).json() as Promise<T>;
}

/** A page, as much of it as is asked for and not held already. */
async function getPage(id: number, parts: readonly string[], held?: SongPage): Promise<SongPage> {
  const response = await ask(`${song(id)}?parts=${parts.join()}`, { headers: heldWords(held) });
  return joined(held, (await response.json()) as SongPage);
}

/** Says something that is answered with the page as it is then: what is needed first of it, and not held already. */
async function say(path: string, held: SongPage, corrections?: Correction[], revision?: number): Promise<Answer> {
  const parts = [...FIRST, ...partsOf(corrections ?? [])];
  const answer = await write<Answer>("POST", `${path}?parts=${parts.join()}`, corrections && { corrections }, revision, heldWords(held));
  return { ...answer, page: joined(held, answer.page) };
}

async function write<T>(method: string, path: string, body?: unknown, revision?: number, more: Record<string, string> = {}): Promise<T> {
  const headers: Record<string, string> = { "X-Undersong-Token": token(), ...more };
  if (body !== undefined) headers["Content-Type"] = "application/json";
  if (revision !== undefined) headers["If-Match"] = `"${revision}"`;
  const response = await ask(path, { method, headers, body: body === undefined ? undefined : JSON.stringify(body) });
  return response.status === 204 ? (undefined as T) : ((await response.json()) as T);
}

const song = (id: number) => `/api/songs/${id}`;

const sketchWords = (seed: number, beside?: number) => `seed=${seed}${beside === undefined ? "" : `&song=${beside}`}`;

export const desk = {
  songs: (query: string, signal?: AbortSignal) =>
    get<{ songs: SongEntry[] }>(`/api/songs${query ? `?query=${encodeURIComponent(query)}` : ""}`, signal).then((a) => a.songs),
  /** The rows of a song, for who has nothing of it yet. */
  rows: (id: number) => getPage(id, FIRST),
  /** The whole page; of what is held only what has changed is sent. */
  page: (id: number, held?: SongPage) => getPage(id, ALL, held),
  curve: (id: number) => get<Curve>(`${song(id)}/curve`),
  peaks: (id: number, from: number, to: number, columns: number, signal?: AbortSignal) =>
    get<Peaks>(`${song(id)}/peaks?fromSeconds=${from}&toSeconds=${to}&columns=${columns}`, signal),
  sayWords: (id: number, words: SongWords) => write<Song>("PATCH", song(id), words),

  correct: (id: number, held: SongPage, corrections: Correction[], revision?: number) =>
    say(`${song(id)}/corrections`, held, corrections, revision),
  offers: (id: number, correction: Correction) =>
    write<{ offers: Offer[] }>("POST", `${song(id)}/offers`, { correction }).then((a) => a.offers),
  undo: (id: number, held: SongPage) => say(`${song(id)}/undo`, held),
  redo: (id: number, held: SongPage) => say(`${song(id)}/redo`, held),
  takeBack: (id: number, held: SongPage, step: number) => say(`${song(id)}/steps/${step}/take-back`, held),
  bringBack: (id: number, held: SongPage, step: number) => say(`${song(id)}/steps/${step}/bring-back`, held),
  readChord: (text: string, signal?: AbortSignal) => get<ChordName>(`/api/chord?text=${encodeURIComponent(text)}`, signal),

  remark: (id: number, remark: NewRemark) => write<Remark>("POST", `${song(id)}/remarks`, remark),
  rewordRemark: (id: number, remark: number, words: NewRemark) => write<Remark>("PUT", `${song(id)}/remarks/${remark}`, words),
  dropRemark: (id: number, remark: number) => write<void>("DELETE", `${song(id)}/remarks/${remark}`),

  hearings: (id: number) => get<{ hearings: Hearing[] }>(`${song(id)}/hearings`).then((a) => a.hearings),
  hear: (id: number, heard: Correction) => write<Hearing>("POST", `${song(id)}/hearings`, { heard }),
  decide: (id: number, hearing: number, decision: Decision) =>
    write<unknown>("POST", `${song(id)}/hearings/${hearing}/decision`, { decision }),
  dropHearing: (id: number, hearing: number) => write<void>("DELETE", `${song(id)}/hearings/${hearing}`),

  judge: (id: number, verdict: NewVerdict) => write<Verdict>("POST", `${song(id)}/verdicts`, verdict),
  dropVerdict: (id: number, verdict: number) => write<void>("DELETE", `${song(id)}/verdicts/${verdict}`),

  techniques: () => get<{ techniques: NamedTechnique[] }>("/api/techniques").then((a) => a.techniques),
  trend: (question: TrendQuestion) => get<Trend>(address(question)),
  unusual: (id: number) => get<Unusual>(`${song(id)}/unusual`),

  drills: (id: number, seed: number) => get<{ drills: Drill[] }>(`${song(id)}/drills?seed=${seed}`).then((a) => a.drills),
  drillPagePath: (id: number, seed: number) => `${song(id)}/drills/page?seed=${seed}`,
  drillAnswersPath: (id: number, seed: number) => `${song(id)}/drills/answers?seed=${seed}`,
  sketches: () => get<{ techniques: { technique: string; name: string }[] }>("/api/sketches").then((a) => a.techniques),
  sketch: (technique: string, seed: number, beside?: number) => get<Sketch>(`/api/sketches/${technique}?${sketchWords(seed, beside)}`),
  sketchPath: (technique: string, file: string, seed: number, beside?: number) => `/api/sketches/${technique}/${file}?${sketchWords(seed, beside)}`,

  work: () => get<{ work: Work[] }>("/api/work").then((a) => a.work),
  endWork: (id: number) => write<void>("DELETE", `/api/work/${id}`),
  async bringIn(file: File): Promise<Work> {
    const headers = { "X-Undersong-Token": token(), "Content-Type": "application/octet-stream" };
    const response = await ask(`/api/uploads?name=${encodeURIComponent(file.name)}`, { method: "POST", headers, body: file });
    return (await response.json()) as Work;
  },

  search: (question: string) => get<{ hits: SearchHit[] }>(`/api/search?question=${encodeURIComponent(question)}`).then((a) => a.hits),
  like: (id: number, from: number, to: number) =>
    get<{ songs: LikeSong[] }>(`${song(id)}/like?fromSeconds=${from}&toSeconds=${to}`).then((a) => a.songs),
  compare: (first: string, second: string) =>
    get<Comparison>(`/api/compare?first=${encodeURIComponent(first)}&second=${encodeURIComponent(second)}`),
  searches: () => get<{ searches: KeptSearch[] }>("/api/searches").then((a) => a.searches),
  keepSearch: (kept: KeptSearch) => write<void>("POST", "/api/searches", kept),
  dropSearch: (name: string) => write<void>("DELETE", `/api/searches/${encodeURIComponent(name)}`),

  lessonOffers: async (id: number) => (await get<{ items: LessonItem[] }>(`${song(id)}/lesson-offers`)).items,
  draftLesson: (id: number, items = 10) => get<Lesson>(`${song(id)}/lesson-draft?items=${items}`),
  lessons: (id: number) => get<{ lessons: KeptLesson[] }>(`${song(id)}/lessons`).then((a) => a.lessons),
  addLesson: (id: number, lesson: Lesson) => write<KeptLesson>("POST", `${song(id)}/lessons`, { lesson }),
  saveLesson: (kept: number, version: number, lesson: Lesson) => write<KeptLesson>("PUT", `/api/lessons/${kept}`, { version, lesson }),
  dropLesson: (kept: number) => write<void>("DELETE", `/api/lessons/${kept}`),
  lessonPath: (kept: number) => `/api/lessons/${kept}/page`,

  settings: () => get<Settings>("/api/settings"),
  set: (change: Settings) => write<Settings>("PATCH", "/api/settings", change),
  speaker: () => get<Speaker>("/api/speaker"),
  speakAs: (name: string) => write<Speaker>("PUT", "/api/speaker", { name }),

  soundPath: (id: number) => `${song(id)}/sound`,
  checkPath: (id: number, layers: string) => `${song(id)}/check?layers=${encodeURIComponent(layers)}`,
  focusPath: (id: number, focus: Focus) => `${song(id)}/focus/${focus}`,
  partOverPath: (id: number, copy: { letter: string; occurrence: number }, part: string) =>
    `${song(id)}/part-over?letter=${encodeURIComponent(copy.letter)}&occurrence=${copy.occurrence}&part=${encodeURIComponent(part)}`,
  heardPath: (id: number, hearing: number) => `${song(id)}/hearings/${hearing}/tones`,
  plainPath: (id: number, technique: string, startSeconds: number) => `${song(id)}/plain?technique=${encodeURIComponent(technique)}&atSeconds=${startSeconds}`,
  picturePath: (id: number, from: number, to: number, columns: number) =>
    `${song(id)}/picture?fromSeconds=${from}&toSeconds=${to}&columns=${columns}`,
};
