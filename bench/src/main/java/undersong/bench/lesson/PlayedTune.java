package undersong.bench.lesson;

import java.util.ArrayList;
import java.util.List;
import undersong.bench.metrics.NoteMetrics;
import undersong.bench.metrics.SungNote;
import undersong.bench.render.Truth;
import undersong.notation.NotationSettings;
import undersong.notation.Notator;
import undersong.notation.WrittenBar;
import undersong.notation.WrittenNote;
import undersong.notation.WrittenPart;
import undersong.notation.WrittenScore;
import undersong.reading.Bar;
import undersong.reading.Bass;
import undersong.reading.Beats;
import undersong.reading.Derived;
import undersong.reading.Facet;
import undersong.reading.Melody;
import undersong.reading.Meter;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;
import undersong.reading.TimeSignature;
import undersong.time.BeatGrid;
import undersong.time.Span;

/** What was played in a rendered song against what is written down of it. */
final class PlayedTune {
  /** Where a bar counts as the same: a quarter of a beat. */
  private static final double SAME_BAR_BEATS = 0.25;

  private static final int SIXTEENTH_TICKS = 6;
  private static final int TRIPLET_TICKS = 8;
  private static final int TOUCHING_TICKS = 12;

  /**
   * A note on paper, wherever its bar stands.
   *
   * @param beatTick where in its beat it begins
   * @param ticks it lasts
   * @param barSeconds when its bar begins
   */
  private record OnPaper(int beatTick, int ticks, double barSeconds) {}

  private final Truth truth;
  private final BeatGrid beats;
  private final TimeSignature signature;

  PlayedTune(Truth truth) {
    this.truth = truth;
    this.beats = BeatGrid.of(truth.beats().stream().mapToDouble(Double::doubleValue).toArray());
    this.signature = TimeSignature.parse(truth.meter());
  }

  /**
   * @param heard reading of the rendering the truth is of
   */
  void count(Reading heard, HeardNotation.Given given, Tally tally) {
    Reading reading =
        switch (given) {
          case NOTHING -> heard;
          case BEATS -> withBeats(heard);
          case BEATS_AND_TUNE -> withBeats(heard).with(Facet.MELODY, Derived.of(played()));
        };
    List<NoteEvent> notes = reading.get(Facet.MELODY).notes();
    OnPaper[] written = written(reading, notes.size());
    List<SungNote> estimated =
        notes.stream()
            .map(n -> new SungNote(n.span().startSeconds(), n.span().endSeconds(), n.midiPitch()))
            .toList();
    int[] begun = NoteMetrics.match(truth.melody(), estimated, NoteMetrics.Demand.ONSET_PITCH);
    int[] held =
        NoteMetrics.match(truth.melody(), estimated, NoteMetrics.Demand.ONSET_PITCH_OFFSET);
    tally.song(begun.length);
    for (int i = 0; i < begun.length; i++) {
      if (held[i] >= 0) {
        tally.held(valueRight(i, written[held[i]]));
      }
      if (begun[i] >= 0) {
        OnPaper paper = written[begun[i]];
        tally.begun(valueRight(i, paper), barRight(i, paper));
      }
    }
  }

  private boolean valueRight(int note, OnPaper paper) {
    if (paper == null) {
      return false; // left out of the score
    }
    int beatTicks = WrittenBar.beatTicks(signature);
    int start = printedTick(truth.melody().get(note).startSeconds());
    int ticks = Math.max(1, printedTick(truth.melody().get(note).endSeconds()) - start);
    int next =
        note + 1 < truth.melody().size()
            ? printedTick(truth.melody().get(note + 1).startSeconds()) - start
            : Integer.MAX_VALUE;
    boolean lasts =
        Math.abs(paper.ticks() - ticks) <= 1
            || (next - ticks <= TOUCHING_TICKS && Math.abs(paper.ticks() - next) <= 1);
    return lasts && Math.abs(paper.beatTick() - Math.floorMod(start, beatTicks)) <= 1;
  }

  private boolean barRight(int note, OnPaper paper) {
    if (paper == null) {
      return false;
    }
    int tick = printedTick(truth.melody().get(note).startSeconds());
    double at = beats.secondsAtPosition((tick + 0.5) / WrittenBar.beatTicks(signature));
    double bar =
        truth.downbeats().stream()
            .filter(seconds -> seconds <= at)
            .reduce((a, b) -> b)
            .orElse(-1.0);
    double beatSeconds = 60 / truth.bpm();
    return Math.abs(paper.barSeconds() - bar) <= SAME_BAR_BEATS * beatSeconds;
  }

  /** The nearest sixteenth or triplet of the true beats, swing taken out, from the first beat. */
  private int printedTick(double seconds) {
    double position = beats.positionAt(seconds);
    int beat = (int) Math.floor(position);
    double into = straightened(position - beat) * WrittenBar.beatTicks(signature);
    long even = Math.round(into / SIXTEENTH_TICKS) * SIXTEENTH_TICKS;
    long three = Math.round(into / TRIPLET_TICKS) * TRIPLET_TICKS;
    boolean triplet = !signature.compound() && Math.abs(into - three) < Math.abs(into - even) - 0.5;
    return beat * WrittenBar.beatTicks(signature) + (int) (triplet ? three : even);
  }

  private double straightened(double share) {
    double longer = truth.swingRatio() / (1 + truth.swingRatio());
    return share < longer ? share / longer / 2 : 0.5 + (share - longer) / (1 - longer) / 2;
  }

  private static OnPaper[] written(Reading reading, int notes) {
    OnPaper[] written = new OnPaper[notes];
    WrittenScore score = Notator.write(reading, NotationSettings.DEFAULTS);
    for (WrittenPart part : score.parts()) {
      if (!part.name().equals("melody")) {
        continue;
      }
      for (WrittenBar bar : part.bars()) {
        for (WrittenNote note : bar.notes()) {
          if (note.isRest()) {
            continue;
          }
          OnPaper before = written[note.heard()];
          written[note.heard()] =
              before == null
                  ? new OnPaper(
                      note.startTicks() % WrittenBar.beatTicks(bar.signature()),
                      note.ticks(),
                      bar.span().startSeconds())
                  : new OnPaper(
                      before.beatTick(), before.ticks() + note.ticks(), before.barSeconds());
        }
      }
    }
    return written;
  }

  private Reading withBeats(Reading heard) {
    List<Bar> bars = new ArrayList<>();
    List<Double> downbeats = truth.downbeats();
    for (int i = 0; i < downbeats.size(); i++) {
      int first = beats.nearestBeat(downbeats.get(i));
      int end = i + 1 < downbeats.size() ? beats.nearestBeat(downbeats.get(i + 1)) : beats.size();
      Span span = new Span(beats.secondsAt(first), beats.secondsAtPosition(end));
      bars.add(
          new Bar(
              i + 1,
              first,
              end - first,
              new TimeSignature(end - first, signature.compound()),
              span));
    }
    return heard
        .with(Facet.BEATS, Derived.of(new Beats(beats, 2, truth.swingRatio(), 1, List.of())))
        .with(Facet.METER, Derived.of(new Meter(bars, 1, List.of())))
        .with(Facet.BASS, Derived.of(new Bass(List.of())));
  }

  private Melody played() {
    return new Melody(
        truth.melody().stream()
            .map(n -> new NoteEvent(new Span(n.startSeconds(), n.endSeconds()), n.midiPitch(), 1))
            .toList());
  }
}
