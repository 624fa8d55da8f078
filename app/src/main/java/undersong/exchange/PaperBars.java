package undersong.exchange;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import undersong.exchange.ChordChart.ChartBar;
import undersong.exchange.ChordChart.ChartChange;
import undersong.reading.SectionRole;
import undersong.reading.TimeSignature;
import undersong.theory.ChordSymbol;
import undersong.theory.ChordSymbol.Chord;
import undersong.theory.Key;
import undersong.theory.Mode;
import undersong.theory.NoteName;

/** Gathers the bars of a chart whose file states tonics without modes. */
final class PaperBars {
  private record Written(
      TimeSignature signature,
      NoteName tonic,
      List<ChordSymbol> chords,
      String letter,
      SectionRole role,
      boolean opens) {}

  private final List<Written> bars = new ArrayList<>();
  private int upper = 4;
  private int lower = 4;
  private NoteName tonic = new NoteName(0);

  void meter(int upperNumber, int lowerNumber) {
    upper = upperNumber;
    lower = lowerNumber;
  }

  void tonic(NoteName note) {
    tonic = note;
  }

  /** A bar whose chords share it evenly, in the meter that holds. */
  void bar(List<ChordSymbol> chords, String letter, String name, boolean opens) {
    bar(upper, lower, chords, letter, name, opens);
  }

  void bar(
      int over, int under, List<ChordSymbol> chords, String letter, String name, boolean opens) {
    boolean compound = under == 8 && over % 3 == 0;
    if (under == 8 && !compound) {
      throw new IllegalArgumentException("a bar in %d/8 has no even beat".formatted(over));
    }
    int beats = Math.min(12, compound ? over / 3 : over);
    bars.add(
        new Written(new TimeSignature(beats, compound), tonic, chords, letter, role(name), opens));
  }

  /** The chart; a tonic is minor where most of its own chords' share of bars have a minor third. */
  ChordChart chart() {
    if (bars.isEmpty()) {
      throw new IllegalArgumentException("it holds no bars");
    }
    Map<NoteName, Double> minor = new HashMap<>();
    for (Written bar : bars) {
      for (ChordSymbol symbol : bar.chords()) {
        if (symbol instanceof Chord chord && chord.root().equals(bar.tonic())) {
          double weight = (double) bar.signature().beats() / bar.chords().size();
          double leaning =
              chord.quality().hasMinorThird()
                  ? weight
                  : chord.quality().hasMajorThird() ? -weight : 0;
          minor.merge(bar.tonic(), leaning, Double::sum);
        }
      }
    }
    return new ChordChart(bars.stream().map(bar -> bar(bar, minor)).toList());
  }

  private static ChartBar bar(Written bar, Map<NoteName, Double> minor) {
    Mode mode = minor.getOrDefault(bar.tonic(), 0.0) > 0 ? Mode.NATURAL_MINOR : Mode.MAJOR;
    NoteName near = NoteName.ofPitchClass(bar.tonic().pitchClass(), mode.hasMinorThird() ? 3 : 0);
    List<ChartChange> changes = new ArrayList<>();
    for (int i = 0; i < bar.chords().size(); i++) {
      ChordSymbol symbol = bar.chords().get(i);
      if (changes.isEmpty() || !changes.get(changes.size() - 1).symbol().equals(symbol)) {
        double beat = (double) bar.signature().beats() * i / bar.chords().size();
        changes.add(new ChartChange(beat, symbol));
      }
    }
    return new ChartBar(
        bar.signature(), new Key(near, mode), changes, bar.letter(), bar.role(), bar.opens());
  }

  private static SectionRole role(String name) {
    return switch (name.toLowerCase(Locale.ROOT).replaceAll("[^a-z].*", "")) {
      case "intro", "in" -> SectionRole.INTRO;
      case "verse", "vr" -> SectionRole.VERSE;
      case "pre", "prechorus" -> SectionRole.PRECHORUS;
      case "chorus", "refrain", "ch" -> SectionRole.CHORUS;
      case "bridge", "br" -> SectionRole.BRIDGE;
      case "interlude", "trans", "transition" -> SectionRole.BREAK;
      case "solo", "instrumental" -> SectionRole.SOLO;
      case "outro", "coda", "fadeout" -> SectionRole.OUTRO;
      default -> SectionRole.OTHER;
    };
  }
}
