package undersong.estimate.chord;

import java.util.List;
import java.util.Locale;
import undersong.reading.Bass;
import undersong.reading.Melody;
import undersong.reading.Member;
import undersong.reading.NoteEvent;
import undersong.reading.Presence;

/** Tells what sounds within one chord: from its own evidence, its copies, the voices, the bass. */
final class MemberReader {
  /** Mean log-odds above which a pitch class counts as sounding. */
  private static final double SOUNDS = -2.0;

  /** The same for a fifth, which the bass's own third partial fakes. */
  private static final double FIFTH_SOUNDS = 0;

  /** Mean log-odds from which another copy implies a member. */
  private static final double NO_DOUBT = 1;

  /** A voice that dwells on a note this share of the chord makes it part of the harmony. */
  private static final double DWELLS = 0.4;

  private final ChordEvidence own;
  private final SharedRepeats repeats;
  private final StepGrid grid;
  private final Melody melody;
  private final Bass bass;

  MemberReader(ChordEvidence own, SharedRepeats repeats, StepGrid grid, Melody melody, Bass bass) {
    this.own = own;
    this.repeats = repeats;
    this.grid = grid;
    this.melody = melody;
    this.bass = bass;
  }

  /** Mean log-odds of a pitch class over [from, to) steps, weighted by their length. */
  double strength(int pitchClass, int from, int to) {
    double sum = 0;
    double weights = 0;
    for (int step = from; step < to; step++) {
      if (own.sounds(step)) {
        sum += grid.weight(step) * own.pitchClasses(step)[Math.floorMod(pitchClass, 12)];
        weights += grid.weight(step);
      }
    }
    return weights == 0 ? -10 : sum / weights;
  }

  boolean sounds(int pitchClass, int from, int to) {
    return strength(pitchClass, from, to) > SOUNDS;
  }

  /** Whether more than an overtone of the bass sounds a perfect fifth above the root. */
  boolean fifthSounds(int root, int from, int to) {
    return strength(root + 7, from, to) > FIFTH_SOUNDS;
  }

  /** Share of the chord that a leading voice spends on a pitch class. */
  double voiceShare(int pitchClass, int from, int to) {
    return share(melody.notes(), pitchClass, from, to);
  }

  boolean voiceDwells(int pitchClass, int from, int to) {
    return voiceShare(pitchClass, from, to) >= DWELLS;
  }

  /** Share of the chord that the bass spends on a pitch class. */
  double bassShare(int pitchClass, int from, int to) {
    return share(bass.notes(), pitchClass, from, to);
  }

  private double share(List<NoteEvent> notes, int pitchClass, int from, int to) {
    double start = grid.startSeconds(from);
    double end = grid.endSeconds(to - 1);
    double sum = 0;
    for (int i = firstEndingAfter(notes, start); i < notes.size(); i++) {
      NoteEvent note = notes.get(i);
      if (note.span().startSeconds() >= end) {
        break;
      }
      if (note.pitchClass() == Math.floorMod(pitchClass, 12)) {
        sum +=
            Math.min(end, note.span().endSeconds()) - Math.max(start, note.span().startSeconds());
      }
    }
    return sum / (end - start);
  }

  /** Notes are in order and do not overlap. */
  static int firstEndingAfter(List<NoteEvent> notes, double seconds) {
    int low = 0;
    int high = notes.size();
    while (low < high) {
      int middle = (low + high) >>> 1;
      if (notes.get(middle).span().endSeconds() > seconds) {
        high = middle;
      } else {
        low = middle + 1;
      }
    }
    return low;
  }

  /** The presence of one pitch class as a member of the chord over [from, to) steps. */
  Member member(int pitchClass, int from, int to) {
    boolean played = sounds(pitchClass, from, to);
    boolean sung = voiceShare(pitchClass, from, to) > 0;
    if (played || sung) {
      return new Member(
          played ? Presence.SOUNDING : Presence.ABSENT,
          sung ? Presence.SOUNDING : Presence.ABSENT,
          "");
    }
    for (int[] copy : repeats.copiesOf(grid.bar((from + to) / 2))) {
      int first = Math.max(0, from + copy[0]);
      int last = Math.min(own.steps(), to + copy[0]);
      if (first < last && strength(pitchClass - copy[1], first, last) > NO_DOUBT) {
        return new Member(
            Presence.IMPLIED,
            Presence.ABSENT,
            "the same music at " + clockTime(grid.startSeconds(first)));
      }
    }
    return Member.ABSENT;
  }

  private static String clockTime(double seconds) {
    int whole = (int) seconds;
    return String.format(Locale.ROOT, "%d:%02d", whole / 60, whole % 60);
  }
}
