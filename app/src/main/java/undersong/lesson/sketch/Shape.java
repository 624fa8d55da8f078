package undersong.lesson.sketch;

import java.util.ArrayList;
import java.util.List;

/**
 * What a sketch is made of before it has a key, a pace and a tune: sections of bars in numerals,
 * and what its technique asks of the parts.
 *
 * @param minor whether the numerals are read in minor
 * @param sections in order
 * @param shownFrom first bar of the whole in which the technique stands, counted from 1
 * @param shownTo last such bar
 * @param why what the technique does here, for a student
 */
record Shape(boolean minor, List<Part> sections, int shownFrom, int shownTo, String why) {
  /**
   * One section.
   *
   * @param chords by bar: numerals, several a bar with spaces; a pedal as "IV over 1"
   * @param head settings of the section: early, up, meter, tempo
   * @param lines of the score that replace or join the usual parts
   * @param tune what the tune must do
   */
  record Part(
      String role, String letter, List<String> chords, String head, List<String> lines, Tune tune) {
    Part {
      chords = List.copyOf(chords);
      lines = List.copyOf(lines);
    }

    static Part of(String letter, String chords, String... lines) {
      return new Part(
          "verse", letter, List.of(chords.split(" \\| ", -1)), "", List.of(lines), Tune.FREE);
    }

    Part as(String otherRole) {
      return new Part(otherRole, letter, chords, head, lines, tune);
    }

    Part with(String otherHead) {
      return new Part(role, letter, chords, otherHead, lines, tune);
    }

    Part sung(Tune otherTune) {
      return new Part(role, letter, chords, head, lines, otherTune);
    }
  }

  /** What a tune must do in a section. */
  enum Tune {
    /** Chord tones on strong beats, steps between. */
    FREE,
    /** The same figure, carried to the next step of the scale. */
    SEQUENCE,
    /** Every second bar rests on a ninth over the chord. */
    TENSION,
    /** One note held through four bars while the chords change. */
    HELD,
    /** Low in the voice. */
    LOW,
    /** A sixth higher than that at least. */
    HIGH,
    /** The last bar stops with everything else on its second half beat. */
    STOPS,
    /** Every second bar is left to another part, which answers. */
    CALLS,
    /** Nobody sings. */
    SILENT
  }

  int bars() {
    return sections.stream().mapToInt(part -> part.chords().size()).sum();
  }

  static Shape of(boolean minor, int from, int to, String why, Part... sections) {
    return new Shape(minor, new ArrayList<>(List.of(sections)), from, to, why);
  }
}
