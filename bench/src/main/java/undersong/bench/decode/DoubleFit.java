package undersong.bench.decode;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import undersong.bench.render.Staging;
import undersong.estimate.echo.RoomDecay;
import undersong.estimate.echo.RoomEvidence;
import undersong.estimate.echo.RoomEvidence.Measured;
import undersong.feature.StereoPowers;
import undersong.reading.Echo;
import undersong.reading.Facet;
import undersong.time.Span;

/**
 * Counts which of the doubles that are told are rooms, by when a room is said to explain what
 * stands nowhere. To be run with a program that asks no room, else only what is left is counted.
 */
public final class DoubleFit {
  /**
   * @param isTrue whether something is played twice there
   */
  private record Told(Measured room, boolean isTrue) {}

  private DoubleFit() {}

  /**
   * @param arguments cache and soundfont, as the bench has them; then the sets
   */
  public static void main(String[] arguments) throws IOException {
    List<Told> all = new ArrayList<>();
    TuningSong.eachOf(
        Path.of(arguments[0]),
        Path.of(arguments[1]),
        List.of(arguments).subList(2, arguments.length),
        (set, truth, id, studied, features) -> {
          RoomEvidence room = new RoomEvidence(StereoPowers.of(features.image()));
          for (Echo echo : studied.stored().reading().get(Facet.ECHOES).echoes()) {
            if (echo.kind() == Echo.Kind.DOUBLE) {
              List<Span> span = List.of(echo.span());
              all.add(
                  new Told(
                      room.of(span, RoomDecay.Settings.STANDARD).get(0),
                      truth.staging().takes().stream().anyMatch(t -> isDouble(t, echo.span()))));
            }
          }
        });
    for (double least = -20; least <= -10; least += 0.5) {
      for (double most = 3; most <= 9; most += 0.5) {
        double leastRoomDb = least;
        double mostTogetherDb = most;
        System.out.printf(
            "lagging part %.1f dB, all of it %.1f dB more: %d of %d true and %d of %d false stay%n",
            least,
            most,
            all.stream().filter(t -> t.isTrue && !isRoom(t, leastRoomDb, mostTogetherDb)).count(),
            all.stream().filter(t -> t.isTrue).count(),
            all.stream().filter(t -> !t.isTrue && !isRoom(t, leastRoomDb, mostTogetherDb)).count(),
            all.stream().filter(t -> !t.isTrue).count());
      }
    }
  }

  private static boolean isRoom(Told told, double leastRoomDb, double mostTogetherDb) {
    return RoomEvidence.explains(told.room, leastRoomDb, mostTogetherDb);
  }

  private static boolean isDouble(Staging.Take take, Span span) {
    return take.kind() == Staging.TakeKind.DOUBLE
        && span.overlaps(new Span(take.startSeconds(), take.endSeconds()));
  }
}
