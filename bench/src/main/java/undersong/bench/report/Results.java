package undersong.bench.report;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import undersong.bench.data.OpenData;
import undersong.bench.render.Tool;

/** The latest run of every set, as kept in {@code bench/results.json}. */
public record Results(Map<String, Run> runs) {
  private static final ObjectMapper JSON =
      new ObjectMapper().enable(SerializationFeature.INDENT_OUTPUT);

  static final Results NONE = new Results(Map.of());

  static Results read(Path path) throws IOException {
    return Files.exists(path) ? JSON.readValue(path.toFile(), Results.class) : NONE;
  }

  /** As committed last; nothing where there is no commit that holds results. */
  static Results committed() {
    try {
      return JSON.readValue(Tool.run("git", "show", "HEAD:bench/results.json"), Results.class);
    } catch (IOException | OpenData.Missing notThere) {
      return NONE;
    }
  }

  Results with(String set, Run run) {
    Map<String, Run> more = new TreeMap<>(runs);
    more.put(set, run);
    return new Results(more);
  }

  Optional<Run> of(String set) {
    return Optional.ofNullable(runs.get(set));
  }

  void write(Path path) throws IOException {
    JSON.writeValue(path.toFile(), this);
    Files.writeString(path, Files.readString(path).strip() + "\n");
  }
}
