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

  /** As {@link #chords(SongLines, ChordRow)}, for one song. */
  public static List<Place> chords(SongLines song, List<ChordWanted> wanted, boolean round) {
    return chords(song, new ChordRow(wanted, round));
  }

  /** Every place where all of the chords follow one another; places do not overlap. */
  public static List<Place> chords(SongLines song, ChordRow wanted) {
    ChordLine chords = song.chordLine();
    List<int[]> found = new ArrayList<>(0);
    int last = chords.size() - wanted.length();
    int at = 0;
    while (at <= last) {
      boolean here = wanted.fits(chords, at);
      if (here) {
        found.add(new int[] {at, at + wanted.length() - 1});
      }
      at += here ? wanted.length() : 1;
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

  /** Every place where the figure's notes follow one another; places do not overlap. */
  public static List<Place> figure(SongLines song, Figure figure) {
    NoteLine notes = figure.inBass() ? song.bassLine() : song.tuneLine();
    int[] degrees = figure.degrees().stream().mapToInt(Integer::intValue).toArray();
    int[] steps = figure.steps().stream().mapToInt(Integer::intValue).toArray();
    double[] beats = figure.beats().stream().mapToDouble(Double::doubleValue).toArray();
    List<int[]> found = new ArrayList<>(0);
    int length = figure.notes();
    int last = notes.size() - length;
    int at = 0;
    while (at <= last) {
      if (fits(notes, at, degrees, steps, beats)) {
        found.add(new int[] {at, at + length - 1});
        at += length;
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
