package undersong.lesson.sketch;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import undersong.reading.Facet;
import undersong.reading.HarmonyEvent;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;
import undersong.theory.RomanNumeral;

/**
 * How much two pieces have in common.
 *
 * @param notes of the longest figure that both tunes have: the same steps in the same rhythm, at
 *     any pitch; 0 where nothing was compared
 * @param chords of the longest succession of numerals that both have
 */
public record Quotation(int notes, int chords) {
  public static final Quotation NONE = new Quotation(0, 0);

  /** Figures up to this long are everybody's. */
  public static final int MOST_NOTES = 6;

  /**
   * Successions up to this long are everybody's: a loop of four chords played twice. Few loops of
   * four are any song's own, so a shorter limit would forbid what most songs share; more than two
   * rounds in step with the song begin to copy its plan.
   */
  public static final int MOST_CHORDS = 8;

  /** Compares a sketch with the song it was made beside. <b>Cost:</b> product of their lengths. */
  static Quotation between(Reading sketch, List<RomanNumeral> chords, Reading song) {
    int steps = longestCommon(steps(sketch), steps(song));
    List<RomanNumeral> ofSong =
        song.get(Facet.HARMONY).events().stream()
            .map(HarmonyEvent::numeral)
            .flatMap(java.util.Optional::stream)
            .toList();
    return new Quotation(
        steps == 0 ? 0 : steps + 1, longestCommon(withoutRepeats(chords), withoutRepeats(ofSong)));
  }

  /** From note to note: semitones, and how many half beats later it begins. */
  private static List<List<Long>> steps(Reading reading) {
    List<NoteEvent> notes = reading.get(Facet.MELODY).notes();
    var grid = reading.get(Facet.BEATS).grid();
    List<List<Long>> steps = new ArrayList<>();
    for (int i = 1; i < notes.size() && !grid.isEmpty(); i++) {
      double beats =
          grid.positionAt(notes.get(i).span().startSeconds())
              - grid.positionAt(notes.get(i - 1).span().startSeconds());
      long semitones = Math.round(notes.get(i).midiPitch() - notes.get(i - 1).midiPitch());
      steps.add(List.of(semitones, Math.round(2 * beats)));
    }
    return steps;
  }

  private static <T> List<T> withoutRepeats(List<T> all) {
    List<T> different = new ArrayList<>();
    for (T one : all) {
      if (different.isEmpty() || !Objects.equals(different.get(different.size() - 1), one)) {
        different.add(one);
      }
    }
    return different;
  }

  private static <T> int longestCommon(List<T> one, List<T> other) {
    int longest = 0;
    int[] before = new int[other.size() + 1];
    for (T item : one) {
      int[] here = new int[other.size() + 1];
      for (int k = 0; k < other.size(); k++) {
        here[k + 1] = item.equals(other.get(k)) ? before[k] + 1 : 0;
        longest = Math.max(longest, here[k + 1]);
      }
      before = here;
    }
    return longest;
  }
}
