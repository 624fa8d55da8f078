package undersong.theory;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import undersong.theory.ChordSymbol.Chord;

/** A tonic and a mode. */
public record Key(NoteName tonic, Mode mode) {
  public Key {
    if (tonic == null || mode == null) {
      throw new IllegalArgumentException("A key needs a tonic and a mode.");
    }
  }

  /** Parses "C major", "F# harmonic minor", "D dorian"; "A minor" is natural minor. */
  public static Key parse(String text) {
    int space = text.indexOf(' ');
    String words = text.substring(space + 1);
    for (Mode mode : Mode.values()) {
      boolean plainMinor = mode == Mode.NATURAL_MINOR && words.equals("minor");
      if (space > 0 && (mode.words().equals(words) || plainMinor)) {
        return new Key(NoteName.parse(text.substring(0, space)), mode);
      }
    }
    throw new IllegalArgumentException(
        "Key \"%s\" must be a note name and a mode, such as Bb major or D dorian.".formatted(text));
  }

  /** Degree of a scale step 0 to 6 against the major scale of the tonic. */
  public ScaleDegree degreeOfStep(int step) {
    int natural = Mode.MAJOR.semitonesOfStep(step);
    return new ScaleDegree(step + 1, mode.semitonesOfStep(step) - natural);
  }

  /** The seven notes of the scale, spelled one letter each, tonic first. */
  public List<NoteName> scale() {
    List<NoteName> notes = new ArrayList<>();
    for (int step = 0; step < 7; step++) {
      notes.add(degreeOfStep(step).above(tonic));
    }
    return List.copyOf(notes);
  }

  /** Whether this pitch class belongs to the scale. */
  public boolean contains(int pitchClass) {
    return mode.contains(pitchClass - tonic.pitchClass());
  }

  /**
   * Sharps (positive) or flats (negative) of the key signature. All forms of minor are written with
   * natural minor's, the modes with their own.
   */
  public int signatureFifths() {
    return tonic.fifths()
        + switch (mode) {
          case MAJOR -> 0;
          case NATURAL_MINOR, HARMONIC_MINOR, MELODIC_MINOR -> -3;
          case DORIAN -> -2;
          case MIXOLYDIAN -> -1;
          case PHRYGIAN -> -4;
          case LYDIAN -> 1;
        };
  }

  /** The major key with the same signature. */
  public Key relativeMajor() {
    return new Key(new NoteName(signatureFifths()), Mode.MAJOR);
  }

  /** The same tonic in another mode. */
  public Key parallel(Mode other) {
    return new Key(tonic, other);
  }

  /** The triad on a scale step 0 to 6, in root position. */
  public Chord triad(int step) {
    return stacked(step, 3);
  }

  /** The seventh chord on a scale step 0 to 6, in root position. */
  public Chord seventh(int step) {
    return stacked(step, 4);
  }

  private Chord stacked(int step, int notes) {
    List<NoteName> scale = scale();
    NoteName root = scale.get(step);
    Set<Integer> semitones = new TreeSet<>();
    for (int i = 0; i < notes; i++) {
      NoteName note = scale.get((step + 2 * i) % 7);
      semitones.add(Math.floorMod(note.pitchClass() - root.pitchClass(), 12));
    }
    return ChordSymbol.ofSemitones(root, semitones, root);
  }

  @Override
  public String toString() {
    return tonic + " " + mode.words();
  }
}
