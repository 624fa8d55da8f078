package undersong.notation;

import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/**
 * The signs a length can be written with, in ticks: {@link #TICKS_PER_QUARTER} a quarter note, so
 * that 32nds and triplets of 16ths are whole numbers.
 */
public enum NoteValue {
  WHOLE_DOTTED("whole", 1, 144),
  WHOLE("whole", 0, 96),
  HALF_DOTTED("half", 1, 72),
  HALF("half", 0, 48),
  QUARTER_DOTTED("quarter", 1, 36),
  QUARTER("quarter", 0, 24),
  EIGHTH_DOTTED("eighth", 1, 18),
  EIGHTH("eighth", 0, 12),
  SIXTEENTH_DOTTED("16th", 1, 9),
  SIXTEENTH("16th", 0, 6),
  THIRTY_SECOND("32nd", 0, 3);

  public static final int TICKS_PER_QUARTER = 24;

  private static final List<NoteValue> LONGEST_FIRST =
      Arrays.stream(values()).sorted(Comparator.comparingInt(v -> -v.ticks)).toList();

  private final String type;
  private final int dots;
  private final int ticks;

  NoteValue(String type, int dots, int ticks) {
    this.type = type;
    this.dots = dots;
    this.ticks = ticks;
  }

  /** The name of the sign without dots, as MusicXML's note-type-value has it. */
  public String type() {
    return type;
  }

  public int dots() {
    return dots;
  }

  public int ticks() {
    return ticks;
  }

  /** The sign that lasts exactly so long; empty where two must be tied. */
  public static Optional<NoteValue> of(int ticks) {
    return LONGEST_FIRST.stream().filter(value -> value.ticks == ticks).findFirst();
  }

  static List<NoteValue> longestFirst() {
    return LONGEST_FIRST;
  }
}
