package undersong.theory;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import undersong.theory.ChordSymbol.Chord;

/**
 * Chords in Harte's grammar, the spelling for exchange: {@code G:min7/b3}, {@code D:(1,5)}, {@code
 * C:7(*5,b9)}, {@code N}, {@code X}.
 *
 * <p>Source: C. Harte, M. Sandler, S. Abdallah, E. Gomez, "Symbolic Representation of Musical
 * Chords", ISMIR 2005; with the later shorthands {@code sus2, 1, 5, aug7} and the families of the
 * eleventh and thirteenth, which hold every lower third (from memory, common practice of the open
 * data sets).
 */
public final class HarteSyntax {
  private record Shorthand(String text, ChordQuality quality, Set<Integer> added) {}

  private static final List<Shorthand> SHORTHANDS = shorthands();

  private HarteSyntax() {}

  private static List<Shorthand> shorthands() {
    List<Shorthand> all = new ArrayList<>();
    for (ChordQuality quality : ChordQuality.values()) {
      all.add(new Shorthand(quality.harte(), quality, Set.of()));
    }
    all.add(new Shorthand("11", ChordQuality.DOMINANT_NINTH, Set.of(17)));
    all.add(new Shorthand("maj11", ChordQuality.MAJOR_NINTH, Set.of(17)));
    all.add(new Shorthand("min11", ChordQuality.MINOR_NINTH, Set.of(17)));
    all.add(new Shorthand("13", ChordQuality.DOMINANT_NINTH, Set.of(17, 21)));
    all.add(new Shorthand("maj13", ChordQuality.MAJOR_NINTH, Set.of(17, 21)));
    all.add(new Shorthand("min13", ChordQuality.MINOR_NINTH, Set.of(17, 21)));
    all.add(new Shorthand("aug7", ChordQuality.AUGMENTED, Set.of(10)));
    return List.copyOf(all);
  }

  /**
   * Reads a chord. A root alone is major; a list of degrees includes the root unless {@code *1}
   * leaves it out, and takes the name of the quality that covers most of it. So does a shorthand
   * without third that lists one.
   */
  public static ChordSymbol parse(String text) {
    if (text.equals("N")) {
      return ChordSymbol.NONE;
    }
    if (text.equals("X")) {
      return ChordSymbol.UNKNOWN;
    }
    int slash = text.indexOf('/');
    String upper = slash < 0 ? text : text.substring(0, slash);
    int colon = upper.indexOf(':');
    NoteName root = root(text, colon < 0 ? upper : upper.substring(0, colon));
    NoteName bass = root;
    if (slash >= 0) {
      bass = degree(text, text.substring(slash + 1)).above(root);
    }
    if (colon < 0) {
      return ChordSymbol.of(root, ChordQuality.MAJOR, bass);
    }
    return body(text, upper.substring(colon + 1), root, bass);
  }

  private static Chord body(String text, String body, NoteName root, NoteName bass) {
    int open = body.indexOf('(');
    String name = open < 0 ? body : body.substring(0, open);
    List<String> listed = open < 0 ? List.of() : degrees(text, body.substring(open));
    if (name.isEmpty() && listed.isEmpty()) {
      throw wrong(text, "nothing follows the colon; leave it out for a major chord");
    }
    Shorthand shorthand =
        name.isEmpty() ? new Shorthand("", ChordQuality.ROOT, Set.of()) : named(text, name);
    Set<Integer> added = new TreeSet<>(shorthand.added());
    Set<Integer> omitted = new TreeSet<>();
    Set<Integer> sounding = ChordNaming.members(shorthand.quality());
    sounding.addAll(added);
    for (String item : listed) {
      boolean omits = item.startsWith("*");
      int semitones = semitones(text, omits ? item.substring(1) : item);
      if (omits && !sounding.remove(semitones)) {
        throw wrong(text, "it leaves out %s, which it does not hold".formatted(item.substring(1)));
      }
      if (omits) {
        omitted.add(semitones);
      } else if (sounding.add(semitones)) {
        added.add(semitones);
      }
    }
    if (sounding.isEmpty()) {
      throw wrong(text, "no note is left in it");
    }
    added.removeAll(omitted);
    boolean thirdIsListed =
        shorthand.quality().hasNoThird() && (added.contains(3) || added.contains(4));
    boolean keepsItsName =
        !name.isEmpty() && !thirdIsListed && members(shorthand.quality()).containsAll(omitted);
    return keepsItsName
        ? new Chord(root, shorthand.quality(), added, omitted, bass)
        : ChordNaming.name(root, sounding, bass);
  }

