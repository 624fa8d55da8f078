package undersong.bench.render;

import java.util.List;
import undersong.bench.metrics.KeyLabel;
import undersong.bench.metrics.PitchCurve;
import undersong.bench.metrics.SungNote;
import undersong.bench.metrics.Timed;

/**
 * Everything that is true of a rendered song. Times in seconds of the audio file; pitches against
 * the song's own tuning.
 *
 * @param meter of most bars, "4/4"
 * @param drifting whether the tempo wanders
 * @param chords labels in Harte's grammar at the moment they arrive, inversions included
 * @param changes the chord changes, with the beat each belongs to
 * @param curve pitch of the lead every 10 ms in Hz, 0 = silent, tuning included
 * @param sung whether a voice (not an instrument) leads
 * @param sections letters; empty where the form is not known
 * @param staging what is true of the production
 * @param techniques ids of the catalogue, where they are planted
 */
public record Truth(
    String id,
    double durationSeconds,
    double tuningCents,
    String meter,
    double bpm,
    double swingRatio,
    boolean drifting,
    List<Double> beats,
    List<Double> downbeats,
    List<Timed<KeyLabel>> keys,
    List<Timed<String>> chords,
    List<ChordChange> changes,
    List<SungNote> bass,
    List<SungNote> melody,
    List<Double> curve,
    boolean sung,
    List<SungNote> second,
    List<Timed<String>> sections,
    Staging staging,
    List<Timed<String>> techniques) {
  public static final double CURVE_HOP_SECONDS = 0.01;

  public record ChordChange(double seconds, double beatSeconds) {}

  /** Pitch of the lead; notes lie at 440 Hz, so the tuning is in the curve. */
  public PitchCurve pitchCurve() {
    double[] hertz = curve.stream().mapToDouble(Double::doubleValue).toArray();
    double[] seconds = new double[hertz.length];
    for (int i = 0; i < hertz.length; i++) {
      seconds[i] = i * CURVE_HOP_SECONDS;
    }
    return new PitchCurve(seconds, hertz);
  }

  /** The same song produced otherwise. */
  Truth with(Staging other) {
    return new Truth(
        id,
        durationSeconds,
        tuningCents,
        meter,
        bpm,
        swingRatio,
        drifting,
        beats,
        downbeats,
        keys,
        chords,
        changes,
        bass,
        melody,
        curve,
        sung,
        second,
        sections,
        other,
        techniques);
  }

  /** The truth of the same song played faster (factor above 1: everything comes sooner). */
  Truth stretched(double factor, double cents) {
    return new Truth(
        id,
        durationSeconds / factor,
        cents,
        meter,
        bpm * factor,
        swingRatio,
        drifting,
        scale(beats, factor),
        scale(downbeats, factor),
        spans(keys, factor),
        spans(chords, factor),
        changes.stream()
            .map(c -> new ChordChange(c.seconds() / factor, c.beatSeconds() / factor))
            .toList(),
        notes(bass, factor),
        notes(melody, factor),
        resampled(factor),
        sung,
        notes(second, factor),
        spans(sections, factor),
        staging.stretched(factor),
        spans(techniques, factor));
  }

  private List<Double> resampled(double factor) {
    int frames = (int) (curve.size() / factor);
    return java.util.stream.IntStream.range(0, frames)
        .mapToObj(i -> factor * curve.get(Math.min(curve.size() - 1, (int) Math.rint(i * factor))))
        .toList();
  }

  private static List<Double> scale(List<Double> seconds, double factor) {
    return seconds.stream().map(s -> s / factor).toList();
  }

  static <T> List<Timed<T>> spans(List<Timed<T>> spans, double factor) {
    return spans.stream()
        .map(s -> new Timed<>(s.startSeconds() / factor, s.endSeconds() / factor, s.value()))
        .toList();
  }

  static List<SungNote> notes(List<SungNote> notes, double factor) {
    return notes.stream()
        .map(n -> new SungNote(n.startSeconds() / factor, n.endSeconds() / factor, n.midiPitch()))
        .toList();
  }
}
