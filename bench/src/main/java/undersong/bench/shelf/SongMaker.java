package undersong.bench.shelf;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import undersong.estimate.harmony.KeyedHarmonyEstimator;
import undersong.exchange.ChordChart;
import undersong.exchange.ChordChart.ChartBar;
import undersong.exchange.ChordChart.ChartChange;
import undersong.exchange.PaperSong;
import undersong.reading.Derived;
import undersong.reading.Facet;
import undersong.reading.Harmony;
import undersong.reading.HarmonyEvent;
import undersong.reading.Melody;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;
import undersong.reading.SectionRole;
import undersong.reading.TimeSignature;
import undersong.theory.ChordSymbol;
import undersong.theory.Key;
import undersong.theory.Numerals;
import undersong.theory.RomanNumeral;
import undersong.time.Span;

/**
 * Songs for the shelf to hold: chords follow one another as often as in published charts, tunes
 * wander over the scale. The same seed makes the same songs.
 */
final class SongMaker {
  private static final List<String> TONICS =
      List.of("C", "Db", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B");
  private static final int BAR_BEATS = 4;
  private static final int MIDDLE_C = 60;

  private final Map<Boolean, Map<RomanNumeral, List<RomanNumeral>>> next = new HashMap<>();
  private final Map<Boolean, List<RomanNumeral>> all = new HashMap<>();

  /** Counts what follows what, in major and in the rest. */
  SongMaker(List<PaperSong> charts) {
    for (boolean major : new boolean[] {true, false}) {
      next.put(major, new HashMap<>());
      all.put(major, new ArrayList<>());
    }
    for (PaperSong chart : charts) {
      Reading reading = chart.chart().read(120);
      Optional<RomanNumeral> before = Optional.empty();
      for (HarmonyEvent event : KeyedHarmonyEstimator.of(reading).events()) {
        boolean major = event.key().toString().endsWith("major");
        if (event.numeral().isPresent()) {
          RomanNumeral numeral = event.numeral().get();
          all.get(major).add(numeral);
          before
              .filter(earlier -> !earlier.equals(numeral))
              .ifPresent(
                  earlier ->
                      next.get(major)
                          .computeIfAbsent(earlier, any -> new ArrayList<>())
                          .add(numeral));
        }
        before = event.numeral();
      }
    }
  }

  /**
   * @param beat in its bar
   * @param offset semitones above the tonic
   */
  record Tone(double beat, double beats, int offset) {}

  /** A bar of one chord. */
  record MadeBar(RomanNumeral numeral, List<Tone> tones) {}

  /** Eight bars, played where the letter stands. */
  record Part(String letter, List<MadeBar> bars) {}

  /**
   * @param tonic semitones above C
   */
  record Made(int tonic, boolean major, double bpm, List<Part> parts) {}

  Made make(Random random) {
    boolean major = random.nextInt(100) < 70;
    Part verse = part("A", major, random);
    Part chorus = part("B", major, random);
    Part bridge = part("C", major, random);
    List<Part> parts = new ArrayList<>();
    for (Part part : List.of(verse, verse, chorus, verse, chorus, bridge, chorus, chorus)) {
      parts.add(part);
    }
    return new Made(random.nextInt(12), major, 70 + random.nextInt(80), parts);
  }

  Part part(String letter, boolean major, Random random) {
    int length = random.nextInt(3) == 0 ? 8 : 4;
    List<RomanNumeral> loop = row(length, major, random);
    List<MadeBar> bars = new ArrayList<>();
    int offset = random.nextInt(8);
    for (int bar = 0; bar < 8; bar++) {
      List<Tone> tones = new ArrayList<>();
      for (double beat = random.nextInt(3) * 0.5; beat < BAR_BEATS; ) {
        double beats = List.of(0.5, 0.5, 1.0, 1.0, 1.5, 2.0).get(random.nextInt(6));
        offset = stepped(offset, major, random);
        tones.add(new Tone(beat, Math.min(beats, BAR_BEATS - beat), offset));
        beat += beats;
      }
      bars.add(new MadeBar(loop.get(bar % length), tones));
    }
    return new Part(letter, bars);
  }

  private static int stepped(int offset, boolean major, Random random) {
    String scale = major ? "101011010101" : "101101011010";
    int step = 0;
    while (step == 0) {
      step = (int) Math.round(2.5 * random.nextGaussian());
    }
    int next = Math.max(-7, Math.min(14, offset + step));
    while (scale.charAt(Math.floorMod(next, 12)) == '0') {
      next++;
    }
    return next;
  }

  /** Chords as they follow one another in charts. */
  List<RomanNumeral> row(int length, boolean major, Random random) {
    List<RomanNumeral> row = new ArrayList<>();
    row.add(any(all.get(major), random));
    while (row.size() < length) {
      List<RomanNumeral> follow =
          next.get(major).getOrDefault(row.get(row.size() - 1), all.get(major));
      row.add(any(follow, random));
    }
    return row;
  }

  private static <T> T any(List<T> list, Random random) {
    return list.get(random.nextInt(list.size()));
  }

  /** As it would be heard without a fault. */
  Reading reading(Made song) {
    Key key = Key.parse(TONICS.get(song.tonic()) + (song.major() ? " major" : " natural minor"));
    double beatSeconds = 60 / song.bpm();
    List<ChartBar> chart = new ArrayList<>();
    List<NoteEvent> tune = new ArrayList<>();
    int number = 0;
    for (Part part : song.parts()) {
      for (int bar = 0; bar < part.bars().size(); bar++) {
        MadeBar made = part.bars().get(bar);
        ChordSymbol chord = Numerals.chord(made.numeral(), key);
        chart.add(
            new ChartBar(
                TimeSignature.FOUR_FOUR,
                key,
                List.of(new ChartChange(0, chord)),
                part.letter(),
                SectionRole.OTHER,
                bar == 0));
        for (Tone tone : made.tones()) {
          double start = (number * BAR_BEATS + tone.beat()) * beatSeconds;
          tune.add(
              new NoteEvent(
                  new Span(start, start + tone.beats() * beatSeconds),
                  MIDDLE_C + song.tonic() + tone.offset(),
                  1));
        }
        number++;
      }
    }
    Reading reading =
        new ChordChart(chart).read(song.bpm()).with(Facet.MELODY, Derived.of(new Melody(tune)));
    Harmony harmony = KeyedHarmonyEstimator.of(reading);
    return reading.with(Facet.HARMONY, Derived.of(harmony));
  }
}
