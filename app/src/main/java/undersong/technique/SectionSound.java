package undersong.technique;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import undersong.reading.Bar;
import undersong.reading.BarTexture;
import undersong.reading.BarWidth;
import undersong.reading.Dynamics;
import undersong.reading.Facet;
import undersong.reading.HearingBand;
import undersong.reading.LayerKind;
import undersong.reading.Meter;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;
import undersong.reading.Space;
import undersong.reading.Texture;
import undersong.time.Span;

/**
 * How a stretch of bars sounds on the whole: what form is made of. Empty where the reading does not
 * say it.
 *
 * @param lufs mean loudness
 * @param onsetsPerBeat onset density
 * @param register median pitch of the tune, as MIDI number, by time
 * @param sideToMidDb width
 * @param noisiness spectral flatness, 0 to 1
 * @param lowDb level below 250 Hz
 * @param layers that sound in the larger part of it
 */
public record SectionSound(
    OptionalDouble lufs,
    OptionalDouble onsetsPerBeat,
    OptionalDouble register,
    OptionalDouble sideToMidDb,
    OptionalDouble noisiness,
    OptionalDouble lowDb,
    List<LayerKind> layers) {
  private static final double LAYER_SHARE = 0.6;

  public SectionSound {
    layers = List.copyOf(layers);
  }

  /** Reads METER; DYNAMICS, MELODY, SPACE and TEXTURE where they are there. */
  public static SectionSound of(Reading reading, int firstBar, int lastBar) {
    Meter meter = reading.get(Facet.METER);
    List<Integer> bars = new ArrayList<>();
    for (int i = 0; i < meter.bars().size(); i++) {
      Bar bar = meter.bars().get(i);
      if (bar.number() >= firstBar && bar.number() <= lastBar) {
        bars.add(i);
      }
    }
    if (bars.isEmpty()) {
      return new SectionSound(
          OptionalDouble.empty(),
          OptionalDouble.empty(),
          OptionalDouble.empty(),
          OptionalDouble.empty(),
          OptionalDouble.empty(),
          OptionalDouble.empty(),
          List.of());
    }
    Span span =
        new Span(
            meter.bars().get(bars.get(0)).span().startSeconds(),
            meter.bars().get(bars.get(bars.size() - 1)).span().endSeconds());
    Optional<Dynamics> dynamics = reading.find(Facet.DYNAMICS);
    Optional<Space> space = reading.find(Facet.SPACE);
    Optional<Texture> texture = reading.find(Facet.TEXTURE);
    return new SectionSound(
        decibels(pick(dynamics.map(Dynamics::barLufs), bars)),
        mean(pick(dynamics.map(Dynamics::onsetsPerBeat), bars)),
        reading
            .find(Facet.MELODY)
            .map(tune -> medianPitch(tune.notes(), span))
            .orElse(OptionalDouble.empty()),
        decibels(pick(space.map(s -> s.bars().stream().map(BarWidth::sideToMidDb).toList()), bars)),
        mean(pick(texture.map(t -> t.bars().stream().map(BarTexture::noisiness).toList()), bars)),
        decibels(pick(texture.map(t -> t.bars().stream().map(SectionSound::low).toList()), bars)),
        texture.map(t -> layers(t, span)).orElse(List.of()));
  }

  public static SectionSound of(Reading reading, SongSection section) {
    return of(reading, section.section().firstBar(), section.section().lastBar());
  }

  private static double low(BarTexture bar) {
    return 10
        * Math.log10(
            Math.pow(10, bar.levelDb(HearingBand.SUB) / 10)
                + Math.pow(10, bar.levelDb(HearingBand.LOW) / 10));
  }

  private static List<Double> pick(Optional<List<Double>> values, List<Integer> bars) {
    List<Double> all = values.orElse(List.of());
    return bars.stream().filter(bar -> bar < all.size()).map(all::get).toList();
  }

  private static OptionalDouble mean(List<Double> values) {
    return values.stream().mapToDouble(Double::doubleValue).average();
  }

  /** Mean of powers, in dB. */
  private static OptionalDouble decibels(List<Double> values) {
    OptionalDouble power = values.stream().mapToDouble(db -> Math.pow(10, db / 10)).average();
    return power.isPresent()
        ? OptionalDouble.of(10 * Math.log10(Math.max(1e-12, power.getAsDouble())))
        : OptionalDouble.empty();
  }

  /** The pitch below which a voice spends half of its time; empty where it is silent. */
  public static OptionalDouble medianPitch(List<NoteEvent> notes, Span span) {
    List<NoteEvent> inside = notes.stream().filter(note -> note.span().overlaps(span)).toList();
    double[][] pitches = new double[inside.size()][];
    double all = 0;
    for (int i = 0; i < pitches.length; i++) {
      double seconds = inside.get(i).span().overlapSeconds(span);
      pitches[i] = new double[] {inside.get(i).midiPitch(), seconds};
      all += seconds;
    }
    Arrays.sort(pitches, (one, other) -> Double.compare(one[0], other[0]));
    double passed = 0;
    for (double[] pitch : pitches) {
      passed += pitch[1];
      if (passed >= all / 2) {
        return OptionalDouble.of(pitch[0]);
      }
    }
    return OptionalDouble.empty();
  }

  private static List<LayerKind> layers(Texture texture, Span span) {
    return Arrays.stream(LayerKind.values())
        .filter(
            kind ->
                texture.of(kind).stream()
                        .mapToDouble(layer -> layer.span().overlapSeconds(span))
                        .sum()
                    >= LAYER_SHARE * span.lengthSeconds())
        .toList();
  }
}
