import { useEffect, useState } from "preact/hooks";
import { desk } from "../api/calls";
import { songAddress } from "../route";
import { loadShelf, songs } from "../shelf/state";
import { place, shareWords } from "./draw";
import type { Grouping, NamedTechnique, Trend, TrendGroup } from "./types";

const GROUPINGS: [Grouping, string][] = [["decade", "decade"], ["year", "year"], ["artist", "artist"], ["origin", "where songs come from"]];
const SOURCES: [string, string][] = [
  ["recording", "recordings"], ["recording,memory", "recordings and memories"], ["recording,chart,memory", "everything, published charts too"],
];
const LINE_PIXELS = 220;

/** How often a technique or a progression occurs, group by group, with how far each number can be trusted. */
export function TrendsPage() {
  const [techniques, setTechniques] = useState<NamedTechnique[]>([]);
  const [technique, setTechnique] = useState("borrowed-chord");
  const [progression, setProgression] = useState("");
  const [by, setBy] = useState<Grouping>("decade");
  const [from, setFrom] = useState("recording");
  const [trend, setTrend] = useState<Trend | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  useEffect(() => {
    document.title = "Trends · Undersong";
    void desk.techniques().then(setTechniques, (reason: Error) => setTrouble(reason.message));
    if (!songs.value) void loadShelf();
  }, []);
  useEffect(() => {
    let gone = false;
    // Numerals are typed letter by letter; asked when the hand rests.
    const asks = setTimeout(() => {
      desk.trend({ technique, progression: progression.trim(), by, from }).then(
        (answer) => { if (!gone) { setTrend(answer); setTrouble(null); } },
        (reason: Error) => { if (!gone) { setTrend(null); setTrouble(reason.message); } },
      );
    }, progression ? 350 : 0);
    return () => { gone = true; clearTimeout(asks); };
  }, [technique, progression, by, from]);
  return (
    <main class="sheet trends">
      <h1>Trends</h1>
      <p class="soft">How often something occurs in the songs on this shelf. A shelf is a choice of songs, not a sample of all music.</p>
      <form class="trend-form" onSubmit={(event) => event.preventDefault()}>
        <label>
          Technique{" "}
          <select value={technique} disabled={progression.trim() !== ""} onChange={(event) => setTechnique(event.currentTarget.value)}>
            {techniques.map((one) => <option key={one.technique} value={one.technique}>{one.name}</option>)}
          </select>
        </label>
        <label>
          or numerals in a row{" "}
          <input value={progression} placeholder="I iii IV iv" onInput={(event) => setProgression(event.currentTarget.value)} />
        </label>
        <label>
          by{" "}
          <select value={by} onChange={(event) => setBy(event.currentTarget.value as Grouping)}>
            {GROUPINGS.map(([value, words]) => <option key={value} value={value}>{words}</option>)}
          </select>
        </label>
        <label>
          in{" "}
          <select value={from} onChange={(event) => setFrom(event.currentTarget.value)}>
            {SOURCES.map(([value, words]) => <option key={value} value={value}>{words}</option>)}
          </select>
        </label>
      </form>
      {trouble && <p class="trouble" role="alert">{trouble}</p>}
      {trend && <Answer trend={trend} />}
    </main>
  );
}

function Answer({ trend }: { trend: Trend }) {
  return (
    <section aria-live="polite" aria-label="Answer">
      <p class="said">{trend.said}</p>
      {trend.groups.length > 0 && (
        <table class="trend">
          <caption>{trend.words}: share of songs, with its 95 % interval</caption>
          <thead><tr><th scope="col">Group</th><th scope="col">Songs</th><th scope="col">0 to 100 %</th><th scope="col">Heard in</th></tr></thead>
          <tbody>{trend.groups.map((group) => <Group key={group.name} group={group} />)}</tbody>
        </table>
      )}
      {trend.ungrouped > 0 && <p class="soft">Left out, because they say no year or artist: {trend.ungrouped}.</p>}
    </section>
  );
}

function Group({ group }: { group: TrendGroup }) {
  const { low, at, high } = place(group, LINE_PIXELS);
  return (
    <tr class={group.tellable ? "" : "few"}>
      <th scope="row">{group.name}</th>
      <td>{shareWords(group)}{!group.tellable && <small> too few songs to tell</small>}</td>
      <td>
        <svg class="interval" width={LINE_PIXELS + 8} height={18} viewBox={`-4 0 ${LINE_PIXELS + 8} 18`} aria-hidden="true">
          <line class="whole" x1={0} x2={LINE_PIXELS} y1={9} y2={9} />
          <line class="range" x1={low} x2={high} y1={9} y2={9} />
          <line class="value" x1={at} x2={at} y1={2} y2={16} />
        </svg>
      </td>
      <td>{group.songIds.map((id, i) => <>{i > 0 && ", "}<a key={id} href={songAddress(id)}>{titleOf(id)}</a></>)}</td>
    </tr>
  );
}

const titleOf = (id: number) => songs.value?.find((song) => song.id === id)?.title ?? `song ${id}`;
