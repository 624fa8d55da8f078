package undersong.study;

import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import undersong.shelf.Shelf;
import undersong.shelf.StoredReading;
import undersong.technique.Commonness;
import undersong.technique.Finding;
import undersong.technique.Ranking;
import undersong.technique.Techniques;

/** What is found in each song as its reading stands, and how it ranks on this shelf. */
final class CurrentFindings {
  private final Shelf shelf;
  private final Techniques techniques = TechniqueFinders.standard();
  private final Commonness table = Commonness.standard();

  /** The last findings of each song; few bytes beside its reading. */
  private final Map<Long, Found> known = new ConcurrentHashMap<>();

  private record Found(int revision, List<Finding> findings) {}

  CurrentFindings(Shelf shelf) {
    this.shelf = shelf;
  }

  /** Findings of a reading; found again, and kept on the shelf, where the reading is another. */
  List<Finding> of(StoredReading stored) {
    Found last = known.get(stored.songId());
    if (last != null && last.revision() == stored.revision()) {
      return last.findings();
    }
    List<Finding> findings = techniques.in(stored.reading());
    known.put(stored.songId(), new Found(stored.revision(), findings));
    if (!shelf.findings().isCurrent(stored.songId(), stored.revision(), TechniqueFinders.VERSION)) {
      shelf.findings().keep(stored.songId(), stored.revision(), TechniqueFinders.VERSION, findings);
    }
    return findings;
  }

  /** How this shelf ranks: the table, what is found here, what was said here. */
  Ranking ranking() {
    Commonness here = table.withShelf(shelf.findings().songs(), shelf.findings().songsWith());
    return new Ranking(here, shelf.verdicts().taught());
  }
}
