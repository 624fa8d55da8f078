package undersong.estimate.voice;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;
import undersong.feature.EarHead;
import undersong.feature.FrameMatrix;
import undersong.feature.MadeUpHearing;
import undersong.reading.NoteEvent;
import undersong.time.Span;

class BeginningsApartTest {
  private static final List<NoteEvent> LEAD = List.of(note(1.0), note(2.0), note(3.0), note(4.0));
  private static final int LEAD_BIN = 72 - 21;
  private static final int THIRD_BELOW = 69 - 21;
  private static final int ACCOMPANIMENT = 60 - 21;

  private static NoteEvent note(double start) {
    return new NoteEvent(new Span(start, start + 0.8), 72, 0.9);
  }

  /** A voice that begins with each note of the lead; chords that begin twice as often. */
  private static FrameMatrix onsets() {
    MadeUpHearing ear = new MadeUpHearing(6);
    for (double start = 1; start < 5; start += 0.5) {
      ear.set(EarHead.NOTE_ONSET, ACCOMPANIMENT, start, start + 0.04, 0.9);
    }
    for (NoteEvent note : LEAD) {
      double start = note.span().startSeconds();
      ear.set(EarHead.NOTE_ONSET, LEAD_BIN, start, start + 0.04, 0.9)
          .set(EarHead.NOTE_ONSET, THIRD_BELOW, start + 0.04, start + 0.06, 0.9);
    }
    return ear.activations().head(EarHead.NOTE_ONSET);
  }

  /**
   * Counts with one half added to what is apart and one to all: the estimate of R. Krichevsky and
   * V. Trofimov, "The performance of universal encoding", IEEE Transactions on Information Theory
   * 27(2), 1981 (from memory).
   */
  @Test
  void tellsWhatBeginsWithTheLeadFromWhatBeginsByItself() {
    BeginningsApart apart = new BeginningsApart(onsets(), LEAD);
    assertThat(apart.share(2, THIRD_BELOW, LEAD_BIN)).isCloseTo(0.5 / 5, within(1e-9));
    assertThat(apart.share(2, ACCOMPANIMENT, LEAD_BIN)).isCloseTo(4.5 / 9, within(1e-9));
  }

  @Test
  void saysNothingWhereNothingBegins() {
    BeginningsApart apart = new BeginningsApart(onsets(), LEAD);
    assertThat(apart.share(2, 40 - 21, LEAD_BIN)).isEqualTo(0.5);
    assertThat(apart.share(99, ACCOMPANIMENT, LEAD_BIN)).isEqualTo(0.5);
  }
}
