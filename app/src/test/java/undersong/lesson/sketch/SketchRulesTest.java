package undersong.lesson.sketch;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import undersong.reading.Bar;
import undersong.reading.ChordSpan;
import undersong.reading.Facet;
import undersong.reading.NoteEvent;
import undersong.technique.Technique;
import undersong.theory.ChordSymbol.Chord;

/**
 * Sketches against the definitions of their techniques and the rules of two-voice writing, worked
 * out here from notes and chords alone, without the program's finders. Definitions: Open Music
 * Theory and common practice, as docs/techniques.md names them for each id; two-voice rules (chord
 * tones on strong beats, no wide leaps, no parallel fifths and octaves with the bass): Open Music
 * Theory, chapters on counterpoint, from memory.
 */
class SketchRulesTest {
  private static final int SEEDS =
      12; // times forty-eight techniques: more than five hundred sketches

  static List<Technique> techniques() {
    return SketchMaker.known();
  }

  @ParameterizedTest
  @MethodSource("techniques")
  void theTechniqueIsThereByItsDefinition(Technique technique) {
    for (int seed = 0; seed < SEEDS; seed++) {
      Sketch sketch = SketchMaker.make(technique, seed, Optional.empty());
      assertThat(isThere(sketch))
          .as("%s, seed %d:%n%s", technique.id(), seed, sketch.scoreText())
          .isTrue();
    }
  }

  @ParameterizedTest
  @MethodSource("techniques")
  void theRulesOfWritingAreKept(Technique technique) {
    for (int seed = 0; seed < SEEDS; seed++) {
      Sketch sketch = SketchMaker.make(technique, seed, Optional.empty());
      String name = technique.id() + ", seed " + seed;
      assertThat(bars(sketch)).as(name).hasSizeBetween(8, 16);
      List<NoteEvent> tune = tune(sketch);
      int lowest = tune.stream().mapToInt(SketchRulesTest::midi).min().orElseThrow();
      int highest = tune.stream().mapToInt(SketchRulesTest::midi).max().orElseThrow();
      assertThat(highest - lowest).as("range of %s", name).isLessThanOrEqualTo(24);
      for (int i = 1; i < tune.size(); i++) {
        boolean sameSection = sectionAt(sketch, tune.get(i)) == sectionAt(sketch, tune.get(i - 1));
        if (sameSection && technique != Technique.PATTERN_SEQUENCE) {
          int leap = Math.abs(midi(tune.get(i)) - midi(tune.get(i - 1)));
          assertThat(leap).as("leap to note %d of %s", i, name).isLessThanOrEqualTo(9);
        }
      }
      if (technique != Technique.TENSION_TONE
          && technique != Technique.REINTERPRETED_TONE
          && technique != Technique.PATTERN_SEQUENCE) {
        assertStrongBeatsAreChordTones(sketch, name);
        assertThat(parallels(sketch)).as("parallels of %s", name).isZero();
      }
    }
  }

  @Test
  void equalSeedsMakeEqualOnesAndOthersDiffer() {
    for (Technique technique : techniques()) {
      Set<String> different = new HashSet<>();
      for (int seed = 0; seed < 20; seed++) {
        String text = SketchMaker.make(technique, seed, Optional.empty()).scoreText();
        assertThat(SketchMaker.make(technique, seed, Optional.empty()).scoreText()).isEqualTo(text);
        different.add(text);
      }
      assertThat(different).as(technique.id()).hasSize(20);
    }
  }

  @Test
  void whatCannotBeSketchedIsNamed() {
    assertThatThrownBy(() -> SketchMaker.make(Technique.CLIMAX_AT_END, 1, Optional.empty()))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("No sketch shows climax-at-end");
  }

