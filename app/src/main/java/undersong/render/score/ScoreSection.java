package undersong.render.score;

import java.util.List;
import java.util.Map;
import undersong.reading.SectionRole;
import undersong.theory.ChordSymbol;
import undersong.theory.Key;

/**
 * One section as written.
 *
 * @param letter same letter = same music
 * @param earlyBeats how far all chords, and the parts that follow them, come before their place
 * @param transposedSemitones against the section it was copied from
 */
record ScoreSection(
    String name,
    SectionRole role,
    String letter,
    int bars,
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
}