  /** What may be left out without changing the quality. */
  private static Set<Integer> members(ChordQuality quality) {
    boolean fifthIsSpare = quality.contains(7) && !quality.hasNoThird();
    return fifthIsSpare ? Set.of(0, 7) : Set.of(0);
  }

  /** Writes a chord with the longest shorthand that fits; major is written out. */
  public static String print(ChordSymbol symbol) {
    if (!(symbol instanceof Chord chord)) {
      return symbol.toString();
    }
    Shorthand best = null;
    for (Shorthand shorthand : SHORTHANDS) {
      boolean fits =
          shorthand.quality() == chord.quality()
              && chord.addedSemitones().containsAll(shorthand.added());
      if (fits && (best == null || shorthand.added().size() > best.added().size())) {
        best = shorthand;
      }
    }
    List<String> listed = new ArrayList<>();
    for (int omitted : chord.omittedSemitones()) {
      listed.add("*" + ChordDegree.ofSemitones(omitted));
    }
    for (int added : chord.addedSemitones()) {
      if (!best.added().contains(added)) {
        listed.add(ChordNaming.spelledAdded(chord, added).toString());
      }
    }
    String list = listed.isEmpty() ? "" : "(" + String.join(",", listed) + ")";
    String bass = chord.isInverted() ? "/" + bassDegree(chord) : "";
    return chord.root() + ":" + best.text() + list + bass;
  }

  private static ChordDegree bassDegree(Chord chord) {
    int fifths = chord.bass().fifths() - chord.root().fifths();
    boolean near = Math.abs(fifths) <= 15;
    return ChordDegree.between(
        chord.root(),
        near
            ? chord.bass()
            : NoteName.ofPitchClass(chord.bass().pitchClass(), chord.root().fifths()));
  }

  private static List<String> degrees(String text, String list) {
    if (!list.endsWith(")") || list.length() < 3) {
      throw wrong(text, "its list of degrees must be closed and hold at least one degree");
    }
    return List.of(list.substring(1, list.length() - 1).split(",", -1));
  }

  private static int semitones(String text, String spelled) {
    int semitones = degree(text, spelled).semitones();
    if (semitones < 0 || semitones > 21) {
      throw wrong(text, "degree %s lies outside the chord's two octaves".formatted(spelled));
    }
    return semitones;
  }

  private static ChordDegree degree(String text, String spelled) {
    try {
      return ChordDegree.parse(spelled);
    } catch (IllegalArgumentException cause) {
      throw wrong(text, "\"%s\" is no degree such as b3, 5 or #11".formatted(spelled), cause);
    }
  }

  private static NoteName root(String text, String spelled) {
    try {
      return NoteName.parse(spelled);
    } catch (IllegalArgumentException cause) {
      throw wrong(
          text,
          "\"%s\" is no note name such as C, F# or Bb, nor is the whole N or X".formatted(spelled),
          cause);
    }
  }

  private static Shorthand named(String text, String name) {
    for (Shorthand shorthand : SHORTHANDS) {
      if (shorthand.text().equals(name)) {
        return shorthand;
      }
    }
    throw wrong(
        text,
        "\"%s\" is no shorthand (maj, min, dim, aug, 7, maj7 ...); maybe it is a lead-sheet symbol"
            .formatted(name));
  }

  private static IllegalArgumentException wrong(String text, String why) {
    return wrong(text, why, null);
  }

  private static IllegalArgumentException wrong(String text, String why, Throwable cause) {
    return new IllegalArgumentException(
        "Chord \"%s\" is not in Harte's grammar: %s.".formatted(text, why), cause);
  }
}
