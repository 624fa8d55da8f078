package undersong.lesson.sketch;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import undersong.reading.Bar;
import undersong.reading.ChordSpan;
import undersong.reading.Derived;
import undersong.reading.Facet;
import undersong.reading.HarmonicFunction;
import undersong.reading.Harmony;
import undersong.reading.HarmonyEvent;
import undersong.reading.Reading;
import undersong.render.DemoSong;
import undersong.technique.BarRange;
import undersong.technique.Technique;
import undersong.theory.Key;
import undersong.theory.RomanNumeral;
import undersong.time.Span;

/**
 * A short new piece that uses one technique.
 *
 * @param seed by which it can be made again
 * @param scoreText as the program's own score language writes it
 * @param song its score, its notes and what is true of them
 * @param numerals by bar, in the key it begins in
 * @param shown bars in which the technique stands
 * @param why what the technique does here, for a student
 * @param quoted how much of the song it was made beside comes again by chance
 */
public record Sketch(
    Technique technique,
    long seed,
    Key key,
    String scoreText,
    DemoSong song,
    List<RomanNumeral> numerals,
    BarRange shown,
    String why,
    Quotation quoted) {

  public Sketch {
    numerals = List.copyOf(numerals);
  }

  /** What is written of it, as a reading: beats, bars, keys, chords, numerals, notes, form. */
  public Reading reading() {
    Reading written = song.truth().reading();
    List<Bar> bars = written.get(Facet.METER).bars();
    List<HarmonyEvent> events = new ArrayList<>();
    for (ChordSpan chord : written.get(Facet.CHORDS).spans()) {
      double middle = chord.span().middleSeconds();
      Optional<RomanNumeral> numeral =
          IntStream.range(0, Math.min(bars.size(), numerals.size()))
              .filter(i -> bars.get(i).span().contains(middle))
              .mapToObj(numerals::get)
              .findFirst();
      Key here = written.get(Facet.KEYS).keyAt(middle).orElse(key);
      events.add(
          new HarmonyEvent(chord.span(), here, numeral, HarmonicFunction.OTHER, false, 0, 1));
    }
    return written.with(Facet.HARMONY, Derived.of(new Harmony(events, List.of())));
  }

  /** Where the technique stands, in seconds. */
  public Span shownSpan() {
    return new Span(
        barStart(shown.first()), Math.min(reading().durationSeconds(), barStart(shown.last() + 1)));
  }

  private double barStart(int number) {
    List<Bar> bars = reading().get(Facet.METER).bars();
    return bars.stream()
        .filter(bar -> bar.number() == number)
        .findFirst()
        .map(bar -> bar.span().startSeconds())
        .orElse(bars.get(bars.size() - 1).span().endSeconds());
  }
}
