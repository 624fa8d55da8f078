package undersong.survey;

import java.nio.file.Files;
import java.nio.file.Path;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.SaveMode;
import org.apache.spark.sql.SparkSession;
import org.apache.spark.sql.functions;
import undersong.work.Trouble;

/** Where a survey is kept: rows as Parquet, lists beside them. */
record SurveyFolder(Path folder) {
  private Path songs() {
    return folder.resolve("songs");
  }

  Path failures() {
    return folder.resolve("failures.tsv");
  }

  Path techniquesByYear() {
    return folder.resolve("techniques-by-year.csv");
  }

  Path progressionsByYear() {
    return folder.resolve("progressions-by-year.csv");
  }

  /** Every row of every run; none where nothing was surveyed. */
  Dataset<Row> rows(SparkSession spark) {
    return Files.isDirectory(songs())
        ? spark.read().schema(SurveyedSong.COLUMNS).parquet(songs().toString())
        : spark.createDataFrame(java.util.List.of(), SurveyedSong.COLUMNS);
  }

  /** Those of one version, failed ones too. */
  Dataset<Row> rows(SparkSession spark, String version) {
    return rows(spark).where(functions.col("version").equalTo(version));
  }

  /** Adds rows: all of them, or none. */
  void add(Dataset<Row> rows) {
    rows.write().mode(SaveMode.Append).parquet(songs().toString());
  }

  /** Throws {@link Trouble.WrongUsage} where no survey lies here. */
  SurveyFolder requireSurvey() {
    if (!Files.isDirectory(songs())) {
      throw new Trouble.WrongUsage(
          "%s holds no survey; it must be a folder that \"study ... --to\" has filled."
              .formatted(folder));
    }
    return this;
  }
}
