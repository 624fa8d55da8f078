package undersong.search;

import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import undersong.technique.Technique;

/**
 * What is looked for; a song must have all of it.
 *
 * @param words each in title, artist, key, meter or file name
 * @param artist part of the artist's name; "" for anybody
 * @param key words such as "d minor" or "minor"; "" for any
 * @param meter such as 3/4; "" for any
 * @param bpm from and to
 * @param years from and to
 * @param with techniques found in it
 * @param without techniques not found in it
 * @param chords that follow one another
 * @param round whether they may begin anywhere in a loop that goes round
 * @param figure notes that follow one another
 */
public record Wanted(
    List<String> words,
    String artist,
    String key,
    String meter,
    Optional<Range> bpm,
    Optional<Range> years,
    Set<Technique> with,
    Set<Technique> without,
    List<ChordWanted> chords,
    boolean round,
    Optional<Figure> figure) {
  public Wanted {
    words = List.copyOf(words);
    with = Set.copyOf(with);
    without = Set.copyOf(without);
    chords = List.copyOf(chords);
  }

  /** Both ends belong to it. */
  public record Range(double from, double to) {
    public Range {
      if (!(from <= to)) {
        throw new IllegalArgumentException(
            "A range from %s to %s must not run backwards.".formatted(from, to));
      }
    }

    boolean contains(double value) {
      return value >= from && value <= to;
    }
  }

  /**
   * One chord looked for.
   *
   * @param degree semitones of its root above the tonic; empty for any chord
   * @param thirds semitones its third may lie above its root; empty where the quality is open
   * @param quality exactly this one, by its Harte shorthand; empty where only the third counts
   * @param bass semitones of its lowest note above the tonic; empty for any
   */
  public record ChordWanted(
      OptionalInt degree, OptionalInt thirds, Optional<String> quality, OptionalInt bass) {
    public static final ChordWanted ANY =
        new ChordWanted(
            OptionalInt.empty(), OptionalInt.empty(), Optional.empty(), OptionalInt.empty());

    boolean fits(ChordLine chords, int place) {
      return (degree.isEmpty() || degree.getAsInt() == chords.degree(place))
          && (thirds.isEmpty()
              || (thirds.getAsInt() == 4
                  ? chords.quality(place).hasMajorThird()
                  : chords.quality(place).hasMinorThird()))
          && (quality.isEmpty() || quality.get().equals(chords.quality(place).harte()))
          && (bass.isEmpty() || bass.getAsInt() == chords.bass(place));
    }
  }

  /**
   * A figure looked for in tune or bass.
   *
   * @param inBass whether in the bass, else in the tune
   * @param degrees semitones above the tonic, one a note; empty where only steps count
   * @param steps semitones from note to note; empty where degrees count
   * @param beats from note to note; empty where the rhythm is open
   */
  public record Figure(
      boolean inBass, List<Integer> degrees, List<Integer> steps, List<Double> beats) {
    public Figure {
      degrees = List.copyOf(degrees);
      steps = List.copyOf(steps);
      beats = List.copyOf(beats);
      if (degrees.isEmpty() == steps.isEmpty()) {
        throw new IllegalArgumentException("A figure is given by degrees or by steps.");
      }
      int notes = degrees.isEmpty() ? steps.size() + 1 : degrees.size();
      if (!beats.isEmpty() && beats.size() != notes - 1) {
        throw new IllegalArgumentException(
            "A figure of %d notes has %d lengths from note to note, not %d."
                .formatted(notes, notes - 1, beats.size()));
      }
    }

    int notes() {
      return degrees.isEmpty() ? steps.size() + 1 : degrees.size();
    }
  }

  /** Whether anything musical is looked for, so that places can be told. */
  public boolean hasPlaces() {
    return !chords.isEmpty() || figure.isPresent() || !with.isEmpty();
  }
}
