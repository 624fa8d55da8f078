package undersong.exchange;

import java.util.List;
import undersong.reading.Reading;
import undersong.reading.SectionRole;
import undersong.reading.TimeSignature;
import undersong.theory.ChordSymbol;
import undersong.theory.Key;

/**
 * A song as chords on paper: bars in order, with keys and sections. Nothing sounds in it, so what
 * it says is certain and no tune is known.
 */
public record ChordChart(List<ChartBar> bars) {
  public ChordChart {
    bars = List.copyOf(bars);
    if (bars.isEmpty()) {
      throw new IllegalArgumentException("A chart needs at least one bar.");
    }
  }

  /**
   * One bar.
   *
   * @param changes chords in order; the first at beat 0
   * @param letter the same letter = the same music
   * @param opensSection whether a section begins here
   */
  public record ChartBar(
      TimeSignature signature,
      Key key,
      List<ChartChange> changes,
      String letter,
      SectionRole role,
      boolean opensSection) {
    public ChartBar {
      changes = List.copyOf(changes);
      if (changes.isEmpty() || changes.get(0).beat() != 0) {
        throw new IllegalArgumentException("The first chord of a bar must stand on its beat 0.");
      }
      for (int i = 0; i < changes.size(); i++) {
        double before = i == 0 ? -1 : changes.get(i - 1).beat();
        if (!(changes.get(i).beat() > before && changes.get(i).beat() < signature.beats())) {
          throw new IllegalArgumentException(
              "Chord at beat %s of a bar of %d beats must come later than the chord before it (%s)."
                  .formatted(changes.get(i).beat(), signature.beats(), before));
        }
      }
    }
  }

  /**
   * A chord from a beat of its bar on.
   *
   * @param beat 0 = on the bar line
   */
  public record ChartChange(double beat, ChordSymbol symbol) {}

  /**
   * The chart as if played evenly from 0 s: BEATS, METER, FORM, BASS (each chord's lowest note),
   * MELODY (none), CHORDS, KEYS and ROLES, all certain.
   */
  public Reading read(double bpm) {
    if (!(bpm > 0 && Double.isFinite(bpm))) {
      throw new IllegalArgumentException("Tempo of %s bpm must be positive.".formatted(bpm));
    }
    return new ChartPlayer(this, 60 / bpm).reading();
  }
}
