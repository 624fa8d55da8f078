package undersong.survey;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.apache.hadoop.fs.FileSystem;
import org.apache.spark.deploy.SparkHadoopUtil;
import undersong.work.Trouble;

/**
 * A recording as a file of the machine that studies it: where it lies, or a copy for as long as it
 * is needed.
 */
record Fetched(Path file, boolean copied) implements AutoCloseable {
  /** Throws {@link Trouble.UnreadableRecording} where an address cannot be opened. */
  static Fetched from(String place) {
    if (!Sources.isAddress(place)) {
      return new Fetched(Path.of(place), false);
    }
    var from = new org.apache.hadoop.fs.Path(place);
    Path copy = null;
    try {
      copy = Files.createTempFile("undersong-", "-" + from.getName().replaceAll("[^\\w.-]", "_"));
      FileSystem system = from.getFileSystem(SparkHadoopUtil.get().conf());
      try (var in = system.open(from);
          var out = Files.newOutputStream(copy)) {
        in.transferTo(out);
      }
      return new Fetched(copy, true);
    } catch (IOException | IllegalArgumentException refused) {
      new Fetched(copy == null ? Path.of("none") : copy, copy != null).close();
      throw new Trouble.UnreadableRecording(
          "%s cannot be fetched: %s".formatted(place, refused.getMessage()), refused);
    }
  }

  @Override
  public void close() {
    if (copied) {
      try {
        Files.deleteIfExists(file);
      } catch (IOException refused) {
        file.toFile().deleteOnExit();
      }
    }
  }
}
