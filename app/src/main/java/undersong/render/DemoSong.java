package undersong.render;

import undersong.render.score.Performance;
import undersong.render.score.Score;
import undersong.render.score.ScoreParser;
import undersong.render.score.Truth;
import undersong.render.score.TruthReader;

/**
 * A song the program brings along, with everything that is known about it.
 *
 * @param id short and fit for a file name
 */
public record DemoSong(String id, Score score, Performance performance, Truth truth) {
  /** Reads a score; throws, naming the line, where it cannot be read. */
  public static DemoSong of(String id, String scoreText) {
    Score score = ScoreParser.parse(scoreText);
    Performance performance = Performance.of(score);
    return new DemoSong(id, score, performance, TruthReader.read(performance));
  }

  public String title() {
    return score.title();
  }

  public String artist() {
    return score.artist();
  }
}
