package undersong.study;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import undersong.reading.Reading;
import undersong.search.Likeness;
import undersong.search.SongLines;
import undersong.shelf.Song;
import undersong.technique.Arc;
import undersong.technique.Finding;
import undersong.technique.Technique;
import undersong.time.Span;

/**
 * Two songs, or two stretches, side by side.
 *
 * @param both techniques found in both
 * @param onlyFirst found in the first alone
 * @param onlySecond found in the second alone
 * @param progression the longest succession of chords that both have, seen from their keys; empty
 *     where it is shorter than three chords
 * @param figure the longest figure of the tunes that both have, at any pitch; empty where it is
 *     shorter than five notes
 * @param likeness of the first to the best of the second, 0 to 1
 * @param firstEnergy height of each section of the first, as {@link Arc} has it
 */
public record SongComparison(
    Song first,
    Song second,
    Set<Technique> both,
    Set<Technique> onlyFirst,
    Set<Technique> onlySecond,
    Optional<Shared> progression,
    Optional<Shared> figure,
    double likeness,
    List<Energy> firstEnergy,
    List<Energy> secondEnergy) {
  private static final double TOLD_FROM = 0.5;
  private static final int LEAST_CHORDS = 3;
  private static final int LEAST_STEPS = 4;

  /**
   * Something both have.
   *
   * @param length chords or notes
   * @param semitones the second higher than the first; 0 for chords, which are seen from the key
   * @param words in numerals or degrees
   */
  public record Shared(int length, Span inFirst, Span inSecond, int semitones, String words) {}

  /** One section: where, and how high it stands. */
  public record Energy(Span span, String letter, double height) {}

  /** One side of a comparison. */
  record Side(Song song, Reading reading, SongLines lines, List<Finding> findings) {}

  static SongComparison of(Side one, Side other) {
    Set<Technique> first = techniques(one.findings());
    Set<Technique> second = techniques(other.findings());
    Set<Technique> both = EnumSet.noneOf(Technique.class);
    both.addAll(first);
    both.retainAll(second);
    first.removeAll(both);
    second.removeAll(both);
    return new SongComparison(
        one.song(),
        other.song(),
        both,
        first,
        second,
        SharedMusic.progression(one.lines(), other.lines(), LEAST_CHORDS),
        SharedMusic.figure(one.lines(), other.lines(), LEAST_STEPS),
        Likeness.of(one.lines(), other.lines()).score(),
        energy(one.reading()),
        energy(other.reading()));
  }

  private static Set<Technique> techniques(List<Finding> findings) {
    Set<Technique> found = EnumSet.noneOf(Technique.class);
    findings.stream()
        .filter(finding -> finding.probability() >= TOLD_FROM)
        .forEach(finding -> found.add(finding.technique()));
    return found;
  }

  private static List<Energy> energy(Reading reading) {
    List<Energy> energy = new ArrayList<>();
    for (Arc.Stage stage : Arc.of(reading).stages()) {
      energy.add(
          new Energy(stage.section().span(), stage.section().section().letter(), stage.height()));
    }
    return energy;
  }
}
