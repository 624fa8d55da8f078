package undersong.render.score;

import java.util.List;
import java.util.Map;
import undersong.reading.SectionRole;
import undersong.reading.TimeSignature;
import undersong.theory.ChordSymbol;
import undersong.theory.Key;

/**
 * One section as written.
 *
 * @param meter its bars stand in
 * @param bpm its tempo
 * @param letter same letter = same music
 * @param earlyBeats how far all chords, and the parts that follow them, come before their place
 * @param transposedSemitones against the section it was copied from
 */
record ScoreSection(
    String name,
    SectionRole role,
    String letter,
    int bars,
    TimeSignature meter,
    double bpm,
    double earlyBeats,
    int transposedSemitones,
    Key key,
    List<Placed<ChordSymbol>> chords,
    Map<String, Line> lines,
    List<Plant> plants) {
  ScoreSection {
    chords = List.copyOf(chords);
    lines = Map.copyOf(lines);
    plants = List.copyOf(plants);
  }

  int beats() {
    return bars * meter.beats();
  }
}
