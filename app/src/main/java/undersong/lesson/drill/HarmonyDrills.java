package undersong.lesson.drill;

import static undersong.lesson.drill.DrillSounds.any;
import static undersong.lesson.drill.DrillSounds.choices;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalInt;
import java.util.SplittableRandom;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import undersong.theory.ChordQuality;
import undersong.theory.Key;
import undersong.theory.Mode;
import undersong.theory.NoteName;
import undersong.theory.Numerals;
import undersong.theory.RomanNumeral;

/** Exercises on chords and on what stands over a bass. */
final class HarmonyDrills {
  private static final List<List<String>> MAJOR_LOOPS =
      List.of(
          List.of("I", "IV", "V"),
          List.of("I", "vi", "IV"),
          List.of("I", "ii", "V"),
          List.of("I", "iii", "IV"),
          List.of("I", "V", "IV"));
  private static final List<List<String>> LONG_LOOPS =
      List.of(
          List.of("I", "vi", "ii", "V"),
          List.of("I", "iii", "IV", "V"),
          List.of("I", "IV", "ii", "V"),
          List.of("I", "ii", "IV", "V"));
  private static final List<List<String>> MINOR_LOOPS =
      List.of(
          List.of("i", "bVII", "bVI", "V"),
          List.of("i", "iv", "bVII", "bIII"),
          List.of("i", "bVI", "iv", "V"),
          List.of("i", "bIII", "iv", "V"));
  private static final List<List<String>> COLOURED_LOOPS =
      List.of(
          List.of("I", "bVII", "IV", "I6"),
          List.of("I", "V/V", "V", "IV"),
          List.of("I", "iv", "I6", "V"),
          List.of("I", "bVI", "bVII", "V"),
          List.of("I", "V/vi", "vi", "IV"));
  private static final List<Mode> MAJOR_OR_MINOR = List.of(Mode.MAJOR, Mode.NATURAL_MINOR);

  private HarmonyDrills() {}

  private static Key freshKey(SplittableRandom random, Mode mode) {
    int fifths = random.nextInt(-4, 6) + (mode.hasMinorThird() ? 3 : 0);
    return new Key(new NoteName(fifths), mode);
  }

  private static List<RomanNumeral> parse(List<String> loop, Key key) {
    return loop.stream()
        .map(text -> Numerals.parse(text, key, undersong.theory.NumeralSettings.DEFAULTS))
        .toList();
  }

  private static List<Tone> play(List<RomanNumeral> chords, Key key, double chordSeconds) {
    List<Tone> tones = new ArrayList<>();
    for (int i = 0; i < chords.size(); i++) {
      double at = i * chordSeconds;
      DrillSounds.numeral(tones, at, chordSeconds * 0.95, key.tonic().pitchClass(), chords.get(i));
    }
    return tones;
  }

  static Drill restingTone(int level, SplittableRandom random, DrillSource source) {
    Mode mode = level == 1 ? Mode.MAJOR : any(random, MAJOR_OR_MINOR);
    Key key = freshKey(random, mode);
    boolean minor = mode.hasMinorThird();
    List<String> loop =
        level == 3
            ? minor ? any(random, MINOR_LOOPS) : any(random, COLOURED_LOOPS)
            : minor ? any(random, MINOR_LOOPS) : any(random, LONG_LOOPS);
    List<String> chords = new ArrayList<>(loop);
    if (level == 1) {
      chords.add("I");
    }
    List<Tone> tones = play(parse(chords, key), key, 120 / source.bpm());
    return new Drill(
        DrillKind.RESTING_TONE,
        level,
        "Listen, then sing the tone on which the music would come to rest, in any octave that suits"
            + " you.",
        tones,
        List.of(),
        0,
        OptionalInt.of(key.tonic().pitchClass()),
        "The resting tone is %s: %s, %s.".formatted(key.tonic(), key, String.join(" ", chords)));
  }

