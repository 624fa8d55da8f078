package undersong.bench.plant;

import java.util.Set;
import undersong.render.DemoSong;
import undersong.technique.Technique;

/**
 * A composed song.
 *
 * @param scoreText as the program's own score reader understands it
 * @param planted techniques it is made to show; where, stands in the score
 * @param arguable techniques a listener might name as well: neither right nor wrong
 */
public record PlantedSong(
    String id, String scoreText, Set<Technique> planted, Set<Technique> arguable) {
  public PlantedSong {
    planted = Set.copyOf(planted);
    arguable = Set.copyOf(arguable);
  }

  public DemoSong score() {
    return DemoSong.of(id, scoreText);
  }
}
