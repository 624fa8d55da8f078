package undersong.search;

import java.util.ArrayList;
import java.util.List;
import undersong.search.Wanted.ChordWanted;
import undersong.search.Wanted.Figure;
import undersong.time.Span;

/**
 * Where chords and figures occur in a song. <b>Cost:</b> the song's chords or notes times the
 * length of what is looked for.
 */
public final class Places {
  private Places() {}

  /**
   * @param fromBar and toBar as counted in the reading; 0 where there are none
   */
  public record Place(Span span, int fromBar, int toBar) {}

  /** Every place where all of the chords follow one another; places do not overlap. */
  public static List<Place> chords(SongLines song, List<ChordWanted> wanted, boolean round) {
    ChordLine chords = song.chordLine();
    List<int[]> found = new ArrayList<>();
    int turns = round ? wanted.size() : 1;
    int at = 0;
    while (at + wanted.size() <= chords.size()) {
      boolean here = false;
      for (int turn = 0; turn < turns && !here; turn++) {
        here = fits(chords, at, wanted, turn) && (!round || goesRound(chords, at, wanted.size()));
      }
      if (here) {
        found.add(new int[] {at, at + wanted.size() - 1});
      }
      at += here ? wanted.size() : 1;
    }
    return found.isEmpty() ? List.of() : places(found, chords.moments(last(found)));
  }

  private static int last(List<int[]> found) {
    return found.get(found.size() - 1)[1] + 1;
  }

  private static List<Place> places(List<int[]> found, PackedTimes.Moment[] moments) {
    return found.stream()
        .map(ends -> PackedTimes.place(moments[ends[0]], moments[ends[1]]))
        .toList();
  }

  private static boolean fits(ChordLine chords, int at, List<ChordWanted> wanted, int turn) {
    for (int i = 0; i < wanted.size(); i++) {
      if (!wanted.get((i + turn) % wanted.size()).fits(chords, at + i)) {
        return false;
      }
    }
    return true;
  }

  /**
   * Whether the chord after the last is the first again, as in a loop; the song's end counts as
   * well.
   */
  private static boolean goesRound(ChordLine chords, int at, int length) {
    int next = at + length;
    boolean onwards = next < chords.size() && chords.same(next, at);
    boolean before = at > 0 && chords.same(at - 1, at + length - 1);
    return onwards || before;
  }

  /** Every place where the figure's notes follow one another; places do not overlap. */
  public static List<Place> figure(SongLines song, Figure figure) {
    NoteLine notes = figure.inBass() ? song.bassLine() : song.tuneLine();
    int[] degrees = figure.degrees().stream().mapToInt(Integer::intValue).toArray();
    int[] steps = figure.steps().stream().mapToInt(Integer::intValue).toArray();
    double[] beats = figure.beats().stream().mapToDouble(Double::doubleValue).toArray();
    List<int[]> found = new ArrayList<>();
    int at = 0;
    while (at + figure.notes() <= notes.size()) {
      if (fits(notes, at, degrees, steps, beats)) {
        found.add(new int[] {at, at + figure.notes() - 1});
        at += figure.notes();
      } else {
        at++;
      }
    }
    return found.isEmpty() ? List.of() : places(found, notes.moments(last(found)));
  }

  private static boolean fits(NoteLine notes, int at, int[] degrees, int[] steps, double[] beats) {
    for (int i = 0; i < degrees.length; i++) {
      if (degrees[i] != notes.degree(at + i)) {
        return false;
      }
    }
    for (int i = 0; i < steps.length; i++) {
      if (steps[i] != notes.step(at + i + 1)) {
        return false;
      }
    }
    for (int i = 0; i < beats.length; i++) {
      if (Math.abs(beats[i] - notes.beats(at + i + 1)) > 0.13) {
        return false;
      }
    }
    return true;
  }
}