  private static boolean isThere(Sketch sketch) {
    List<Chord> c = chords(sketch);
    int tonic = sketch.key().tonic().pitchClass();
    return switch (sketch.technique()) {
      case HARMONIC_MINOR_DOMINANT ->
          c.stream().anyMatch(x -> above(tonic, x) == 7 && third(x) == 4);
      case BORROWED_CHORD ->
          c.stream().anyMatch(x -> !inScale(x, tonic, false) && inScale(x, tonic, true));
      case SECONDARY_DOMINANT ->
          pairs(c).stream()
              .anyMatch(
                  p ->
                      third(p.get(0)) == 4
                          && Math.floorMod(
                                  p.get(0).root().pitchClass() - p.get(1).root().pitchClass(), 12)
                              == 7
                          && !inScale(p.get(0), tonic, false)
                          && above(tonic, p.get(1)) != 0);
      case GUIDE_TONE_SWITCH ->
          pairs(c).stream()
              .anyMatch(
                  p ->
                      p.get(0).root().equals(p.get(1).root())
                          && Integer.bitCount(p.get(0).pitchClassBits() ^ p.get(1).pitchClassBits())
                              == 2
                          && Math.abs(third(p.get(0)) - third(p.get(1))) == 1);
      case CHROMATIC_INNER_LINE ->
          has(c.get(0), 0)
              && has(c.get(1), 11)
              && has(c.get(2), 10)
              && has(c.get(3), 9)
              && c.subList(0, 4).stream().allMatch(x -> above(tonic, x) == 0);
      case MODAL_COLOUR ->
          sketch.key().mode().hasMinorThird()
              && c.stream().anyMatch(x -> above(tonic, x) == 5 && third(x) == 4);
      case STEPWISE_BASS_LINE -> {
        boolean walks = true;
        for (int i = 1; i < 4; i++) {
          int down =
              Math.floorMod(c.get(i - 1).bass().pitchClass() - c.get(i).bass().pitchClass(), 12);
          walks &= down == 1 || down == 2;
        }
        yield walks;
      }
      case PEDAL_POINT ->
          c.subList(0, 4).stream().map(Chord::bass).distinct().count() == 1
              && c.subList(0, 4).stream().map(Chord::root).distinct().count() >= 3;
      case PLAGAL_CHAIN -> {
        boolean falls = false;
        for (int i = 2; i < c.size(); i++) {
          falls |=
              above(tonic, c.get(i - 2)) == 10
                  && above(tonic, c.get(i - 1)) == 5
                  && above(tonic, c.get(i)) == 0;
        }
        yield falls;
      }
      case KEY_LIFT -> {
        Set<Integer> lifts = new HashSet<>();
        for (int i = 4; i < 8; i++) {
          lifts.add(
              Math.floorMod(c.get(i + 4).root().pitchClass() - c.get(i).root().pitchClass(), 12));
        }
        yield lifts.size() == 1 && (lifts.contains(1) || lifts.contains(2));
      }
      case CHORD_LOOP ->
          c.subList(0, 4).equals(c.subList(4, 8)) && c.subList(0, 4).equals(c.subList(8, 12));
      case BROKEN_LOOP ->
          c.subList(0, 4).equals(c.subList(4, 8))
              && c.subList(0, 2).equals(c.subList(8, 10))
              && !c.subList(0, 4).equals(c.subList(8, 12));
      case UNRESOLVED_ENDING -> above(tonic, c.get(c.size() - 1)) != 0;
      case DECEPTIVE_CADENCE ->
          above(tonic, c.get(6)) == 7 && third(c.get(6)) == 4 && above(tonic, c.get(7)) == 9;
      case WITHHELD_THIRD -> c.subList(0, 4).stream().noneMatch(x -> has(x, 3) || has(x, 4));
      case TENSION_TONE ->
          tune(sketch).stream()
              .anyMatch(note -> length(sketch, note) >= 2 && foreign(sketch, note));
      case REINTERPRETED_TONE -> {
        List<NoteEvent> held = tune(sketch).subList(0, 4);
        Set<Integer> roles = new HashSet<>();
        for (int i = 0; i < 4; i++) {
          roles.add(Math.floorMod(midi(held.get(i)) - c.get(i).bass().pitchClass(), 12));
        }
        yield held.stream().map(SketchRulesTest::midi).distinct().count() == 1
            && roles.size() >= 2
            && !foreign(sketch, held.get(0))
            && foreign(sketch, held.get(1));
      }
      case PATTERN_SEQUENCE -> carries(sketch);
      case REGISTER_LIFT -> mean(tune(sketch, 4, 8)) - mean(tune(sketch, 0, 4)) >= 4;
      case PARALLEL_HARMONY -> distances(sketch).stream().allMatch(d -> d == 3 || d == 4);
      case OCTAVE_DOUBLING -> distances(sketch).stream().allMatch(d -> d == 12);
      case ANTICIPATED_CHANGES -> early(sketch);
      case THREE_THREE_TWO ->
          bassEighths(sketch).containsAll(Set.of(0, 3, 6)) && bassEighths(sketch).size() == 3;
      case SYNCOPATED_BASS -> bassEighths(sketch).containsAll(Set.of(3, 5, 7));
      case METER_CHANGE -> bars(sketch).stream().map(Bar::signature).distinct().count() == 2;
      case HALF_TIME_FEEL -> sketch.scoreText().contains("snare follows ........X.......");
      case ALTERNATING_PAN -> sketch.scoreText().contains("sway 0.9");
      case ECHO -> sketch.scoreText().matches("(?s).*echo (0\\.75|1) .*");
      case DUCKING -> sketch.scoreText().contains("duck 12");
      case FILTER_SWEEP -> sketch.scoreText().contains("sweep-from 300");
      case DRUM_DROPOUT -> {
        String middle = sketch.scoreText().split("section s", -1)[2];
        yield !middle.contains("kick") && !middle.contains("snare") && !middle.contains("hat");
      }
      case WIDE_DOUBLE -> sketch.scoreText().contains("double 0.9");
      case MODULATION -> {
        int up = above(c.get(0).root().pitchClass(), c.get(4));
        yield (up == 3 || up == 5)
            && above(tonic + up, c.get(6)) == 7
            && third(c.get(6)) == 4
            && above(tonic + up, c.get(7)) == 0
            && inScale(c.get(5), tonic + up, false);
      }
      case MELODIC_PEAK -> highest(tune(sketch, 8, 12)) - highest(tune(sketch, 0, 8)) >= 2;
      case CALL_AND_RESPONSE -> {
        List<NoteEvent> horn = line(sketch);
        boolean inTurn = true;
        for (int bar = 0; bar < 8; bar++) {
          inTurn &= tune(sketch, bar, bar + 1).isEmpty() == (bar % 2 == 1);
          inTurn &= inBar(sketch, horn, bar).isEmpty() == (bar % 2 == 0);
        }
        yield inTurn;
      }
      case RIFF -> {
        List<NoteEvent> riff = line(sketch);
        Set<List<Integer>> bars = new HashSet<>();
        for (int bar = 0; bar < 4; bar++) {
          bars.add(inBar(sketch, riff, bar).stream().map(SketchRulesTest::midi).toList());
        }
        yield bars.size() == 1 && bars.iterator().next().size() >= 5;
      }
      case TEMPO_CHANGE -> {
        double factor = barSeconds(sketch, 2) / barSeconds(sketch, 6);
        double steady = barSeconds(sketch, 0) / barSeconds(sketch, 2);
        yield Math.abs(factor - 1) > 0.1 && Math.abs(steady - 1) < 0.01;
      }
      case HARMONIC_RHYTHM_CHANGE -> changes(c.subList(0, 4)) == 3 && changes(c.subList(4, 8)) == 1;
      case IRREGULAR_PHRASE ->
          sketch.reading().get(Facet.FORM).sections().stream()
              .map(section -> Math.round(section.span().lengthSeconds() / barSeconds(sketch, 0)))
              .toList()
              .equals(List.of(4L, 5L, 4L));
      case STOP_TIME -> {
        double third = bars(sketch).get(3).span().startSeconds() + barSeconds(sketch, 3) * 0.45;
        double next = bars(sketch).get(3).span().endSeconds() - 0.03;
        yield java.util.stream.Stream.of(tune(sketch), sketch.reading().get(Facet.BASS).notes())
            .flatMap(List::stream)
            .noneMatch(
                note ->
                    note.span().startSeconds() >= third - 0.03
                        && note.span().startSeconds() < next);
      }
      case CHORUS_FIRST ->
          c.subList(0, 4).equals(c.subList(8, 12)) && !c.subList(0, 4).equals(c.subList(4, 8));
      case LAYERED_REPEAT -> joins(sketch, "pad follows");
      case PLUCKED_LAYER -> joins(sketch, "pluck follows");
      case SUB_BASS_ENTRY -> joins(sketch, "sub follows");
      case VOCAL_STACK -> distances(sketch).size() > 6;
      case WIDTH_CHANGE -> joins(sketch, "pad mix double 0.95");
      case RISER -> sketch.scoreText().split("section s", -1)[1].contains("rise plays");
      case SWELL -> sketch.scoreText().split("section s", -1)[1].contains("swell plays");
      default ->
          throw new AssertionError("No definition is checked for " + sketch.technique().id());
    };
  }

