package undersong.bench.peers;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import undersong.bench.render.Sounding;
import undersong.bench.render.Sounding.Player;
import undersong.feature.EarActivations;
import undersong.feature.EarHead;
import undersong.feature.FrameMatrix;
import undersong.time.FrameClock;

class TrueNotesTest {
  private static final int SECONDS = 6;

  private static EarActivations nothing() {
    Map<String, FrameMatrix> heads = new HashMap<>();
    for (EarHead head : EarHead.values()) {
      FrameClock clock = new FrameClock(22050, 441 * head.averagedFrames());
      int frames = SECONDS * EarHead.FRAMES_PER_SECOND / head.averagedFrames();
      float[] values = new float[frames * head.bins()];
      heads.put(head.output(), FrameMatrix.of(clock, head.bins(), values));
    }
    return new EarActivations("test", heads);
  }

  private static float at(EarActivations ear, EarHead head, double seconds, int bin) {
    FrameMatrix matrix = ear.head(head);
    return matrix.at(matrix.clock().frameAt(seconds), bin);
  }

  @Test
  void whatIsPlayedStandsInPlaceOfWhatWasHeard() {
    List<Sounding> bass = List.of(new Sounding(Player.BASS, 1, 1.5, 43));
    List<Sounding> chords =
        List.of(
            new Sounding(Player.OTHERS, 1, 1.2, 59),
            new Sounding(Player.OTHERS, 1, 1.2, 62),
            new Sounding(Player.OTHERS, 2, 2.2, 60));
    List<Sounding> lead = List.of(new Sounding(Player.LEAD, 1, 3, 66));
    EarActivations told = TrueNotes.given(nothing(), List.of(bass, chords, lead));

    assertEquals(1, at(told, EarHead.PITCH_CLASSES, 1.1, 11));
    assertEquals(
        1, at(told, EarHead.PITCH_CLASSES, 1.9, 2), "rings in the mind until they play on");
    assertEquals(0, at(told, EarHead.PITCH_CLASSES, 2.1, 2));
    assertEquals(0, at(told, EarHead.PITCH_CLASSES, 1.1, 6), "the lead is left out");
    assertEquals(1, at(told, EarHead.CHORD_BASS, 2.5, 7), "the bass's place holds for two seconds");
    assertEquals(1, at(told, EarHead.CHORD_BASS, 4, 12));
    assertEquals(1, at(told, EarHead.BASS_PITCH, 1.2, 43 - 23));
    assertEquals(1, at(told, EarHead.BASS_PITCH, 2.5, 45));
    assertEquals(1f / 13, at(told, EarHead.CHORD_ROOT, 1.1, 7), "no names");
  }
}