  static Drill loop(int level, SplittableRandom random, DrillSource source) {
    boolean minor = level > 1 && source.mode().hasMinorThird();
    List<List<String>> shapes =
        level == 1 ? MAJOR_LOOPS : minor ? MINOR_LOOPS : level == 2 ? LONG_LOOPS : COLOURED_LOOPS;
    Key key = freshKey(random, minor ? Mode.NATURAL_MINOR : Mode.MAJOR);
    List<String> ofSong =
        level == 1 || source.loops().isEmpty() ? List.of() : ofSong(random, source);
    boolean quoted = !ofSong.isEmpty() && random.nextInt(3) == 0;
    List<String> loop = quoted ? ofSong : any(random, shapes);
    Key sounding = quoted ? freshKey(random, source.mode()) : key;
    String right = String.join(" ", loop);
    List<String> wrong = new ArrayList<>();
    shapes.forEach(other -> wrong.add(String.join(" ", other)));
    for (int i = 1; i + 1 < loop.size(); i++) {
      List<String> swapped = new ArrayList<>(loop);
      swapped.set(i, loop.get(i + 1));
      swapped.set(i + 1, loop.get(i));
      wrong.add(String.join(" ", swapped));
    }
    List<String> offered = choices(random, right, wrong, 4);
    List<RomanNumeral> chords = new ArrayList<>(parse(loop, sounding));
    List<RomanNumeral> twice = new ArrayList<>(chords);
    twice.addAll(chords);
    return new Drill(
        DrillKind.LOOP,
        level,
        "The loop goes round twice. Which numerals are it?",
        play(twice, sounding, 120 / source.bpm()),
        offered,
        offered.indexOf(right),
        OptionalInt.empty(),
        "In %s: %s%s.".formatted(sounding, right, quoted ? ", as in the song" : ""));
  }

  private static List<String> ofSong(SplittableRandom random, DrillSource source) {
    Key any = new Key(new NoteName(0), source.mode());
    return any(random, source.loops()).stream().map(n -> Numerals.print(n, any)).toList();
  }

  static Drill earlyBar(int level, SplittableRandom random, DrillSource source) {
    double beat = 60 / source.bpm();
    Key key = freshKey(random, any(random, MAJOR_OR_MINOR));
    List<RomanNumeral> chords =
        parse(key.mode().hasMinorThird() ? any(random, MINOR_LOOPS) : any(random, LONG_LOOPS), key);
    int early = random.nextInt(1, 4);
    double by = (level == 1 ? 1 : 0.5) * beat;
    List<Tone> tones = new ArrayList<>();
    for (int bar = 0; bar < 4; bar++) {
      double at = 4 * bar * beat - (bar == early ? by : 0);
      double end = 4 * (bar + 1) * beat - (bar + 1 == early ? by : 0);
      int tonic = key.tonic().pitchClass();
      DrillSounds.numeral(tones, at, (end - at) * 0.97, tonic, chords.get(bar));
    }
    if (level < 3) {
      DrillSounds.clicks(tones, 16, beat);
    } else {
      DrillSounds.clicks(tones, 4, beat);
    }
    List<String> offered = IntStream.rangeClosed(2, 4).mapToObj(bar -> "bar " + bar).toList();
    return new Drill(
        DrillKind.EARLY_BAR,
        level,
        "Four bars, a chord each. Into which bar does the chord come early?",
        tones,
        offered,
        early - 1,
        OptionalInt.empty(),
        "The chord of bar %d comes %s before its bar line."
            .formatted(early + 1, level == 1 ? "a beat" : "half a beat"));
  }

  static Drill quality(int level, SplittableRandom random) {
    List<ChordQuality> known = new ArrayList<>(List.of(ChordQuality.MAJOR, ChordQuality.MINOR));
    if (level > 1) {
      known.add(ChordQuality.DIMINISHED);
      known.add(ChordQuality.AUGMENTED);
    }
    if (level > 2) {
      known.add(ChordQuality.DOMINANT_SEVENTH);
      known.add(ChordQuality.MINOR_SEVENTH);
      known.add(ChordQuality.MAJOR_SEVENTH);
      known.add(ChordQuality.HALF_DIMINISHED_SEVENTH);
    }
    ChordQuality right = any(random, known);
    int root = random.nextInt(12);
    List<Tone> tones = new ArrayList<>();
    int[] members = right.semitones();
    int lowest = 53 + Math.floorMod(root - 53, 12);
    for (int i = 0; i < members.length; i++) {
      tones.add(Tone.of("chords", i * 0.45, 0.42, lowest + members[i]));
      tones.add(Tone.of("chords", members.length * 0.45 + 0.2, 1.8, lowest + members[i]));
    }
    List<String> offered = known.stream().map(HarmonyDrills::words).toList();
    return new Drill(
        DrillKind.QUALITY,
        level,
        "The chord comes note by note from its root, then together. What is it?",
        tones,
        offered,
        known.indexOf(right),
        OptionalInt.empty(),
        "It is %s: %s semitones above the root."
            .formatted(
                words(right),
                IntStream.of(members).mapToObj(String::valueOf).collect(Collectors.joining(", "))));
  }