  /** What the second section has and the first has not, as the score says it. */
  private static boolean joins(Sketch sketch, String words) {
    String[] sections = sketch.scoreText().split("section s", -1);
    return !sections[1].contains(words) && sections[2].contains(words);
  }

  private static double barSeconds(Sketch sketch, int bar) {
    return bars(sketch).get(bar).span().lengthSeconds();
  }

  private static int highest(List<NoteEvent> notes) {
    return notes.stream().mapToInt(SketchRulesTest::midi).max().orElseThrow();
  }

  private static long changes(List<Chord> chords) {
    return pairs(chords).stream().filter(pair -> !pair.get(0).equals(pair.get(1))).count();
  }

  /** The one line that is neither sung nor bass. */
  private static List<NoteEvent> line(Sketch sketch) {
    var lines = sketch.reading().get(Facet.LINES).lines();
    assertThat(lines).hasSize(1);
    return lines.get(0).notes();
  }

  private static List<NoteEvent> inBar(Sketch sketch, List<NoteEvent> notes, int bar) {
    var span = bars(sketch).get(bar).span();
    return notes.stream().filter(note -> span.contains(note.span().startSeconds() + 0.02)).toList();
  }

  /** The same rhythm bar by bar, every figure moved by as many steps of the letters as its root. */
  private static boolean carries(Sketch sketch) {
    List<List<Integer>> contours = new ArrayList<>();
    List<List<Long>> rhythms = new ArrayList<>();
    for (int bar = 0; bar < 4; bar++) {
      List<NoteEvent> notes = tune(sketch, bar, bar + 1);
      double start = bars(sketch).get(bar).span().startSeconds();
      List<Integer> contour = new ArrayList<>();
      List<Long> rhythm = new ArrayList<>();
      for (NoteEvent note : notes) {
        contour.add(Integer.signum(midi(note) - midi(notes.get(0))));
        rhythm.add(
            Math.round((note.span().startSeconds() - start) * sketch.song().score().bpm() / 30));
      }
      contours.add(contour);
      rhythms.add(rhythm);
    }
    return contours.stream().distinct().count() == 1
        && rhythms.stream().distinct().count() == 1
        && contours.get(0).size() >= 4;
  }

