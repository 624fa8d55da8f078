import { useEffect, useRef, useState } from "preact/hooks";
import { desk } from "../api/calls";
import { DrillBox } from "../drill/box";
import { silence } from "../lesson/tones";
import { songAddress } from "../route";

/** Exercises for the ear on what was found in a song: one at a time, answered at once. */
export function DrillsPage({ song }: { song: number }) {
  const box = useRef<HTMLDivElement>(null);
  const [seed, setSeed] = useState(1);
  const [said, setSaid] = useState("Making the exercises");
  useEffect(() => {
    document.title = "Exercises · Undersong";
    let gone = false;
    desk.drills(song, seed).then((drills) => {
      if (gone || !box.current) return;
      box.current.replaceChildren();
      setSaid(drills.length > 0 ? "" : "There is nothing in this song to make exercises of.");
      if (drills.length > 0) new DrillBox(box.current, drills, `song-${song}`);
    }, (refused: Error) => !gone && setSaid(refused.message));
    return () => {
      gone = true;
      silence();
    };
  }, [song, seed]);
  return (
    <main class="sheet drills">
      <h1>Exercises</h1>
      <p><a href={songAddress(song)}>Back to the song</a></p>
      <p class="soft">Fresh keys and plain tones, on the techniques found in the song. They sound at once and need no recording.</p>
      <p role="status">{said}</p>
      <div ref={box} />
      <p>
        <button type="button" onClick={() => setSeed(seed + 1)}>Other exercises</button>{" "}
        <a href={desk.drillPagePath(song, seed)} download="exercises.html">These as one page</a>{" "}
        <a href={desk.drillAnswersPath(song, seed)} download="answers.txt">Their answers</a>
      </p>
    </main>
  );
}
