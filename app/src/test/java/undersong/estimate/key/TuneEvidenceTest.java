package undersong.estimate.key;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import undersong.reading.NoteEvent;
import undersong.time.Span;

/** Four notes a bar, bars of two seconds. */
class TuneEvidenceTest {
  private static final double[] BARS = {0, 2, 4, 6, 8};
  private static final int C_MAJOR = 0;
  private static final int A_MINOR = 21;

  private static float[][] heard(int... pitches) {
    List<NoteEvent> notes =
        IntStream.range(0, 16)
            .mapToObj(
                i ->
                    new NoteEvent(
                        new Span(0.5 * i, 0.5 * i + 0.4), pitches[i % pitches.length], 0.9))
            .toList();
    float[][] evidence = new float[4][TonicEvidence.KEYS];
    TuneEvidence.add(notes, BARS, 1, evidence);
    return evidence;
  }

  private static double sum(float[][] evidence, int key) {
    return Arrays.stream(evidence).mapToDouble(unit -> unit[key]).sum();
  }

  /** The same scale: a tune is in the key on whose tonic and fifth it dwells (common practice). */
  @Test
  void tellsRelativeKeysByWhereTheTuneDwells() {
    float[][] onC = heard(60, 64, 67, 60);
    float[][] onA = heard(69, 76, 72, 69);
    assertThat(sum(onC, C_MAJOR)).isGreaterThan(sum(onC, A_MINOR));
    assertThat(sum(onA, A_MINOR)).isGreaterThan(sum(onA, C_MAJOR));
  }

  @Test
  void aNoteSpeaksInTheBarWhereItBeginsAndNoNoteSaysNothing() {
    float[][] evidence = heard(60);
    for (float[] unit : evidence) {
      assertThat(unit[C_MAJOR])
          .isCloseTo(evidence[0][C_MAJOR], org.assertj.core.data.Offset.offset(1e-5F));
    }
    float[][] silence = new float[4][TonicEvidence.KEYS];
    TuneEvidence.add(List.of(), BARS, 1, silence);
    assertThat(sum(silence, C_MAJOR)).isZero();
  }
}
