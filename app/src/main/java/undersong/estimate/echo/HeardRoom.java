package undersong.estimate.echo;

import java.util.ArrayList;
import java.util.List;
import undersong.feature.EarHead;
import undersong.feature.Features;
import undersong.feature.FrameMatrix;
import undersong.time.Span;

/**
 * The room as the trained ear hears it. Moment by moment the ear spreads its word over classes; a
 * section's answer is the mean of what its moments expect, each weighing the more the surer it is.
 * For the decay all other moments of the song have a smaller say, since most songs stand in one
 * room. The level is that of the ear and of other evidence together.
 *
 * <p><b>In:</b> {@link EarHead#ROOM}. <b>Cost:</b> O(frames * classes).
 */
public final class HeardRoom implements RoomEvidence {
  private static final int DECAY_CLASSES = 13;
  private static final int WET_CLASSES = 12;
  private static final int LEVEL = BANDS.size();
  private static final double SHORTEST_OCTAVES = Math.log(0.15) / Math.log(2);
  private static final double OCTAVES_A_CLASS = Math.log(30) / Math.log(2) / 12;
  private static final double DRIEST_DB = -33;
  private static final double DB_A_CLASS = 3;

  /** No moment is surer than this, in squares of classes. */
  private static final double LEAST_VARIANCE = 0.1;

  private final Settings settings;
  private final RoomEvidence beside;

  /**
   * To be found by {@code undersong.bench.decode.RoomFit} on tuning songs, when an ear has that
   * stage; until then a guess.
   *
   * @param sureness power of the inverse variance by which moments weigh; 0 = all alike
   * @param songShare what a moment elsewhere in the song weighs for the decay, 0 to 1
   * @param besideShare what the other evidence weighs for the level, where it has any, 0 to 1
   */
  public record Settings(double sureness, double songShare, double besideShare) {
    public static final Settings DEFAULTS = new Settings(1, 0.3, 0.5);
  }

  /**
   * @param beside what else measures levels: the ear hears one channel only
   */
  public HeardRoom(Settings settings, RoomEvidence beside) {
    this.settings = settings;
    this.beside = beside;
  }

  @Override
  public List<Expected> of(Features features, List<Span> sections) {
    List<Expected> heard = heard(features.heard().orElseThrow().head(EarHead.ROOM), sections);
    List<Expected> measured = beside.of(features, sections);
    List<Expected> both = new ArrayList<>();
    for (int i = 0; i < heard.size(); i++) {
      both.add(both(heard.get(i), measured.get(i)));
    }
    return both;
  }

  private Expected both(Expected heard, Expected measured) {
    double share = settings.besideShare;
    return heard.isNothing() || measured.isNothing()
        ? heard
        : new Expected(
            heard.decayOctaves(),
            heard.spreadOctaves(),
            (1 - share) * heard.wetDb() + share * measured.wetDb(),
            (1 - share) * heard.wanderDb() + share * measured.wanderDb());
  }

  /** What the ear alone says. */
  List<Expected> heard(FrameMatrix room, List<Span> sections) {
    Sums song = new Sums();
    song.add(room, 0, room.frames(), settings.sureness);
    List<Expected> expected = new ArrayList<>();
    for (Span span : sections) {
      Sums sums = new Sums();
      int from = Math.max(0, room.clock().frameAt(span.startSeconds()));
      int to = Math.min(room.frames(), room.clock().frameAt(span.endSeconds()));
      sums.add(room, from, to, settings.sureness);
      expected.add(sums.expected(song, settings.songShare));
    }
    return expected;
  }

  /** Weighted sums over moments: the four bands, then the level. */
  private static final class Sums {
    private final double[] weights = new double[LEVEL + 1];
    private final double[] classes = new double[LEVEL + 1];
    private final double[] variances = new double[LEVEL + 1];
    private double levels;
    private double squares;
    private int moments;

    void add(FrameMatrix room, int from, int to, double sureness) {
      for (int frame = from; frame < to; frame++) {
        for (int run = 0; run <= LEVEL; run++) {
          addMoment(room, frame, run, sureness);
        }
      }
    }

    private void addMoment(FrameMatrix room, int frame, int run, double sureness) {
      int count = run < LEVEL ? DECAY_CLASSES : WET_CLASSES;
      double mass = 0;
      double sum = 0;
      double square = 0;
      for (int c = 0; c < count; c++) {
        double p = room.at(frame, run * DECAY_CLASSES + c);
        mass += p;
        sum += c * p;
        square += (double) c * c * p;
      }
      if (mass < 0.5) {
        return; // nothing was said
      }
      double mean = sum / mass;
      double variance = Math.max(LEAST_VARIANCE, square / mass - mean * mean);
      double weight = Math.pow(variance, -sureness);
      weights[run] += weight;
      classes[run] += weight * mean;
      variances[run] += weight * variance;
      if (run == LEVEL) {
        levels += mean;
        squares += mean * mean;
        moments++;
      }
    }

    Expected expected(Sums song, double songShare) {
      if (moments == 0) {
        return Expected.NOTHING;
      }
      List<Double> octaves = new ArrayList<>();
      List<Double> spreads = new ArrayList<>();
      for (int b = 0; b < LEVEL; b++) {
        double weight = (1 - songShare) * weights[b] + songShare * song.weights[b];
        double mean = ((1 - songShare) * classes[b] + songShare * song.classes[b]) / weight;
        double variance = ((1 - songShare) * variances[b] + songShare * song.variances[b]) / weight;
        octaves.add(SHORTEST_OCTAVES + OCTAVES_A_CLASS * mean);
        spreads.add(OCTAVES_A_CLASS * Math.sqrt(variance));
      }
      double mean = levels / moments;
      return new Expected(
          octaves,
          spreads,
          DRIEST_DB + DB_A_CLASS * classes[LEVEL] / weights[LEVEL],
          DB_A_CLASS * Math.sqrt(Math.max(0, squares / moments - mean * mean)));
    }
  }
}
