package undersong.bench.render;

import java.util.List;
import undersong.bench.metrics.Timed;

/**
 * One channel of the mix: where a part stands, how loud, and what is done to it.
 *
 * @param placement -1 left to 1 right
 * @param levelDb against the other parts
 * @param roomShare how much of it is sent to the reverb, 0 to 1
 * @param moves stretches in seconds in which it stands elsewhere
 * @param ducked whether it gives way to the kick
 */
record Strip(
    double placement,
    double levelDb,
    double roomShare,
    List<Timed<Double>> moves,
    List<Staging.Echo> echoes,
    List<Staging.Sweep> sweeps,
    boolean ducked) {
  Strip {
    moves = List.copyOf(moves);
    echoes = List.copyOf(echoes);
    sweeps = List.copyOf(sweeps);
  }

  static Strip at(double placement, double levelDb, double roomShare) {
    return new Strip(placement, levelDb, roomShare, List.of(), List.of(), List.of(), false);
  }

  Strip withPlacement(double other) {
    return new Strip(other, levelDb, roomShare, moves, echoes, sweeps, ducked);
  }

  Strip withMoves(List<Timed<Double>> others) {
    return new Strip(placement, levelDb, roomShare, others, echoes, sweeps, ducked);
  }

  Strip withEchoes(List<Staging.Echo> others) {
    return new Strip(placement, levelDb, roomShare, moves, others, sweeps, ducked);
  }

  Strip withSweeps(List<Staging.Sweep> others) {
    return new Strip(placement, levelDb, roomShare, moves, echoes, others, ducked);
  }

  Strip thatDucks() {
    return new Strip(placement, levelDb, roomShare, moves, echoes, sweeps, true);
  }

  /** Where it stands at a time. */
  double placementAt(double seconds) {
    for (Timed<Double> move : moves) {
      if (seconds >= move.startSeconds() && seconds < move.endSeconds()) {
        return move.value();
      }
    }
    return placement;
  }
}