  private static boolean early(Sketch sketch) {
    double beat = 60.0 / sketch.song().score().bpm();
    List<Double> lines = bars(sketch).stream().map(bar -> bar.span().startSeconds()).toList();
    long early = 0;
    for (int bar = 4; bar < lines.size(); bar++) {
      double line = lines.get(bar);
      early +=
          sketch.reading().get(Facet.CHORDS).spans().stream()
              .map(span -> line - span.span().startSeconds())
              .filter(by -> Math.abs(by - beat / 2) < 0.02 || Math.abs(by - beat) < 0.02)
              .count();
    }
    return early >= 7;
  }

  private static void assertStrongBeatsAreChordTones(Sketch sketch, String name) {
    double beat = 60.0 / sketch.song().score().bpm();
    List<Chord> chords = chords(sketch);
    List<Bar> bars = bars(sketch);
    for (NoteEvent note : tune(sketch)) {
      for (int i = 0; i < bars.size(); i++) {
        double into = (note.span().startSeconds() - bars.get(i).span().startSeconds()) / beat;
        boolean strong = Math.abs(into) < 0.05 || Math.abs(into - 2) < 0.05;
        if (strong) {
          assertThat(chords.get(i).pitchClassBits() & 1 << Math.floorMod(midi(note), 12))
              .as("%s: bar %d, beat %.0f", name, i + 1, into + 1)
              .isNotZero();
        }
      }
    }
  }

  /** Fifths and octaves between tune and bass on two bar lines running, both moving. */
  private static int parallels(Sketch sketch) {
    List<Chord> chords = chords(sketch);
    int count = 0;
    for (int bar = 1; bar < chords.size(); bar++) {
      List<NoteEvent> before = tune(sketch, bar - 1, bar);
      List<NoteEvent> here = tune(sketch, bar, bar + 1);
      if (before.isEmpty()
          || here.isEmpty()
          || sectionAt(sketch, before.get(0)) != sectionAt(sketch, here.get(0))) {
        continue; // a new section begins anew
      }
      int one = Math.floorMod(midi(before.get(0)) - chords.get(bar - 1).bass().pitchClass(), 12);
      int two = Math.floorMod(midi(here.get(0)) - chords.get(bar).bass().pitchClass(), 12);
      boolean moves =
          midi(before.get(0)) != midi(here.get(0))
              && chords.get(bar - 1).bass().pitchClass() != chords.get(bar).bass().pitchClass();
      count += moves && one == two && (one == 0 || one == 7) ? 1 : 0;
    }
    return count;
  }

  private static List<Bar> bars(Sketch sketch) {
    return sketch.reading().get(Facet.METER).bars();
  }

