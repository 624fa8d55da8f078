package undersong.theory;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import undersong.theory.ChordSymbol.Chord;

/**
 * Chords as musicians write them above a tune: {@code Gm7/Bb}, {@code F#dim7}, {@code Bm7b5},
 * {@code N.C.} Reading understands the common spellings of each ({@code CM7}, {@code C-7}, {@code
 * Cø}); writing knows one. The text after the slash is a note name. Common practice, no source.
 */
public final class LeadSheet {
  private record Family(String text, ChordQuality quality, Set<Integer> added) {}

  private static final List<Family> FAMILIES =
      List.of(
          new Family("7sus4", ChordQuality.SUSPENDED_FOURTH, Set.of(10)),
          new Family("9sus4", ChordQuality.SUSPENDED_FOURTH, Set.of(10, 14)),
          new Family("13sus4", ChordQuality.SUSPENDED_FOURTH, Set.of(10, 14, 21)),
          new Family("7sus2", ChordQuality.SUSPENDED_SECOND, Set.of(10)),
          new Family("7#5", ChordQuality.AUGMENTED, Set.of(10)),
          new Family("maj7#5", ChordQuality.AUGMENTED, Set.of(11)),
          new Family("13", ChordQuality.DOMINANT_NINTH, Set.of(21)),
          new Family("maj13", ChordQuality.MAJOR_NINTH, Set.of(21)),
          new Family("m13", ChordQuality.MINOR_NINTH, Set.of(21)),
          new Family("m11", ChordQuality.MINOR_NINTH, Set.of(17)),
          new Family("6/9", ChordQuality.MAJOR_SIXTH, Set.of(14)),
          new Family("m6/9", ChordQuality.MINOR_SIXTH, Set.of(14)),
          new Family("add9", ChordQuality.MAJOR, Set.of(14)));

  private LeadSheet() {}

  /** Reads a symbol; throws, naming what it could not read. */
  public static ChordSymbol parse(String text) {
    String plain = text.strip().replace('♭', 'b').replace('♯', '#').replace('−', '-');
    if (plain.equalsIgnoreCase("N.C.") || plain.equals("NC")) {
      return ChordSymbol.NONE;
    }
    if (plain.equals("?")) {
      return ChordSymbol.UNKNOWN;
    }
    int end = 1;
    while (end < plain.length() && (plain.charAt(end) == '#' || plain.charAt(end) == 'b')) {
      end++;
    }
    if (plain.isEmpty() || plain.charAt(0) < 'A' || plain.charAt(0) > 'G') {
      throw new IllegalArgumentException(
          "Chord symbol \"%s\" must begin with a note name A to G, or be N.C.".formatted(text));
    }
    NoteName root = NoteName.parse(plain.substring(0, end));
    String suffix = plain.substring(end);
    NoteName bass = root;
    int slash = suffix.lastIndexOf('/');
    if (slash >= 0 && suffix.substring(slash + 1).matches("[A-G](#*|b*)")) {
      bass = NoteName.parse(suffix.substring(slash + 1));
      suffix = suffix.substring(0, slash);
    }
    return ChordNaming.name(root, new LeadSheetSuffix(text, suffix).semitones(), bass);
  }

  /** As {@link #print}, but a root that sounds alone is said in words, as one tells a musician. */
  public static String say(ChordSymbol symbol) {
    return say(symbol, NoteLanguage.ENGLISH);
  }

  /** As {@link #say(ChordSymbol)}, root and bass named as elsewhere. */
  public static String say(ChordSymbol symbol, NoteLanguage language) {
    boolean alone =
        symbol instanceof Chord chord
            && chord.quality() == ChordQuality.ROOT
            && chord.addedSemitones().isEmpty()
            && !chord.isInverted();
    return alone ? language.print(((Chord) symbol).root()) + " alone" : print(symbol, language);
  }

  /** Writes a symbol; the notes decide, not the name they came under. */
  public static String print(ChordSymbol symbol) {
    return print(symbol, NoteLanguage.ENGLISH);
  }

