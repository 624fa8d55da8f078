package undersong.bench.lesson;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.EnumMap;
import java.util.Map;
import java.util.stream.Collectors;
import undersong.bench.peers.Program;
import undersong.bench.render.Renderer;
import undersong.bench.render.Truth;
import undersong.reading.Reading;

/**
 * The tune of a rendered song as it is written down, note by note against what was played: once
 * with everything given, once with the tune heard, once with the beats heard as well.
 */
public final class HeardNotation {
  /** What the rows stand under. */
  static final String HEAD =
      """
      | set | given | songs | notes | begun right | held right | value right, of the held (aim 0.90) | bar right, of the begun (0.97) | value right, of the begun | value right, of all |
      | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- |
      """;

  /** What is given to the program, and what it has to hear. */
  enum Given {
    BEATS_AND_TUNE("beats and tune given"),
    BEATS("beats given, tune heard"),
    NOTHING("beats and tune heard");

    private final String words;

    Given(String words) {
      this.words = words;
    }
  }

  private final String set;
  private final Map<Given, Tally> tallies = new EnumMap<>(Given.class);

  public HeardNotation(String set) {
    this.set = set;
  }

  /** Studies a rendering and counts it in. */
  public void hear(Renderer.Rendering rendering) throws IOException {
    Path folder = Files.createTempDirectory("undersong-notation");
    try {
      count(rendering.truth(), Program.study(rendering.audio(), folder));
    } finally {
      Program.delete(folder);
    }
  }

  void count(Truth truth, Reading reading) {
    for (Given given : Given.values()) {
      new PlayedTune(truth).count(reading, given, tallies.computeIfAbsent(given, g -> new Tally()));
    }
  }

  /** One row for all that was given, in Markdown. */
  public String rows() {
    return tallies.entrySet().stream()
        .map(one -> one.getValue().row(set, one.getKey().words))
        .collect(Collectors.joining());
  }
}
