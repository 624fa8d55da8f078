package undersong.estimate.melody;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import undersong.feature.EarActivations;
import undersong.feature.EarHead;
import undersong.feature.FrameMatrix;
import undersong.feature.MadeUpHearing;
import undersong.feature.StereoImage;
import undersong.feature.StereoPowers;
import undersong.reading.NoteEvent;
import undersong.time.Span;

class OwnNotesTest {
  private static final int TUNE = 69;
  private static final int SECONDS = 12;

  /** Eight notes of a tune in the middle at -20 dB, then four by somebody else. */
  private static List<Double> logOdds(double otherDb, double otherBalance) {
    MadeUpHearing ear = new MadeUpHearing(SECONDS);
    List<NoteEvent> notes = new ArrayList<>();
    float[] level = new float[SECONDS * 25 * StereoImage.BINS];
    Arrays.fill(level, -120);
    float[] balance = new float[level.length];
    float[] likeness = new float[level.length];
    int bin = StereoImage.binOf(440);
    for (int second = 0; second < SECONDS; second++) {
      boolean tune = second < 8;
      ear.set(EarHead.VOICING, 0, second, second + 0.9, 0.9);
      ear.set(EarHead.LEAD, 3 * (TUNE - 21) + 1, second, second + 0.9, 0.9);
      ear.set(EarHead.NOTE_SUSTAIN, TUNE - 21, second, second + 0.9, 0.9);
      notes.add(new NoteEvent(new Span(second, second + 0.9), TUNE, 1));
      for (int frame = second * 25; frame < second * 25 + 23; frame++) {
        int at = frame * StereoImage.BINS + bin;
        level[at] = (float) (tune ? -20 : otherDb);
        balance[at] = (float) (tune ? 0 : otherBalance);
        likeness[at] = (float) (tune ? 1 : Math.sqrt(1 - otherBalance * otherBalance));
      }
    }
    EarActivations heard = ear.activations();
    StereoImage nothing = StereoImage.NOTHING;
    StereoImage image =
        new StereoImage(
            FrameMatrix.of(StereoImage.CLOCK, StereoImage.BINS, level),
            FrameMatrix.of(StereoImage.CLOCK, StereoImage.BINS, balance),
            FrameMatrix.of(StereoImage.CLOCK, StereoImage.BINS, likeness),
            nothing.quickLevelsDb(),
            nothing.lowWave());
    LeadPath path = LeadPath.find(heard.head(EarHead.LEAD), MelodySettings.DEFAULTS);
    double[] odds = new OwnNotes(heard, path, StereoPowers.of(image), 0).logOdds(notes);
    return Arrays.stream(odds).boxed().toList();
  }

  @Test
  void whoIsSofterAndStandsElsewhereIsNotTheLead() {
    List<Double> odds = logOdds(-28, 0.6);
    assertThat(odds.subList(0, 8)).allSatisfy(o -> assertThat(o).isPositive());
    assertThat(odds.subList(8, 12)).allSatisfy(o -> assertThat(o).isNegative());
  }

  @Test
  void whoIsAsLoudInTheSamePlaceIsTheLead() {
    assertThat(logOdds(-20, 0)).allSatisfy(o -> assertThat(o).isPositive());
  }

  /** A singer sings softly, too. */
  @Test
  void softerAloneIsNotEnough() {
    assertThat(logOdds(-24, 0)).allSatisfy(o -> assertThat(o).isPositive());
  }
}
