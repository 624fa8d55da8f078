package undersong.bench.plant;

import java.util.List;

/** New music for the place before the last chorus. */
final class Bridges {
  private static final List<String> MAJOR = List.of("C|Em|F|Am|C|Dm|G|C", "Dm|Am|F|Am|Em|F|G|C");
  private static final List<String> MINOR = List.of("Am|C|F|Dm|C|F|Em|Am", "Am|Em|F|C|F|Dm|Em|Am");

  private Bridges() {}

  static Passage plain(Plan p) {
    Passage bridge = new Passage("bridge", "C", p.any(p.minor ? MINOR : MAJOR));
    new TuneMaker(p.chance, Composer.LOWEST, Composer.HIGHEST).write(bridge, Composer.WHITE_KEYS);
    return bridge;
  }
}
