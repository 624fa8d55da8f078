import { useEffect, useState } from "preact/hooks";
import { desk } from "../api/calls";
import type { Sketch } from "../api/teaching";
import { sketchAddress, songAddress } from "../route";

const FILES: Record<string, string> = { "sketch.musicxml": "Notation (MusicXML)", "sketch.mid": "Notes (MIDI)", "sketch.wav": "Sound (WAV)", "sketch.txt": "What it does (text)" };

/** A new piece of a few bars that uses a technique: to be heard, read, and taken along. */
export function SketchPage({ technique, song }: { technique: string; song?: number }) {
  const [known, setKnown] = useState<{ technique: string; name: string }[]>([]);
  const [seed, setSeed] = useState(1);
  const [sketch, setSketch] = useState<Sketch | null>(null);
  const [trouble, setTrouble] = useState("");
  useEffect(() => {
    document.title = "Sketch · Undersong";
    desk.sketches().then(setKnown, (refused: Error) => setTrouble(refused.message));
  }, []);
  useEffect(() => {
    let gone = false;
    desk.sketch(technique, seed, song).then((made) => {
      if (gone) return;
      setSketch(made);
      setTrouble("");
    }, (refused: Error) => !gone && setTrouble(refused.message));
    return () => { gone = true; };
  }, [technique, seed, song]);
  const path = (file: string) => desk.sketchPath(technique, file, seed, song);
  return (
    <main class="sheet sketch">
      <h1>Sketch{sketch ? `: ${sketch.name}` : ""}</h1>
      {song !== undefined && <p><a href={songAddress(song)}>Back to the song</a></p>}
      <p>
        <label>
          Technique{" "}
          <select value={technique} onChange={(event) => { location.hash = sketchAddress(event.currentTarget.value, song); }}>
            {known.map((one) => <option key={one.technique} value={one.technique}>{one.name}</option>)}
          </select>
        </label>{" "}
        <button type="button" onClick={() => setSeed(seed + 1)}>Another one</button>
      </p>
      {trouble && <p class="trouble" role="alert">{trouble}</p>}
      {sketch && !trouble && (
        <>
          <audio key={path("sketch.wav")} controls preload="none" src={path("sketch.wav")} aria-label={`Sketch of ${sketch.name}`} />
          <pre class="sketch-words">{sketch.words.slice(sketch.words.indexOf("\n")).trim()}</pre>
          <p class="take-along">{sketch.files.map((file) => <a key={file} href={path(file)} download={file}>{FILES[file] ?? file}</a>)}</p>
        </>
      )}
    </main>
  );
}