  private static String words(ChordQuality quality) {
    return quality.name().toLowerCase(java.util.Locale.ROOT).replace('_', ' ');
  }

  static Drill addedNote(int level, SplittableRandom random, DrillSource source) {
    record Added(String words, int semitones) {}
    List<Added> known =
        new ArrayList<>(List.of(new Added("the major third", 4), new Added("the minor third", 3)));
    if (level > 1) {
      known.add(new Added("the minor seventh", 10));
      known.add(new Added("the ninth", 14));
    }
    Added right = any(random, known);
    int root = random.nextInt(12);
    double beat = (level == 3 ? 0.5 : 1) * 60 / source.bpm();
    List<Tone> tones = new ArrayList<>();
    int low = DrillSounds.from(50, root);
    for (int verse = 0; verse < 2; verse++) {
      for (int bar = 0; bar < 2; bar++) {
        double at = (8 * verse + 4 * bar) * beat;
        DrillSounds.bass(tones, at, 3.9 * beat, root);
        tones.add(Tone.of("chords", at, 3.9 * beat, low));
        tones.add(Tone.of("chords", at, 3.9 * beat, low + 7));
        if (verse == 1) {
          tones.add(Tone.of("melody", at + beat, 2.8 * beat, low + right.semitones()));
        }
      }
    }
    List<String> offered = known.stream().map(Added::words).toList();
    return new Drill(
        DrillKind.ADDED_NOTE,
        level,
        "Two bars of an open fifth, then the same two bars with one note more. What did the second"
            + " time add?",
        tones,
        offered,
        known.indexOf(right),
        OptionalInt.empty(),
        "The second time adds %s, %d semitones above the root.%s"
            .formatted(
                right.words(),
                right.semitones(),
                right.semitones() < 5 ? " The fifth was open; now the chord has a quality." : ""));
  }

  static Drill tension(int level, SplittableRandom random) {
    record Role(String words, int semitones) {}
    List<Role> known =
        new ArrayList<>(List.of(new Role("root", 0), new Role("third", 4), new Role("fifth", 7)));
    if (level > 1) {
      known.add(new Role("seventh", 10));
    }
    if (level > 2) {
      known.add(new Role("ninth", 2));
      known.add(new Role("fourth", 5));
      known.add(new Role("thirteenth", 9));
    }
    Role before = any(random, known.subList(0, 3));
    List<Role> others = known.stream().filter(role -> !role.equals(before)).toList();
    Role after = any(random, others);
    int note = random.nextInt(64, 76);
    List<Tone> tones = new ArrayList<>();
    tones.add(Tone.of("melody", 0.0, 4.0, note));
    DrillSounds.bass(tones, 0, 1.95, note - before.semitones());
    DrillSounds.chord(tones, 0, 1.95, note - before.semitones(), ChordQuality.MAJOR);
    DrillSounds.bass(tones, 2, 1.95, note - after.semitones());
    DrillSounds.chord(tones, 2, 1.95, note - after.semitones(), ChordQuality.MAJOR);
    List<String> offered = known.stream().map(Role::words).toList();
    return new Drill(
        DrillKind.TENSION,
        level,
        "The tune holds one note while the bass moves. What is the note over the second bass?",
        tones,
        offered,
        known.indexOf(after),
        OptionalInt.empty(),
        "Over the first bass it is the %s; the bass moves and makes it the %s."
            .formatted(before.words(), after.words()));
  }
}
