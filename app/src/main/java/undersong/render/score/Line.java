package undersong.render.score;

import java.util.List;
import java.util.Optional;

/**
 * What one part does in one section: written notes with their syllables, or a pattern.
 *
 * @param syllables one per note, or none at all; "_" sings on with the vowel before
 */
record Line(
    List<Placed<Written>> notes, List<String> syllables, Optional<Pattern> pattern, Mix mix) {
  Line {
    notes = List.copyOf(notes);
    syllables = List.copyOf(syllables);
  }
}
