package undersong.notation;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import undersong.reading.Bar;
import undersong.reading.Bass;
import undersong.reading.Beats;
import undersong.reading.Derived;
import undersong.reading.Facet;
import undersong.reading.KeyRegion;
import undersong.reading.Keys;
import undersong.reading.Melody;
import undersong.reading.Meter;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;
import undersong.reading.TimeSignature;
import undersong.theory.Key;
import undersong.time.BeatGrid;
import undersong.time.Span;

/**
 * Rhythms worked by hand, at 120 beats a minute (a beat = half a second). How signs show the beat:
 * common practice, no source.
 */
class NotatorTest {
  private static final double BEAT = 0.5;

  @Test
  void quartersAndEighthsStandAsPlayed() {
    assertThat(written(false, 1, 0, 1, 1, 1, 2, 0.5, 2.5, 0.5, 3, 1)).isEqualTo("q q e e q");
  }

  @Test
  void aHandThatIsNotAMachineIsForgiven() {
    Random hand = new Random(5);
    for (int i = 0; i < 50; i++) {
      double[] played = {0, 1, 1, 0.5, 1.5, 0.5, 2, 1.5, 3.5, 0.5};
      for (int k = 0; k < played.length; k += 2) {
        played[k] = Math.max(0, played[k] + 0.04 * hand.nextGaussian());
        played[k + 1] *= 0.6 + 0.4 * hand.nextDouble();
      }
      assertThat(written(false, 1, played)).isEqualTo("q e e q. e");
    }
  }

  @Test
  void threeInTheTimeOfTwoAreATriplet() {
    double third = 1.0 / 3;
    assertThat(written(false, 1, 0, third, third, third, 2 * third, third, 1, 1, 2, 2))
        .isEqualTo("3e 3e 3e q h");
  }

  @Test
  void swungEighthsStandEven() {
    double late = 2.0 / 3;
    assertThat(written(false, 2, 0, late, late, 1 - late, 1, late, 1 + late, 1 - late, 2, 2))
        .isEqualTo("e e e e h");
    assertThat(score(false, 2, 0, 1.0).swing()).isTrue();
    assertThat(score(false, 1, 0, 1.0).swing()).isFalse();
  }

  @Test
  void aNoteOverTheMiddleOfTheBarIsTied() {
    assertThat(written(false, 1, 0, 1.5, 1.5, 1, 2.5, 1.5)).isEqualTo("q. e~ e e~ q");
  }

  @Test
  void aSyncopationThatShowsTheBeatIsOneSign() {
    assertThat(written(false, 1, 0, 0.5, 0.5, 1, 1.5, 0.5, 2, 2)).isEqualTo("e q e h");
  }

  @Test
  void restsAreWrittenWhereNobodySings() {
    assertThat(written(false, 1, 1, 1, 3, 1)).isEqualTo("R:q q R:q q");
    assertThat(written(false, 1, 2, 2)).isEqualTo("R:h h");
  }

  @Test
  void sixEightIsCountedInDottedQuarters() {
    double third = 1.0 / 3;
    assertThat(written(true, 1, 0, 1, 1, third, 1 + third, third, 1 + 2 * third, third))
        .isEqualTo("q. e e e");
    assertThat(written(true, 1, 0, 2 * third, 2 * third, third, 1, 1)).isEqualTo("q e q.");
  }

  @Test
  void aNoteHeldOverTheBarLineIsTiedIntoTheNextBar() {
    WrittenScore score = score(false, 1, 0, 3, 3, 3, 6, 2);
    List<WrittenBar> bars = score.parts().get(0).bars();
    assertThat(signs(bars.get(0))).isEqualTo("h. q~");
    assertThat(signs(bars.get(1))).isEqualTo("h h");
    WrittenNote held = bars.get(1).notes().get(0);
    assertThat(held.begins()).isFalse();
    assertThat(held.syllable()).isEmpty();
    assertThat(held.heard()).isEqualTo(1);
  }

  @Test
  void notesBeforeTheFirstBarStandInABarOfTheirOwn() {
    double[] beats = {0.5, 1, 1.5, 2, 2.5, 3};
    Reading reading =
        reading(
            BeatGrid.of(beats),
            List.of(
                new Bar(0, 0, 1, TimeSignature.FOUR_FOUR, new Span(0.5, 1)),
                new Bar(1, 1, 4, TimeSignature.FOUR_FOUR, new Span(1, 3))),
            1,
            List.of(note(0.5, 0.25), note(0.75, 0.25), note(1, 2)));
    List<WrittenBar> bars = Notator.write(reading, NotationSettings.DEFAULTS).parts().get(0).bars();
    assertThat(bars).extracting(WrittenBar::number).containsExactly(0, 1);
    assertThat(signs(bars.get(0))).isEqualTo("e e");
    assertThat(signs(bars.get(1))).isEqualTo("w");
  }

