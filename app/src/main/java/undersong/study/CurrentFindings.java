package undersong.study;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import undersong.shelf.Memory;
import undersong.shelf.Shelf;
import undersong.shelf.StoredReading;
import undersong.technique.Commonness;
import undersong.technique.Finding;
import undersong.technique.OnPaper;
import undersong.technique.Ranking;
import undersong.technique.Technique;
import undersong.technique.Techniques;

/** What is found in each song as its reading stands, and how it ranks on this shelf. */
final class CurrentFindings {
  private static final Set<Technique> ON_PAPER = OnPaper.techniques();

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
    List<Finding> findings = found(stored);
    if (!shelf.findings().isCurrent(stored.songId(), stored.revision(), TechniqueFinders.VERSION)) {
      keep(stored, findings);
    }
    // Only once they are kept: who finds them known ranks by what the shelf holds.
    known.put(stored.songId(), new Found(stored.revision(), findings));
    return findings;
  }

  /** In a chart only what shows on paper; of a memory, what was said is all there is. */
  List<Finding> found(StoredReading stored) {
    return switch (shelf.songs().get(stored.songId()).origin()) {
      case RECORDING -> techniques.in(stored.reading());
      case CHART ->
          techniques.in(stored.reading()).stream()
              .filter(finding -> ON_PAPER.contains(finding.technique()))
              .toList();
      case MEMORY -> List.of();
    };
  }

  private void keep(StoredReading stored, List<Finding> findings) {
    Optional<Memory> memory = shelf.soundless().memory(stored.songId());
    if (memory.isPresent()) {
      shelf
          .findings()
          .keepSaid(
              stored.songId(),
              stored.revision(),
              TechniqueFinders.VERSION,
              memory.get().techniques(),
              stored.reading().durationSeconds());
    } else {
      shelf.findings().keep(stored.songId(), stored.revision(), TechniqueFinders.VERSION, findings);
    }
  }

  /** How this shelf ranks: the table, what is found here, what was said here. */
  Ranking ranking() {
    Commonness here = table.withShelf(shelf.findings().songs(), shelf.findings().songsWith());
    return new Ranking(here, shelf.verdicts().taught());
  }
}
