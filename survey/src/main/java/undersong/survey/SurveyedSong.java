package undersong.survey;

import java.io.Serializable;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.RowFactory;
import org.apache.spark.sql.types.DataTypes;
import org.apache.spark.sql.types.StructType;
import undersong.exchange.FindingsJson;
import undersong.reading.Provenance;
import undersong.shelf.ReadingJson;
import undersong.shelf.Song;
import undersong.shelf.StudiedFile;
import undersong.study.Heard;
import undersong.study.UnshelvedStudy;
import undersong.technique.Finding;
import undersong.trend.NumeralLine;

/**
 * A row of the survey: a recording with its reading, or why there is none.
 *
 * @param contentHash of its sound
 * @param place where it was found; of several with the same sound the first by name
 * @param version of the whole study: rows of different versions are not counted together
 * @param failure "" where it was studied; else everything about its music is empty
 * @param tag title, artist and year as the file says; "" and 0 where it says nothing
 * @param said the same in the words of the list
 * @param techniques ids of what is more likely there than not, sorted
 * @param numerals in one line, as {@link NumeralLine} writes them
 * @param reading as {@link ReadingJson} writes it
 */
record SurveyedSong(
    String contentHash,
    String place,
    String version,
    String failure,
    double durationSeconds,
    Words tag,
    Words said,
    List<String> techniques,
    String numerals,
    String featureVersion,
    String estimatorVersion,
    String reading)
    implements Serializable {
  private static final long serialVersionUID = 1;

  static final StructType COLUMNS =
      new StructType()
          .add("content_hash", DataTypes.StringType, false)
          .add("place", DataTypes.StringType, false)
          .add("version", DataTypes.StringType, false)
          .add("failure", DataTypes.StringType, false)
          .add("duration_seconds", DataTypes.DoubleType, false)
          .add("tag_title", DataTypes.StringType, false)
          .add("tag_artist", DataTypes.StringType, false)
          .add("tag_year", DataTypes.IntegerType, false)
          .add("said_title", DataTypes.StringType, false)
          .add("said_artist", DataTypes.StringType, false)
          .add("said_year", DataTypes.IntegerType, false)
          .add("techniques", DataTypes.createArrayType(DataTypes.StringType, false), false)
          .add("numerals", DataTypes.StringType, false)
          .add("feature_version", DataTypes.StringType, false)
          .add("estimator_version", DataTypes.StringType, false)
          .add("reading", DataTypes.StringType, false);

  /** Title, artist and year that can travel; "" and 0 where nothing is known. */
  record Words(String title, String artist, int year) implements Serializable {
    private static final long serialVersionUID = 1;
    static final Words NONE = new Words("", "", 0);

    static Words of(Song.Words words) {
      return new Words(words.title().orElse(""), words.artist().orElse(""), words.year().orElse(0));
    }

    Song.Words open() {
      return Song.Words.ofTags(title, artist, year);
    }
  }

  static SurveyedSong of(Heard heard, String place, String version) {
    StudiedFile facts = heard.facts();
    return new SurveyedSong(
        facts.contentHash(),
        place,
        version,
        "",
        facts.durationSeconds(),
        Words.of(facts.tagged()),
        Words.of(facts.said()),
        UnshelvedStudy.findings(heard.reading()).stream()
            .filter(finding -> finding.probability() >= FindingsJson.TOLD_FROM)
            .map(Finding::technique)
            .map(technique -> technique.id())
            .distinct()
            .sorted()
            .toList(),
        NumeralLine.of(heard.reading()),
        heard.provenance().featureVersion(),
        heard.provenance().estimatorVersion(),
        ReadingJson.print(heard.reading()));
  }

  static SurveyedSong failed(Probed probed, String version, String failure) {
    return new SurveyedSong(
        probed.contentHash(),
        probed.source().place(),
        version,
        failure,
        0,
        Words.NONE,
        Words.of(probed.source().words()),
        List.of(),
        " ",
        "",
        "",
        "");
  }

  Row row() {
    return RowFactory.create(
        contentHash,
        place,
        version,
        failure,
        durationSeconds,
        tag.title(),
        tag.artist(),
        tag.year(),
        said.title(),
        said.artist(),
        said.year(),
        techniques.toArray(),
        numerals,
        featureVersion,
        estimatorVersion,
        reading);
  }

  /** What {@link undersong.study.Study#keep} takes, of a row that did not fail. */
  static Heard heard(Row row) {
    return new Heard(
        new StudiedFile(
            row.getAs("content_hash"),
            Path.of(row.<String>getAs("place")),
            row.getAs("duration_seconds"),
            words(row, "tag").open(),
            words(row, "said").open()),
        ReadingJson.parseReading(row.getAs("reading")),
        new Provenance(row.getAs("feature_version"), row.getAs("estimator_version"), Map.of()));
  }

  private static Words words(Row row, String whose) {
    return new Words(
        row.getAs(whose + "_title"), row.getAs(whose + "_artist"), row.getAs(whose + "_year"));
  }
}
