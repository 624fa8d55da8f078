package undersong.bench.render;

import java.io.IOException;
import java.util.List;
import undersong.bench.metrics.SungNote;

/** A voice that knows what pitch it sings. */
interface Singer {
  /**
   * Sings, and gives back the pitch every {@link Truth#CURVE_HOP_SECONDS} in Hz; 0 = silent or
   * unpitched.
   *
   * @param voice written: mono, 44.1 kHz
   */
  List<Double> sing(List<SungNote> notes, float[] voice) throws IOException;
}
