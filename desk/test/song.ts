import type { Bar, Chord, Note, Section, SongPage } from "../src/api/types";

/** A little song made up for these tests: bars of four beats at 120, sections by letter and number of bars. */
export function song(form: [letter: string, bars: number, lifted?: number][], change: Partial<SongPage> = {}): SongPage {
  const sections: Section[] = [];
  const bars: Bar[] = [];
  const seen = new Map<string, number>();
  for (const [letter, count, lifted = 0] of form) {
    const firstBar = bars.length + 1;
    for (let i = 0; i < count; i++) {
      const number = bars.length + 1;
      bars.push({ number, startSeconds: 2 * (number - 1), endSeconds: 2 * number, firstBeat: 4 * (number - 1), beats: 4, signature: "4/4" });
    }
    seen.set(letter, (seen.get(letter) ?? 0) + 1);
    sections.push({
      startSeconds: 2 * (firstBar - 1), endSeconds: 2 * bars.length, firstBar, lastBar: bars.length, letter,
      occurrence: seen.get(letter)!, transposedSemitones: lifted, probability: 0.9, name: `${letter} ${seen.get(letter)}`,
    });
  }
  const end = 2 * bars.length;
  return {
    song: { id: 1, title: "Rope Walk", durationSeconds: end, studiedAt: "2026-11-25T00:00:00Z", origin: "recording", said: {}, tagged: {} },
    revision: 1, settings: {}, facts: { keys: "" }, beats: Array.from({ length: 4 * bars.length }, (_, beat) => beat / 2), bars, sections,
    keys: [], chords: [], bass: [], melody: [], steps: [], canUndo: false, canRedo: false, unplaced: [], ...change,
  };
}

export function chord(startBeat: number, endBeat: number, label: string, change: Partial<Chord> = {}): Chord {
  return {
    startSeconds: startBeat / 2, endSeconds: endBeat / 2, startBeat, endBeat, harte: `${label}:maj`, label, numeral: label, arrivalBeats: 0,
    probability: 0.9, open: false, runnersUp: [], ...change,
  };
}

export function note(startBeat: number, endBeat: number, midi: number, degree: string): Note {
  return {
    startSeconds: startBeat / 2, endSeconds: endBeat / 2, startBeat, endBeat, midi, pitch: "C4", name: "C", syllable: degree, degree,
    cents: 0, probability: 0.9, open: false,
  };
}
