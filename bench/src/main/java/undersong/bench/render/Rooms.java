package undersong.bench.render;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;

/**
 * Rooms by section: a song has one, in some songs the choruses have another, and every letter of
 * the form is wet to its own degree, choruses and what stands beside them mostly far apart.
 */
final class Rooms {
  private static final double SHORTEST_SECONDS = 0.3;
  private static final double LONGEST_SECONDS = 3;
  private static final double SECOND_ROOM = 0.35;
  private static final double DRIEST_DB = -30;
  private static final double WETTEST_DB = -3;

  /** About what the strips send, in energy. */
  private static final double USUAL_SEND_DB = -14;

  private Rooms() {}

  static List<RoomSend> of(Song song, List<Passage> passages, TempoMap tempo) {
    SplittableRandom random = new SplittableRandom(song.random(52).nextLong());
    double usual = decay(random);
    double ofChoruses = random.nextDouble() < SECOND_ROOM ? decay(random) : usual;
    double wet = DRIEST_DB + (WETTEST_DB - DRIEST_DB) * random.nextDouble();
    Map<String, Double> byLetter = new HashMap<>();
    List<RoomSend> sends = new ArrayList<>();
    for (Passage p : passages) {
      double decay = p.letter().equals("B") ? ofChoruses : usual;
      double before = wet;
      wet =
          byLetter.computeIfAbsent(
              p.letter(), l -> sends.isEmpty() ? before : other(before, random));
      sends.add(
          new RoomSend(
              sends.isEmpty() ? 0 : tempo.secondsAt(p.startBeat()),
              tempo.secondsAt(p.endBeat()) + (sends.size() + 1 == passages.size() ? 10 : 0),
              decay,
              wet - loudness(decay) - USUAL_SEND_DB));
    }
    return sends;
  }

  /** Equal ratios are equally likely. */
  private static double decay(SplittableRandom random) {
    return SHORTEST_SECONDS * Math.pow(LONGEST_SECONDS / SHORTEST_SECONDS, random.nextDouble());
  }

  /** One letter in four is as wet as the one before it, the others 5 to 15 dB away. */
  private static double other(double wet, SplittableRandom random) {
    double far = random.nextInt(4) == 0 ? 0 : 5 + 10 * random.nextDouble();
    boolean up = wet + far > WETTEST_DB ? false : wet - far < DRIEST_DB || random.nextBoolean();
    return Math.max(DRIEST_DB, Math.min(WETTEST_DB, wet + (up ? far : -far)));
  }

  /** Energy of the room's answer to an impulse: of four combs, each fed a quarter. */
  private static double loudness(double decaySeconds) {
    double feedback = Math.pow(10, -3 * 0.038 / decaySeconds);
    return 10 * Math.log10(0.25 / (1 - feedback * feedback));
  }
}
