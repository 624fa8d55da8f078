import type { SongPage } from "../api/types";
import type { SongState } from "../song/state";
import { clock } from "../time/words";
import { listed } from "./changes";
import { groups, type Row } from "./rows";
import { soundOf, soundWords } from "./production";
import { roomAt, roomChange } from "./room";
import { repeatOf } from "./sameness";
import { chordWords, inBar, noteWord } from "./words";

/** All of the stack in rows and columns of words, for screen readers and for whoever likes tables. */
export function StackTable({ state }: { state: SongState }) {
  const page = state.page.value;
  return (
    <>
      <div class="stack-tools">
        <button type="button" class="plain" onClick={() => (state.asTable.value = false)}>Draw it as a stack</button>
      </div>
      {groups(page, "time").map(({ rows: [row] }) => [row, otherwise(page, row)] as const).map(([row, changes]) => (
        <table key={row.index} class="bars-table">
          <caption>{[`${row.section.name}, from ${clock(row.section.startSeconds)}`, roomChange(roomAt(page, row.section))].filter(Boolean).join(", ")}</caption>
          <thead>
            <tr><th scope="col">Bar</th><th scope="col">Time</th><th scope="col">Chords</th><th scope="col">Bass</th><th scope="col">Tune</th><th scope="col">Layers</th><th scope="col">Otherwise than before</th></tr>
          </thead>
          <tbody>
            {row.bars.map((bar) => {
              const chords = inBar(page.chords, bar);
              return (
                <tr key={bar.number}>
                  <th scope="row">{bar.number}</th>
                  <td>{clock(bar.startSeconds, true)}</td>
                  <td>{[...(chords.held ? [`(${chords.held.label})`] : []), ...chords.starting.map(chordWords)].join("; ")}</td>
                  <td>{inBar(page.bass, bar).starting.map((note) => `${note.name} ${noteWord(note)}`).join(", ")}</td>
                  <td>{inBar(page.melody, bar).starting.map((note) => `${note.name} ${noteWord(note)}`).join(", ")}</td>
                  <td>{soundWords(soundOf(page, bar))}</td>
                  <td>{changes.get(bar.number)}</td>
                </tr>
              );
            })}
          </tbody>
        </table>
      ))}
    </>
  );
}

/** For the bars of a row that returns: what they do otherwise than the earlier copy. */
function otherwise(page: SongPage, row: Row): Map<number, string> {
  const repeat = repeatOf(page, row);
  return new Map(repeat ? listed(repeat).map(({ bar, words }) => [bar, words.join("; ")]) : []);
}
