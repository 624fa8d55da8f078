package undersong.survey;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Consumer;
import org.apache.spark.SparkException;
import org.apache.spark.api.java.JavaSparkContext;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.SparkSession;
import org.apache.spark.sql.functions;

/**
 * Studies whatever of some recordings a folder does not hold yet. Rows are written batch by batch,
 * so that a survey that is stopped goes on where it was. A recording is known by the hash of its
 * sound: the same sound under two names is studied once, and so is one that moved.
 */
final class Survey {
  /** Recordings a core studies between two writings: what a stopped survey loses at most. */
  private static final int BATCH_PER_CORE = 16;

  private final SparkSession spark;
  private final JavaSparkContext context;
  private final SurveyFolder folder;
  private final Consumer<String> said;

  /**
   * @param said told in words how far it has come
   */
  Survey(SparkSession spark, SurveyFolder folder, Consumer<String> said) {
    this.spark = spark;
    this.context = JavaSparkContext.fromSparkContext(spark.sparkContext());
    this.folder = folder;
    this.said = said;
  }

  /**
   * What came of it.
   *
   * @param listed recordings named
   * @param twins of them that hold the sound of another one
   * @param known that were studied earlier, or failed earlier and would again
   * @param studied now
   * @param failures everything that could not be studied, by place: now, or earlier
   * @param givenUp that lie in batches Spark gave up; the next run takes them up again
   */
  record Outcome(
      int listed,
      int twins,
      int known,
      int studied,
      Map<String, String> failures,
      List<String> givenUp) {
    Outcome {
      failures = java.util.Collections.unmodifiableMap(new TreeMap<>(failures));
      givenUp = List.copyOf(givenUp);
    }
  }

  Outcome run(List<Source> sources) {
    String version = Worker.study().version();
    Map<String, String> failures = new TreeMap<>();
    Map<String, Probed> bySound = new TreeMap<>();
    for (Probed probed : probed(sources)) {
      if (probed.isReadable()) {
        bySound.putIfAbsent(probed.contentHash(), probed);
      } else {
        failures.put(probed.source().place(), probed.failure());
      }
    }
    int twins = sources.size() - failures.size() - bySound.size();
    Set<String> known = known(version);
    List<Probed> wanted =
        bySound.values().stream()
            .filter(probed -> !known.contains(probed.contentHash()))
            .sorted(Comparator.comparing(probed -> probed.source().place()))
            .toList();
    said.accept(
        "%d recordings: %d to study, %d known, %d of the same sound, %d that cannot be read"
            .formatted(
                sources.size(),
                wanted.size(),
                bySound.size() - wanted.size(),
                twins,
                failures.size()));
    List<String> givenUp = study(wanted, version);
    failures.putAll(failed(version, bySound.keySet()));
    Outcome outcome =
        new Outcome(
            sources.size(),
            twins,
            bySound.size() - wanted.size(),
            wanted.size() - givenUp.size(),
            failures,
            givenUp);
    list(outcome.failures());
    return outcome;
  }

  /** By place, so that of twins always the same one is studied. */
  private List<Probed> probed(List<Source> sources) {
    return context.parallelize(sources, sources.size()).map(Worker::probe).collect().stream()
        .sorted(Comparator.comparing(probed -> probed.source().place()))
        .toList();
  }

  private Set<String> known(String version) {
    return new HashSet<>(
        folder.rows(spark, version).select("content_hash").collectAsList().stream()
            .map(row -> row.getString(0))
            .toList());
  }

  /** Gives the places of batches that Spark gave up. */
  private List<String> study(List<Probed> wanted, String version) {
    List<String> givenUp = new ArrayList<>();
    int size = BATCH_PER_CORE * Math.max(1, context.defaultParallelism());
    long start = System.nanoTime();
    for (int from = 0; from < wanted.size(); from += size) {
      List<Probed> batch = wanted.subList(from, Math.min(wanted.size(), from + size));
      try {
        add(List.copyOf(batch), version);
      } catch (Exception broken) {
        if (!isSparks(broken)) {
          throw broken;
        }
        batch.forEach(probed -> givenUp.add(probed.source().place()));
        said.accept("a batch was given up: " + innermost(broken));
      }
      double minutes = (System.nanoTime() - start) / 60e9;
      int done = from + batch.size();
      said.accept(
          "%d of %d, %.1f a minute".formatted(done, wanted.size(), done / Math.max(1e-9, minutes)));
    }
    return givenUp;
  }

  /** One task a recording, so that no core waits for another's queue; one file a batch. */
  private void add(List<Probed> batch, String version) {
    folder.add(
        spark
            .createDataFrame(
                context
                    .parallelize(batch, batch.size())
                    .map(probed -> Worker.study(probed, version).row()),
                SurveyedSong.COLUMNS)
            .repartition(1));
  }

  /** Spark throws it unannounced out of methods written in Scala. */
  static boolean isSparks(Exception broken) {
    return broken instanceof SparkException || broken.getCause() instanceof SparkException;
  }

  static String innermost(Throwable broken) {
    return broken.getCause() == null ? String.valueOf(broken) : innermost(broken.getCause());
  }

  private Map<String, String> failed(String version, Collection<String> sounds) {
    Map<String, String> reasons = new TreeMap<>();
    for (Row row :
        folder
            .rows(spark, version)
            .where(functions.col("failure").notEqual(""))
            .select("content_hash", "place", "failure")
            .collectAsList()) {
      if (sounds.contains(row.getString(0))) {
        reasons.put(row.getString(1), row.getString(2));
      }
    }
    return reasons;
  }

  private void list(Map<String, String> failures) {
    StringBuilder lines = new StringBuilder("place\treason\n");
    failures.forEach((place, reason) -> lines.append(place + "\t" + reason + "\n"));
    try {
      Files.createDirectories(folder.folder());
      Files.writeString(folder.failures(), lines);
    } catch (IOException refused) {
      throw new UncheckedIOException(folder.failures() + " could not be written", refused);
    }
  }
}
