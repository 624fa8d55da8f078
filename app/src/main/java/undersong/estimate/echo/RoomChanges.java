package undersong.estimate.echo;

import java.util.ArrayList;
import java.util.List;
import undersong.reading.Reverb;

/**
 * Where a section is wetter or drier than the one before it: by more than sections of one room seem
 * to differ because other parts play in them.
 */
public final class RoomChanges {
  /**
   * Differences of {@link #AMBIENT} found by {@code undersong.bench.decode.RoomFit} on tuning
   * songs; those of {@link #HEARD} are to be, when an ear hears rooms.
   *
   * @param leastDb the smallest difference that is told
   * @param wanders how many standard errors it must be
   * @param least how sure both levels must be
   */
  public record Settings(double leastDb, double wanders, double least) {
    /**
     * Without the ear a wide section passes for a wet one: only what a listener said is compared.
     */
    public static final Settings AMBIENT = new Settings(2.5, 4, 1);

    public static final Settings HEARD = new Settings(3.5, 3, 0);
  }

  /** What is heard within so many seconds is one word, not many. */
  private static final double ONE_WORD_SECONDS = 2;

  /** Sections so near each other follow each other. */
  private static final double NEXT_SECONDS = 1;

  private RoomChanges() {}

  /**
   * @param rooms by start
   */
  public static List<Reverb> told(List<Reverb> rooms, Settings settings) {
    List<Reverb> told = new ArrayList<>();
    Reverb before = null;
    for (Reverb room : rooms) {
      double change = before == null ? 0 : room.wetToDryDb() - before.wetToDryDb();
      boolean tell =
          before != null
              && Math.min(room.probability(), before.probability()) >= settings.least
              && room.span().startSeconds() - before.span().endSeconds() < NEXT_SECONDS
              && Math.abs(change) >= settings.leastDb
              && Math.abs(change) >= settings.wanders * Math.hypot(error(room), error(before));
      told.add(room.withChange(tell ? Math.round(10 * change) / 10.0 : 0));
      before = room;
    }
    return told;
  }

  private static double error(Reverb room) {
    double words = Math.max(1, room.span().lengthSeconds() / ONE_WORD_SECONDS);
    return room.wanderDb() / Math.sqrt(words);
  }
}
