package undersong.survey;

import java.io.File;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Locale;
import java.util.stream.Collectors;
import org.apache.spark.sql.SparkSession;

/** How Spark is started for a survey: quietly, on this machine's own address unless sent out. */
final class SurveySession {
  private SurveySession() {}

  /**
   * @param master {@code local[*]}, {@code local[N]}, or the address of a cluster
   * @param workerMemory of each worker of a cluster, such as {@code 2g}
   */
  static SparkSession open(String master, String workerMemory) {
    SparkSession.Builder builder =
        SparkSession.builder()
            .appName("undersong-survey")
            .master(master)
            .config("spark.ui.enabled", false)
            .config("spark.ui.showConsoleProgress", false)
            .config("spark.sql.catalogImplementation", "in-memory")
            .config("spark.sql.shuffle.partitions", 8)
            .config("spark.sql.parquet.compression.codec", "zstd")
            // A recording that ends a worker is tried once more, then its batch is given up.
            .config("spark.task.maxFailures", 2)
            // Workers run what this program runs; on other machines it must lie at the same place.
            .config("spark.executor.extraClassPath", classPath())
            .config("spark.executor.extraJavaOptions", "-Djava.awt.headless=true")
            .config("spark.executor.memory", workerMemory);
    if (isHere(master)) {
      builder
          .config("spark.driver.host", "127.0.0.1")
          .config("spark.driver.bindAddress", "127.0.0.1");
    }
    return builder.getOrCreate();
  }

  /** Of this process, for processes that start elsewhere. */
  static String classPath() {
    return Arrays.stream(System.getProperty("java.class.path").split(File.pathSeparator, -1))
        .map(entry -> Path.of(entry).toAbsolutePath().normalize().toString())
        .collect(Collectors.joining(File.pathSeparator));
  }

  private static boolean isHere(String master) {
    String text = master.toLowerCase(Locale.ROOT);
    return text.startsWith("local") || text.contains("//127.") || text.contains("//localhost");
  }
}
