package undersong.study;

import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import undersong.search.SongLines;
import undersong.search.SongLines.ChordAt;
import undersong.search.SongLines.NoteAt;
import undersong.study.SongComparison.Shared;
import undersong.theory.ScaleDegree;
import undersong.time.Span;

/** The longest music that two songs have in common. <b>Cost:</b> product of their lengths. */
final class SharedMusic {
  private static final List<String> DEGREES =
      List.of("1", "b2", "2", "b3", "3", "4", "#4", "5", "b6", "6", "b7", "7");

  private SharedMusic() {}

  /** The same chords in a row, each with the same third, seen from each song's key. */
  static Optional<Shared> progression(SongLines one, SongLines other, int least) {
    List<ChordAt> a = one.chords();
    List<ChordAt> b = other.chords();
    int[] end = longest(a.size(), b.size(), (i, k) -> same(a.get(i), b.get(k)));
    int length = end[2];
    if (length < least) {
      return Optional.empty();
    }
    int from = end[0] - length + 1;
    int fromOther = end[1] - length + 1;
    String words =
        a.subList(from, end[0] + 1).stream()
            .map(chord -> numeral(chord))
            .collect(Collectors.joining(" "));
    return Optional.of(
        new Shared(
            length,
            new Span(a.get(from).startSeconds(), a.get(end[0]).endSeconds()),
            new Span(b.get(fromOther).startSeconds(), b.get(end[1]).endSeconds()),
            0,
            words));
  }

  /** The same steps of the tune in the same rhythm, at any pitch. */
  static Optional<Shared> figure(SongLines one, SongLines other, int leastSteps) {
    List<NoteAt> a = one.tune();
    List<NoteAt> b = other.tune();
    int[] end =
        longest(
            a.size() - 1,
            b.size() - 1,
            (i, k) ->
                step(a, i) == step(b, k)
                    && Math.abs(a.get(i + 1).beats() - b.get(k + 1).beats()) < 0.13);
    int length = end[2];
    if (length < leastSteps) {
      return Optional.empty();
    }
    int from = end[0] - length + 1;
    int fromOther = end[1] - length + 1;
    String words =
        a.subList(from, end[0] + 2).stream()
            .map(note -> DEGREES.get(note.degree()))
            .collect(Collectors.joining(" "));
    return Optional.of(
        new Shared(
            length + 1,
            new Span(a.get(from).startSeconds(), a.get(end[0] + 1).endSeconds()),
            new Span(b.get(fromOther).startSeconds(), b.get(end[1] + 1).endSeconds()),
            b.get(fromOther).midi() - a.get(from).midi(),
            words));
  }

  private static boolean same(ChordAt one, ChordAt other) {
    return one.degree() == other.degree()
        && one.quality().hasMajorThird() == other.quality().hasMajorThird()
        && one.quality().hasMinorThird() == other.quality().hasMinorThird();
  }

  private static int step(List<NoteAt> notes, int place) {
    return notes.get(place + 1).midi() - notes.get(place).midi();
  }

  private static String numeral(ChordAt chord) {
    ScaleDegree degree = ScaleDegree.parse(DEGREES.get(chord.degree()));
    String roman = List.of("I", "II", "III", "IV", "V", "VI", "VII").get(degree.step() - 1);
    String signs = degree.alteration() < 0 ? "b" : degree.alteration() > 0 ? "#" : "";
    return signs
        + (chord.quality().hasMinorThird() ? roman.toLowerCase(java.util.Locale.ROOT) : roman);
  }

  private interface Same {
    boolean at(int i, int k);
  }

  /** Where the longest common run ends in either, and its length. */
  private static int[] longest(int items, int others, Same same) {
    int[] best = {-1, -1, 0};
    int[] before = new int[Math.max(0, others) + 1];
    for (int i = 0; i < items; i++) {
      int[] here = new int[others + 1];
      for (int k = 0; k < others; k++) {
        here[k + 1] = same.at(i, k) ? before[k] + 1 : 0;
        if (here[k + 1] > best[2]) {
          best = new int[] {i, k, here[k + 1]};
        }
      }
      before = here;
    }
    return best;
  }
}