  /** As {@link #print(ChordSymbol)}, root and bass named as elsewhere. */
  public static String print(ChordSymbol symbol, NoteLanguage language) {
    if (!(symbol instanceof Chord given)) {
      return symbol.equals(ChordSymbol.NONE) ? "N.C." : "?";
    }
    Chord chord = ChordNaming.simplest(given);
    String bass = chord.isInverted() ? "/" + language.inChord(chord.bass()) : "";
    return language.inChord(chord.root()) + suffix(chord) + bass;
  }

  private static String suffix(Chord chord) {
    Family family = new Family(plain(chord.quality()), chord.quality(), Set.of());
    for (Family candidate : FAMILIES) {
      boolean fits =
          candidate.quality() == chord.quality()
              && chord.addedSemitones().containsAll(candidate.added());
      if (fits && candidate.added().size() > family.added().size()) {
        family = candidate;
      }
    }
    Set<Integer> rest = new TreeSet<>(chord.addedSemitones());
    rest.removeAll(family.added());
    List<String> listed = new ArrayList<>();
    if (chord.omittedSemitones().contains(0)) {
      listed.add("no1");
    }
    String fifth = fifthInstead(chord, rest);
    for (int added : rest) {
      listed.add(added(chord, added));
    }
    String list = listed.isEmpty() ? "" : "(" + String.join(",", listed) + ")";
    boolean joinsTheRoot = family.text().isEmpty() && fifth.startsWith("b");
    return family.text() + (joinsTheRoot ? "(" + fifth + ")" : fifth) + list;
  }

  /** Takes from the rest the altered note that stands for an omitted fifth. */
  private static String fifthInstead(Chord chord, Set<Integer> rest) {
    if (!chord.omittedSemitones().contains(7)) {
      return "";
    }
    if (rest.remove(6)) {
      return "b5";
    }
    if (rest.remove(8)) {
      return "#5";
    }
    if (isDominant(chord) && rest.remove(20)) {
      return "b13";
    }
    return "(no5)";
  }

  private static boolean isDominant(Chord chord) {
    return chord.quality() == ChordQuality.DOMINANT_SEVENTH
        || chord.quality() == ChordQuality.DOMINANT_NINTH;
  }

  private static String added(Chord chord, int semitones) {
    boolean altersASeventh =
        chord.quality() == ChordQuality.DOMINANT_SEVENTH
            || chord.quality() == ChordQuality.MAJOR_SEVENTH
            || chord.quality() == ChordQuality.MINOR_SEVENTH;
    if (semitones == 10) {
      return "b7";
    }
    if (semitones == 11) {
      return "maj7";
    }
    boolean ninthStands = chord.addedSemitones().contains(14);
    boolean altered = semitones == 13 || semitones == 15 || semitones == 18;
    if (altered && (altersASeventh || isDominant(chord)) && !ninthStands) {
      if (semitones == 18 || altersASeventh) {
        return ChordDegree.ofSemitones(semitones).toString();
      }
    }
    return "add" + ChordNaming.spelledAdded(chord, semitones);
  }

  private static String plain(ChordQuality quality) {
    return switch (quality) {
      case MAJOR -> "";
      case MINOR -> "m";
      case DIMINISHED -> "dim";
      case AUGMENTED -> "aug";
      case SUSPENDED_SECOND -> "sus2";
      case SUSPENDED_FOURTH -> "sus4";
      case DOMINANT_SEVENTH -> "7";
      case MAJOR_SEVENTH -> "maj7";
      case MINOR_SEVENTH -> "m7";
      case MINOR_MAJOR_SEVENTH -> "m(maj7)";
      case DIMINISHED_SEVENTH -> "dim7";
      case HALF_DIMINISHED_SEVENTH -> "m7b5";
      case MAJOR_SIXTH -> "6";
      case MINOR_SIXTH -> "m6";
      case DOMINANT_NINTH -> "9";
      case MAJOR_NINTH -> "maj9";
      case MINOR_NINTH -> "m9";
      case FIFTH -> "5";
      case ROOT -> "(no3,no5)";
    };
  }
}
