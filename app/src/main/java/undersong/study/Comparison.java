package undersong.study;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import undersong.reading.Bass;
import undersong.reading.ChordSpan;
import undersong.reading.Chords;
import undersong.reading.Correction;
import undersong.reading.Facet;
import undersong.reading.KeyRegion;
import undersong.reading.Keys;
import undersong.reading.Melody;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;
import undersong.shelf.Hearing;
import undersong.theory.ChordSymbol;
import undersong.theory.ChordSymbol.Chord;
import undersong.theory.Key;
import undersong.time.Span;

/**
 * What a listener heard, held against what the reading says of the same place.
 *
 * @param reading what it says there, in the same form, by start; what sounds for less than a
 *     seventh of the span is left out. Empty where it hears nothing of the kind
 * @param differences between the listener's word and what sounds longest in the span; empty where
 *     they agree, or where there is nothing to hold it against
 */
public record Comparison(Hearing hearing, List<Correction> reading, Set<Difference> differences) {
  private static final double LEAST_SHARE = 1 / 7.0;

  /** In what two hearings of one place differ. */
  public enum Difference {
    TONIC,
    MODE,
    ROOT,
    THIRD,
    FIFTH,
    SEVENTH,
    FURTHER_NOTES,
    BASS,
    NOTE
  }

  public Comparison {
    reading = List.copyOf(reading);
    differences = Set.copyOf(differences);
  }

  /** Whether a correction of this kind can be held against a reading. */
  static boolean understands(Correction heard) {
    return heard instanceof Correction.KeyOver
        || heard instanceof Correction.ChordOver
        || heard instanceof Correction.BassNoteOver
        || heard instanceof Correction.MelodyNoteOver;
  }

  static Comparison of(Hearing hearing, Reading reading) {
    List<Correction> there = new ArrayList<>();
    Set<Difference> differences = EnumSet.noneOf(Difference.class);
    double longest = 0;
    Span span = span(hearing.heard());
    for (Correction said : said(hearing.heard(), reading)) {
      double overlap = span.overlapSeconds(span(said));
      if (overlap < LEAST_SHARE * span.lengthSeconds()) {
        continue;
      }
      there.add(said);
      if (overlap > longest) {
        longest = overlap;
        differences.clear();
        differences.addAll(differences(hearing.heard(), said));
      }
    }
    return new Comparison(hearing, there, differences);
  }

  /** Whether there is something to hold it against. */
  public boolean comparable() {
    return !reading.isEmpty();
  }

  /** The reading as if somebody had said it, in the form of the hearing. */
  private static List<Correction> said(Correction heard, Reading reading) {
    List<Correction> said = new ArrayList<>();
    if (heard instanceof Correction.KeyOver) {
      for (KeyRegion region : reading.find(Facet.KEYS).map(Keys::regions).orElse(List.of())) {
        said.add(new Correction.KeyOver(region.span(), region.key()));
      }
    } else if (heard instanceof Correction.ChordOver) {
      for (ChordSpan chord : reading.find(Facet.CHORDS).map(Chords::spans).orElse(List.of())) {
        said.add(new Correction.ChordOver(chord.span(), chord.symbol()));
      }
    } else if (heard instanceof Correction.BassNoteOver) {
      for (NoteEvent note : reading.find(Facet.BASS).map(Bass::notes).orElse(List.of())) {
        said.add(new Correction.BassNoteOver(note.span(), note.midiPitch()));
      }
    } else {
      for (NoteEvent note : reading.find(Facet.MELODY).map(Melody::notes).orElse(List.of())) {
        said.add(new Correction.MelodyNoteOver(note.span(), note.midiPitch()));
      }
    }
    return said;
  }

  private static Span span(Correction correction) {
    List<Double> seconds = Anchors.seconds(correction);
    return new Span(seconds.get(0), seconds.get(seconds.size() - 1));
  }

  private static Set<Difference> differences(Correction heard, Correction read) {
    if (heard instanceof Correction.KeyOver one && read instanceof Correction.KeyOver other) {
      return keys(one.key(), other.key());
    } else if (heard instanceof Correction.ChordOver one
        && read instanceof Correction.ChordOver other) {
      return chords(one.chord(), other.chord());
    } else if (heard instanceof Correction.BassNoteOver one
        && read instanceof Correction.BassNoteOver other) {
      return notes(one.midiPitch(), other.midiPitch());
    } else if (heard instanceof Correction.MelodyNoteOver one
        && read instanceof Correction.MelodyNoteOver other) {
      return notes(one.midiPitch(), other.midiPitch());
    }
    throw new AssertionError(heard + " and " + read);
  }

  /** The forms of minor are one mode here: which of them sounds changes from bar to bar. */
  private static Set<Difference> keys(Key one, Key other) {
    Set<Difference> differences = EnumSet.noneOf(Difference.class);
    if (one.tonic().pitchClass() != other.tonic().pitchClass()) {
      differences.add(Difference.TONIC);
    }
    boolean bothMinor = one.mode().isMinor() && other.mode().isMinor();
    if (one.mode() != other.mode() && !bothMinor) {
      differences.add(Difference.MODE);
    }
    return differences;
  }

  /**
   * Octaves are not held against anybody: which one a bass sounds in is often a matter of taste.
   */
  private static Set<Difference> notes(double one, double other) {
    boolean same = Math.floorMod(Math.round(one) - Math.round(other), 12L) == 0;
    return same ? Set.of() : EnumSet.of(Difference.NOTE);
  }

  private static Set<Difference> chords(ChordSymbol heard, ChordSymbol read) {
    if (!(heard instanceof Chord one) || !(read instanceof Chord other)) {
      return heard.equals(read) ? Set.of() : EnumSet.of(Difference.ROOT);
    }
    Set<Difference> differences = EnumSet.noneOf(Difference.class);
    if (one.root().pitchClass() != other.root().pitchClass()) {
      differences.add(Difference.ROOT);
    }
    compare(one, other, Set.of(3, 4), Difference.THIRD, differences);
    compare(one, other, Set.of(6, 7, 8), Difference.FIFTH, differences);
    compare(one, other, Set.of(9, 10, 11), Difference.SEVENTH, differences);
    compare(one, other, Set.of(1, 2, 5), Difference.FURTHER_NOTES, differences);
    if (one.bass().pitchClass() != other.bass().pitchClass()) {
      differences.add(Difference.BASS);
    }
    return differences;
  }

  private static void compare(
      Chord one, Chord other, Set<Integer> semitones, Difference name, Set<Difference> into) {
    if (!among(one, semitones).equals(among(other, semitones))) {
      into.add(name);
    }
  }

  private static Set<Integer> among(Chord chord, Set<Integer> semitones) {
    Set<Integer> there = new TreeSet<>();
    chord.degrees().forEach(degree -> there.add(degree.semitones() % 12));
    there.retainAll(semitones);
    return there;
  }
}