  private static int sectionAt(Sketch sketch, NoteEvent note) {
    var sections = sketch.reading().get(Facet.FORM).sections();
    for (int i = 0; i < sections.size(); i++) {
      if (sections.get(i).span().contains(note.span().startSeconds() + 0.01)) {
        return i;
      }
    }
    return -1;
  }

  /** The chord of each bar: what sounds in its middle. */
  private static List<Chord> chords(Sketch sketch) {
    List<Chord> chords = new ArrayList<>();
    for (Bar bar : bars(sketch)) {
      ChordSpan sounding =
          sketch.reading().get(Facet.CHORDS).spans().stream()
              .filter(span -> span.span().contains(bar.span().middleSeconds()))
              .findFirst()
              .orElseThrow();
      chords.add((Chord) sounding.symbol());
    }
    return chords;
  }

  private static List<NoteEvent> tune(Sketch sketch) {
    return sketch.reading().get(Facet.MELODY).notes();
  }

  private static List<NoteEvent> tune(Sketch sketch, int fromBar, int toBar) {
    double from = bars(sketch).get(fromBar).span().startSeconds() - 0.02;
    double to = bars(sketch).get(toBar - 1).span().endSeconds() - 0.02;
    return tune(sketch).stream()
        .filter(note -> note.span().startSeconds() >= from && note.span().startSeconds() < to)
        .toList();
  }

  private static double length(Sketch sketch, NoteEvent note) {
    return note.span().lengthSeconds() * sketch.song().score().bpm() / 60;
  }

  private static boolean foreign(Sketch sketch, NoteEvent note) {
    for (int i = 0; i < bars(sketch).size(); i++) {
      if (bars(sketch).get(i).span().contains(note.span().startSeconds() + 0.01)) {
        return (chords(sketch).get(i).pitchClassBits() & 1 << Math.floorMod(midi(note), 12)) == 0;
      }
    }
    return false;
  }

  /** Semitones of the second voice below the tune, note by note. */
  private static List<Integer> distances(Sketch sketch) {
    List<NoteEvent> second = sketch.reading().get(Facet.VOICES).voices().get(0).events();
    List<Integer> distances = new ArrayList<>();
    for (NoteEvent low : second) {
      tune(sketch).stream()
          .filter(note -> Math.abs(note.span().startSeconds() - low.span().startSeconds()) < 0.05)
          .findFirst()
          .ifPresent(note -> distances.add(midi(note) - midi(low)));
    }
    assertThat(distances).hasSizeGreaterThan(6);
    return distances;
  }

  /** Eighths of the bar on which the bass plays, over all bars. */
  private static Set<Integer> bassEighths(Sketch sketch) {
    Set<Integer> places = new HashSet<>();
    double eighth = 30.0 / sketch.song().score().bpm();
    for (NoteEvent note : sketch.reading().get(Facet.BASS).notes()) {
      for (Bar bar : bars(sketch)) {
        double into = (note.span().startSeconds() - bar.span().startSeconds()) / eighth;
        if (into > -0.2 && into < 7.8) {
          assertThat(into).isCloseTo(Math.rint(into), within(0.2));
          places.add((int) Math.rint(into));
        }
      }
    }
    return places;
  }

  private static double mean(List<NoteEvent> notes) {
    return notes.stream().mapToDouble(NoteEvent::midiPitch).average().orElseThrow();
  }

  private static List<List<Chord>> pairs(List<Chord> chords) {
    List<List<Chord>> pairs = new ArrayList<>();
    for (int i = 1; i < chords.size(); i++) {
      pairs.add(List.of(chords.get(i - 1), chords.get(i)));
    }
    return pairs;
  }

  private static int midi(NoteEvent note) {
    return (int) Math.round(note.midiPitch());
  }

  private static int above(int tonic, Chord chord) {
    return Math.floorMod(chord.root().pitchClass() - tonic, 12);
  }

  private static boolean has(Chord chord, int semitonesAboveRoot) {
    return (chord.pitchClassBits()
            & 1 << Math.floorMod(chord.root().pitchClass() + semitonesAboveRoot, 12))
        != 0;
  }

  private static int third(Chord chord) {
    return has(chord, 4) ? 4 : has(chord, 3) ? 3 : -9;
  }

  private static boolean inScale(Chord chord, int tonic, boolean minor) {
    int[] scale = minor ? new int[] {0, 2, 3, 5, 7, 8, 10} : new int[] {0, 2, 4, 5, 7, 9, 11};
    int bits = 0;
    for (int step : scale) {
      bits |= 1 << Math.floorMod(tonic + step, 12);
    }
    return (chord.pitchClassBits() & ~bits) == 0;
  }
}
