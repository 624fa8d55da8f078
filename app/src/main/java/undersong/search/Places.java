package undersong.search;

import java.util.ArrayList;
import java.util.List;
import undersong.search.SongLines.ChordAt;
import undersong.search.SongLines.NoteAt;
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
    List<Place> places = new ArrayList<>();
    int turns = round ? wanted.size() : 1;
    List<ChordAt> chords = song.chords();
    int at = 0;
    while (at + wanted.size() <= chords.size()) {
      boolean found = false;
      for (int turn = 0; turn < turns && !found; turn++) {
        found = fits(chords, at, wanted, turn) && (!round || goesRound(chords, at, wanted.size()));
      }
      if (found) {
        ChordAt first = chords.get(at);
        ChordAt last = chords.get(at + wanted.size() - 1);
        Span span = new Span(first.startSeconds(), last.endSeconds());
        places.add(new Place(span, first.bar(), Math.max(first.bar(), last.bar())));
      }
      at += found ? wanted.size() : 1;
    }
    return places;
  }

  private static boolean fits(List<ChordAt> chords, int at, List<ChordWanted> wanted, int turn) {
    for (int i = 0; i < wanted.size(); i++) {
      if (!wanted.get((i + turn) % wanted.size()).fits(chords.get(at + i))) {
        return false;
      }
    }
    return true;
  }

  /**
   * Whether the chord after the last is the first again, as in a loop; the song's end counts as
   * well.
   */
  private static boolean goesRound(List<ChordAt> chords, int at, int length) {
    int next = at + length;
    boolean onwards = next < chords.size() && chords.get(next).sameChord(chords.get(at));
    boolean before = at > 0 && chords.get(at - 1).sameChord(chords.get(at + length - 1));
    return onwards || before;
  }

  /** Every place where the figure's notes follow one another; places do not overlap. */
  public static List<Place> figure(SongLines song, Figure figure) {
    List<Place> places = new ArrayList<>();
    List<NoteAt> notes = figure.inBass() ? song.bass() : song.tune();
    int at = 0;
    while (at + figure.notes() <= notes.size()) {
      if (fits(notes, at, figure)) {
        NoteAt first = notes.get(at);
        NoteAt last = notes.get(at + figure.notes() - 1);
        places.add(
            new Place(new Span(first.startSeconds(), last.endSeconds()), first.bar(), last.bar()));
        at += figure.notes();
      } else {
        at++;
      }
    }
    return places;
  }

  private static boolean fits(List<NoteAt> notes, int at, Figure figure) {
    for (int i = 0; i < figure.notes(); i++) {
      NoteAt note = notes.get(at + i);
      if (!figure.degrees().isEmpty() && figure.degrees().get(i) != note.degree()) {
        return false;
      }
      if (i > 0) {
        int step = note.midi() - notes.get(at + i - 1).midi();
        if (!figure.steps().isEmpty() && figure.steps().get(i - 1) != step) {
          return false;
        }
        if (!figure.beats().isEmpty()
            && Math.abs(figure.beats().get(i - 1) - note.beats()) > 0.13) {
          return false;
        }
      }
    }
    return true;
  }
}
