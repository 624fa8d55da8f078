package undersong.study;

import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import undersong.search.Likeness;
import undersong.search.SongLines;
import undersong.shelf.Song;
import undersong.technique.Finding;
import undersong.time.Span;

/** A song of the shelf, or a stretch of one, as somebody names it. */
final class SongStretch {
  private static final Pattern STRETCH =
      Pattern.compile("(.+)@(\\d+(?:\\.\\d+)?)-(\\d+(?:\\.\\d+)?)");

  private final Study study;
  private final String text;

  /**
   * @param text a number, title or file, with {@code @FROM-TO} in seconds for a stretch
   */
  SongStretch(Study study, String text) {
    this.study = study;
    this.text = text;
  }

  SongComparison beside(SongStretch other) {
    return SongComparison.of(side(), other.side());
  }

  private SongComparison.Side side() {
    Matcher stretch = STRETCH.matcher(text);
    boolean part = stretch.matches();
    Song song = study.song(part ? stretch.group(1) : text);
    List<Finding> findings = study.findings(song.id());
    SongLines lines = study.search().lines(song.id());
    if (part) {
      Span span =
          new Span(Double.parseDouble(stretch.group(2)), Double.parseDouble(stretch.group(3)));
      findings = findings.stream().filter(finding -> finding.span().overlaps(span)).toList();
      lines = Likeness.within(lines, span);
    }
    return new SongComparison.Side(
        song, study.reading(song.id()).stored().reading(), lines, findings);
  }
}