  @Test
  void silenceIsNothingToWrite() {
    Reading silent =
        Reading.empty(10)
            .with(Facet.BEATS, Derived.of(new Beats(BeatGrid.NO_PULSE, 2, 1, 0, List.of())))
            .with(Facet.METER, Derived.of(new Meter(List.of(), 0, List.of())));
    assertThat(Notator.write(silent, NotationSettings.DEFAULTS).parts()).isEmpty();
  }

  @Test
  void everyBarIsFilledWhateverIsPlayed() {
    Random any = new Random(11);
    for (int round = 0; round < 300; round++) {
      boolean compound = any.nextInt(4) == 0;
      int beats = compound ? 2 : 4;
      List<Double> played = new ArrayList<>();
      double at = any.nextDouble();
      while (at < 3 * beats) {
        double length = 0.1 + 2 * any.nextDouble() * any.nextDouble();
        played.add(at);
        played.add(length * (0.3 + 0.7 * any.nextDouble()));
        at += length;
      }
      double[] notes = played.stream().mapToDouble(Double::doubleValue).toArray();
      WrittenScore score = score(compound, 1 + any.nextInt(2), notes);
      // WrittenBar itself refuses gaps and overhangs; no note may be lost but where two meet.
      long begun =
          score.parts().get(0).bars().stream()
              .flatMap(bar -> bar.notes().stream())
              .filter(WrittenNote::begins)
              .count();
      assertThat(begun).isBetween(Math.round(0.8 * notes.length / 2), (long) notes.length / 2);
    }
  }

  private static String written(boolean compound, double swing, double... startsAndLengths) {
    return signs(score(compound, swing, startsAndLengths).parts().get(0).bars().get(0));
  }

  private static WrittenScore score(boolean compound, double swing, double... startsAndLengths) {
    TimeSignature signature = new TimeSignature(compound ? 2 : 4, compound);
    List<NoteEvent> notes = new ArrayList<>();
    for (int i = 0; i < startsAndLengths.length; i += 2) {
      notes.add(note(startsAndLengths[i] * BEAT, startsAndLengths[i + 1] * BEAT));
    }
    int bars = 5;
    double[] beats = new double[bars * signature.beats() + 1];
    for (int i = 0; i < beats.length; i++) {
      beats[i] = i * BEAT;
    }
    List<Bar> measures = new ArrayList<>();
    for (int i = 0; i < bars; i++) {
      int first = i * signature.beats();
      Span span = new Span(first * BEAT, (first + signature.beats()) * BEAT);
      measures.add(new Bar(i + 1, first, signature.beats(), signature, span));
    }
    return Notator.write(
        reading(BeatGrid.of(beats), measures, swing, notes), NotationSettings.DEFAULTS);
  }

  private static Reading reading(
      BeatGrid grid, List<Bar> bars, double swing, List<NoteEvent> notes) {
    Key key = Key.parse("C major");
    return Reading.empty(20)
        .with(Facet.BEATS, Derived.of(new Beats(grid, 2, swing, 1, List.of())))
        .with(Facet.METER, Derived.of(new Meter(bars, 1, List.of())))
        .with(Facet.BASS, Derived.of(new Bass(List.of())))
        .with(Facet.MELODY, Derived.of(new Melody(notes)))
        .with(
            Facet.KEYS,
            Derived.of(new Keys(List.of(new KeyRegion(new Span(0, 20), key, 1, List.of())))));
  }

  private static NoteEvent note(double startSeconds, double lengthSeconds) {
    return new NoteEvent(new Span(startSeconds, startSeconds + lengthSeconds), 72, 1);
  }

  /** w h q e s t with dots; 3 = of a triplet, R: = rest, ~ = tied on. */
  private static String signs(WrittenBar bar) {
    return bar.notes().stream()
        .map(
            note ->
                (note.isRest() ? "R:" : "")
                    + (note.triplet() ? "3" : "")
                    + switch (note.value().type()) {
                      case "16th" -> "s";
                      case "32nd" -> "t";
                      default -> note.value().type().substring(0, 1);
                    }
                    + ".".repeat(note.value().dots())
                    + (note.tiedOn() ? "~" : ""))
        .collect(Collectors.joining(" "));
  }
}
