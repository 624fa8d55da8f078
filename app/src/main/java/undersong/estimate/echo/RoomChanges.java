package undersong.estimate.echo;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import undersong.estimate.echo.RoomEvidence.Measured;
import undersong.reading.Reverb;
import undersong.time.Span;

/**
 * Where a section is wetter or drier than the one before it. What stands nowhere also grows where
 * records are made wider, what lags behind also where instruments ring on: a change is told where
 * both say so.
 */
public final class RoomChanges {
  /** Between levels that a listener has said; the least difference of clarity that is plain. */
  private static final double SAID_DB = 2.5;

  /** Sections so near each other follow each other. */
  private static final double NEXT_SECONDS = 1;

  /**
   * Found by {@code undersong.bench.decode.RoomFit} on tuning songs.
   *
   * @param leastAmbientDb by how much what stands nowhere must change
   * @param leastLagDb by how much what lags behind must change, in the same direction
   */
  public record Settings(double leastAmbientDb, double leastLagDb) {
    public static final Settings STANDARD = new Settings(0.5, 6);
  }

  private RoomChanges() {}

  /**
   * @param rooms by start; those that a listener has said are quite sure
   * @param measured what each room that was not said is told by
   */
  public static List<Reverb> told(
      List<Reverb> rooms, Map<Span, Measured> measured, Settings settings) {
    List<Reverb> told = new ArrayList<>();
    Reverb before = null;
    for (Reverb room : rooms) {
      boolean follows =
          before != null && room.span().startSeconds() - before.span().endSeconds() < NEXT_SECONDS;
      double change = follows ? room.wetToDryDb() - before.wetToDryDb() : 0;
      boolean tell = follows && isPlain(before, room, measured, settings);
      told.add(room.withChange(tell ? Math.round(10 * change) / 10.0 : 0));
      before = room;
    }
    return told;
  }

  private static boolean isPlain(
      Reverb before, Reverb room, Map<Span, Measured> measured, Settings settings) {
    if (isSaid(before) && isSaid(room)) {
      return Math.abs(room.wetToDryDb() - before.wetToDryDb()) >= SAID_DB;
    }
    return !isSaid(before)
        && !isSaid(room)
        && agree(measured.get(before.span()), measured.get(room.span()), settings);
  }

  private static boolean isSaid(Reverb room) {
    return room.probability() == 1;
  }

  private static boolean agree(Measured before, Measured now, Settings settings) {
    double ambient = now.ambientDb() - before.ambientDb();
    double lag = now.lagDb() - before.lagDb();
    return ambient * lag > 0
        && Math.abs(ambient) >= settings.leastAmbientDb
        && Math.abs(lag) >= settings.leastLagDb;
  }
}
