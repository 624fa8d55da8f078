package undersong.bench.charts;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import undersong.bench.data.Chart;
import undersong.bench.metrics.ChordCode;
import undersong.bench.metrics.KeyLabel;
import undersong.estimate.harmony.KeyedHarmonyEstimator;
import undersong.exchange.ChordChart;
import undersong.exchange.ChordChart.ChartBar;
import undersong.exchange.ChordChart.ChartChange;
import undersong.reading.Derived;
import undersong.reading.Facet;
import undersong.reading.Reading;
import undersong.reading.SectionRole;
import undersong.reading.TimeSignature;
import undersong.theory.ChordSymbol;
import undersong.theory.ChordSymbol.Chord;
import undersong.theory.Key;
import undersong.theory.Mode;
import undersong.theory.NoteName;
import undersong.theory.Spelling;

/** Turns charts of the open data sets into readings, as if played evenly. */
final class ChartReadings {
  private static final double BPM = 120;
  static final double BEAT_SECONDS = 60 / BPM;

  private ChartReadings() {}

  static Reading read(Chart chart) {
    List<ChartBar> bars = new ArrayList<>();
    for (Chart.Bar bar : chart.bars()) {
      Key key = key(bar.key());
      bars.add(
          new ChartBar(
              new TimeSignature(Math.min(12, bar.beats()), bar.compound()),
              key,
              bar.changes().stream()
                  .map(c -> new ChartChange(c.beat(), symbol(c.chord(), key)))
                  .toList(),
              bar.letter().replace("'", ""),
              role(bar.sectionName()),
              bar.opensSection()));
    }
    Reading reading = new ChordChart(bars).read(BPM);
    return reading.with(Facet.HARMONY, Derived.of(KeyedHarmonyEstimator.of(reading)));
  }

  /** Tonics are written with at most six sharps or five flats. */
  static Key key(KeyLabel label) {
    for (Mode mode : Mode.values()) {
      boolean plainMinor = mode == Mode.NATURAL_MINOR && label.mode().equals("minor");
      if (plainMinor || mode.words().equals(label.mode())) {
        return new Key(NoteName.ofPitchClass(label.tonic(), mode.hasMinorThird() ? 3 : 0), mode);
      }
    }
    throw new IllegalArgumentException("Mode \"%s\" is unknown.".formatted(label.mode()));
  }

  static ChordSymbol symbol(ChordCode code, Key key) {
    if (!code.sounds()) {
      return code.known() ? ChordSymbol.NONE : ChordSymbol.UNKNOWN;
    }
    NoteName root = Spelling.name(code.root(), key);
    Set<Integer> members = new TreeSet<>();
    for (int s = 0; s < 12; s++) {
      if ((members(code) & 1 << s) != 0) {
        members.add(s);
      }
    }
    Chord upright = ChordSymbol.ofSemitones(root, members, root);
    NoteName bass = Spelling.name(code.bassPitchClass(), key, upright);
    return Spelling.chord(upright.withBass(bass), key);
  }

  /** The notes above the root without a bass that is a second, fourth or sixth foreign to them. */
  static int members(ChordCode code) {
    boolean foreignBass = code.bass() == 2 || code.bass() == 5 || code.bass() == 9;
    return foreignBass ? code.bits() & ~(1 << code.bass()) : code.bits();
  }

  static SectionRole role(String name) {
    String first = name.toLowerCase(Locale.ROOT).replaceAll("[^a-z ].*", "").strip();
    return switch (first) {
      case "intro" -> SectionRole.INTRO;
      case "verse" -> SectionRole.VERSE;
      case "pre" -> SectionRole.PRECHORUS;
      case "prechorus" -> SectionRole.PRECHORUS;
      case "chorus", "refrain" -> SectionRole.CHORUS;
      case "bridge" -> SectionRole.BRIDGE;
      case "interlude", "trans", "transition" -> SectionRole.BREAK;
      case "solo", "instrumental" -> SectionRole.SOLO;
      case "outro", "coda", "fadeout" -> SectionRole.OUTRO;
      default -> SectionRole.OTHER;
    };
  }
}
