package undersong.survey;

import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.SparkSession;
import org.apache.spark.sql.functions;
import undersong.study.Study;

/** Puts the songs of a survey on a shelf. */
final class Shelving {
  private Shelving() {}

  /**
   * What came of it.
   *
   * @param kept new on the shelf, or brought up to date
   * @param there already, and left as they are
   * @param failed one line for each that an older program wrote and this one cannot read
   */
  record Outcome(int kept, int there, List<String> failed) {
    Outcome {
      failed = List.copyOf(failed);
    }
  }

  /** Songs of this program's version; a song corrected on the shelf stays as it is. */
  static Outcome shelve(SparkSession spark, SurveyFolder folder, String version, Study study) {
    int kept = 0;
    int there = 0;
    List<String> failed = new ArrayList<>();
    Iterator<Row> rows =
        folder
            .requireSurvey()
            .rows(spark, version)
            .where(functions.col("failure").equalTo(""))
            .toLocalIterator();
    while (rows.hasNext()) {
      Row row = rows.next();
      try {
        if (study.keep(SurveyedSong.heard(row))) {
          kept++;
        } else {
          there++;
        }
      } catch (IllegalArgumentException unreadable) {
        failed.add(row.<String>getAs("place") + ": " + unreadable.getMessage());
      }
    }
    return new Outcome(kept, there, failed);
  }
}
