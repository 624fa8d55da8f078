package undersong.estimate.chord;

import java.util.List;
import undersong.estimate.Estimator;
import undersong.feature.Features;
import undersong.reading.Bass;
import undersong.reading.Beats;
import undersong.reading.ChordSpan;
import undersong.reading.Chords;
import undersong.reading.Corrections;
import undersong.reading.Derived;
import undersong.reading.Facet;
import undersong.reading.Member;
import undersong.reading.Meter;
import undersong.reading.Reading;

/**
 * Recognizes chords over tatums, so that an early chord keeps its real arrival.
 *
 * <p><b>In:</b> both spectra; TUNING, BEATS, METER, FORM, BASS, MELODY. <b>Out:</b> chords from the
 * first sample to the last, spelled in the key around. <b>Silence</b> is one span of no chord.
 * <b>Cost:</b> note strengths once per recording and tuning (about 4 ms a second of music); then
 * O(tatums * states).
 */
public final class TatumChordRecognizer implements Estimator<Chords> {
  private final LastHeard lastHeard = new LastHeard();
  private final boolean inKeys;

  public TatumChordRecognizer() {
    this(true);
  }

  private TatumChordRecognizer(boolean inKeys) {
    this.inKeys = inKeys;
  }

  /** One that expects no chord by the key around it, to show what that is worth. */
  public static TatumChordRecognizer outsideKeys() {
    return new TatumChordRecognizer(false);
  }

  @Override
  public Derived<Chords> estimate(Features features, Reading earlier, Corrections corrections) {
    Beats beats = earlier.get(Facet.BEATS);
    Meter meter = earlier.get(Facet.METER);
    Bass bass = earlier.get(Facet.BASS);
    StepGrid grid = StepGrid.of(beats, meter, earlier.durationSeconds());
    PinnedChords pinned = new PinnedChords(corrections, earlier.durationSeconds());
    NoteStrengths notes = lastHeard.notes(features, earlier.get(Facet.TUNING).cents());
    ChordEvidence measured =
        ClassicalChordEvidence.of(notes, grid, bass, earlier.get(Facet.MELODY));
    ChordEvidence own =
        features.heard().map(ear -> HeardChordEvidence.of(ear, grid, measured)).orElse(measured);
    SharedRepeats repeats = new SharedRepeats(own, grid, earlier.get(Facet.FORM), meter.bars());
    Decoding decoding =
        ChordDecoder.decode(repeats.shared(), grid, meter, pinned.states(grid), inKeys);
    MemberReader members = new MemberReader(own, repeats, grid, earlier.get(Facet.MELODY), bass);
    List<ChordSpan> spans = new SpanLabeler(decoding, grid, members, bass.notes()).spans();
    double halfTatumSeconds = 0.5 * medianStepSeconds(grid);
    return new Derived<>(
        new Chords(pinned.laidOver(joined(spans), halfTatumSeconds)), pinned.unplaced());
  }

  private static double medianStepSeconds(StepGrid grid) {
    double[] lengths = new double[grid.steps()];
    for (int step = 0; step < lengths.length; step++) {
      lengths[step] = grid.endSeconds(step) - grid.startSeconds(step);
    }
    java.util.Arrays.sort(lengths);
    return lengths[lengths.length / 2];
  }

  /** Neighbors that ended up with the same label and members are one chord. */
  private static List<ChordSpan> joined(List<ChordSpan> spans) {
    List<ChordSpan> out = new java.util.ArrayList<>();
    for (ChordSpan span : spans) {
      ChordSpan last = out.isEmpty() ? null : out.get(out.size() - 1);
      if (last != null && last.symbol().equals(span.symbol())) {
        out.set(out.size() - 1, both(last, span));
      } else {
        out.add(span);
      }
    }
    return out;
  }

  private static ChordSpan both(ChordSpan one, ChordSpan next) {
    double first = one.span().lengthSeconds();
    double second = next.span().lengthSeconds();
    return new ChordSpan(
        new undersong.time.Span(one.span().startSeconds(), next.span().endSeconds()),
        one.symbol(),
        surer(one.third(), next.third()),
        surer(one.fifth(), next.fifth()),
        surer(one.seventh(), next.seventh()),
        (first * one.probability() + second * next.probability()) / (first + second),
        first >= second ? one.runnersUp() : next.runnersUp(),
        one.besides().isPresent() ? one.besides() : next.besides());
  }

  private static Member surer(Member one, Member other) {
    boolean surer = other.sounds() ? !one.sounds() : !one.sounds() && one.impliedBy().isEmpty();
    return surer ? other : one;
  }
}
