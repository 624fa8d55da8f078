package undersong.kernel;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class NotePickerTest {
  @Test
  void aNoteLastsFromItsPeakUntilItsSustainFallsOrItIsStruckAgain() {
    float[][] onsets = new float[20][2];
    float[][] sustains = new float[10][2];
    onsets[1][0] = 0.6f;
    onsets[2][0] = 0.9f;
    onsets[10][0] = 0.8f;
    for (int frame = 1; frame < 8; frame++) {
      sustains[frame][0] = 0.75f;
    }
    onsets[5][1] = 0.2f;
    assertThat(NotePicker.pick(onsets, sustains, 2, 0.5f, 0.5f))
        .containsExactly(
            new NotePicker.Picked(2, 10, 0, 0.9f, 0.75f),
            new NotePicker.Picked(10, 16, 0, 0.8f, 0.75f));
  }

  @Test
  void aPeakWithoutSustainIsAShortNote() {
    float[][] onsets = new float[6][1];
    onsets[3][0] = 0.9f;
    assertThat(NotePicker.pick(onsets, new float[3][1], 2, 0.5f, 0.5f))
        .containsExactly(new NotePicker.Picked(3, 6, 0, 0.9f, 0));
  }

  @Test
  void silenceHoldsNoNotes() {
    assertThat(NotePicker.pick(new float[0][0], new float[0][0], 2, 0.5f, 0.5f)).isEmpty();
    assertThat(NotePicker.pick(new float[4][2], new float[2][2], 2, 0.5f, 0.5f)).isEmpty();
  }
}
