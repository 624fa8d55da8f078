package undersong.survey;

import static org.apache.spark.sql.functions.array_distinct;
import static org.apache.spark.sql.functions.col;
import static org.apache.spark.sql.functions.count;
import static org.apache.spark.sql.functions.countDistinct;
import static org.apache.spark.sql.functions.explode;
import static org.apache.spark.sql.functions.lit;
import static org.apache.spark.sql.functions.udf;
import static org.apache.spark.sql.functions.when;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.StringJoiner;
import org.apache.spark.sql.Column;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.SparkSession;
import org.apache.spark.sql.api.java.UDF1;
import org.apache.spark.sql.types.DataTypes;
import undersong.trend.Share;

/**
 * How many songs of each year have a technique or a progression, with Wilson's interval. Each song
 * counts once; a song without a year stands under none.
 */
final class YearCounts {
  /** Chords of a counted progression, as many as the usual loop has. */
  static final int CHORDS = 4;

  private YearCounts() {}

  /** One line of a table. */
  record Line(String year, String what, Share share) {}

  /** Techniques by year, those that at least one song has. */
  static List<Line> techniques(Dataset<Row> songs) {
    return counted(songs, col("techniques"), 1);
  }

  /**
   * Rows of {@value #CHORDS} chords in one key by year, as the songs play them (a loop begun
   * elsewhere is another row), those that at least two songs have.
   */
  static List<Line> progressions(Dataset<Row> songs) {
    var rows =
        udf(
            (UDF1<String, List<String>>) YearCounts::rows,
            DataTypes.createArrayType(DataTypes.StringType));
    return counted(songs, rows.apply(col("numerals")), 2);
  }

  /** Each row of chords in a line of numerals once, in order. */
  static List<String> rows(String numerals) {
    Set<String> rows = new LinkedHashSet<>();
    for (String stretch : numerals.strip().split("\\|", -1)) {
      String[] chords = stretch.strip().split(" +", -1);
      for (int first = 0; first + CHORDS <= chords.length; first++) {
        rows.add(String.join(" ", List.of(chords).subList(first, first + CHORDS)));
      }
    }
    return List.copyOf(rows);
  }

  private static List<Line> counted(Dataset<Row> songs, Column what, int least) {
    Dataset<Row> dated =
        songs
            .where(col("failure").equalTo(""))
            .withColumn(
                "year", when(col("said_year").gt(0), col("said_year")).otherwise(col("tag_year")));
    Dataset<Row> each =
        dated.select(col("content_hash"), col("year"), explode(array_distinct(what)).as("what"));
    Dataset<Row> common =
        each.groupBy("what")
            .agg(countDistinct("content_hash").as("everywhere"))
            .where(col("everywhere").geq(least));
    Dataset<Row> of = dated.groupBy("year").agg(count(lit(1)).as("of"));
    return each
        .join(common, "what")
        .groupBy("year", "what")
        .agg(countDistinct("content_hash").as("songs"))
        .join(of, "year")
        .orderBy(col("year"), col("songs").desc(), col("what"))
        .select("year", "what", "songs", "of")
        .collectAsList()
        .stream()
        .map(
            row ->
                new Line(
                    row.getInt(0) == 0 ? "" : Integer.toString(row.getInt(0)),
                    row.getString(1),
                    new Share((int) row.getLong(2), (int) row.getLong(3))))
        .toList();
  }

  /** Writes both tables beside the rows. */
  static void write(SparkSession spark, SurveyFolder folder, String version) {
    Dataset<Row> songs =
        folder
            .rows(spark, version)
            .select("content_hash", "failure", "said_year", "tag_year", "techniques", "numerals");
    write(folder.techniquesByYear(), "technique", techniques(songs));
    write(folder.progressionsByYear(), "progression", progressions(songs));
  }

  private static void write(Path file, String what, List<Line> lines) {
    StringJoiner text =
        new StringJoiner("\n", "year," + what + ",songs,of,share,share_low,share_high\n", "\n");
    text.setEmptyValue("year," + what + ",songs,of,share,share_low,share_high\n");
    for (Line line : lines) {
      Share share = line.share();
      text.add(
          String.format(
              Locale.ROOT,
              "%s,%s,%d,%d,%.4f,%.4f,%.4f",
              line.year(),
              line.what(),
              share.songs(),
              share.of(),
              share.value(),
              share.low(),
              share.high()));
    }
    try {
      Files.writeString(file, text.toString());
    } catch (IOException refused) {
      throw new UncheckedIOException(file + " could not be written", refused);
    }
  }
}
