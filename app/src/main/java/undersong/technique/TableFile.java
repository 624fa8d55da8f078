package undersong.technique;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;

/** A table among the program's resources: one row a line, words parted by spaces, # a remark. */
record TableFile(String path) {
  /** The rows, without remarks and empty lines. */
  List<String> lines() {
    try (InputStream in = TableFile.class.getResourceAsStream(path);
        BufferedReader reader =
            new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8))) {
      return reader
          .lines()
          .map(String::strip)
          .filter(line -> !line.isEmpty() && !line.startsWith("#"))
          .toList();
    } catch (IOException broken) {
      throw new UncheckedIOException(broken);
    }
  }
}
