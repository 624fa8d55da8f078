package undersong.technique;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** Findings that are told once, with their occurrences in order of time. */
public record FindingGroup(List<Finding> occurrences) {
  public FindingGroup {
    occurrences = List.copyOf(occurrences);
    if (occurrences.isEmpty()) {
      throw new IllegalArgumentException("A group of findings needs one at least.");
    }
  }

  /** Joined by their groups, in the order in which each group first occurs. */
  public static List<FindingGroup> of(List<Finding> findings) {
    Map<String, List<Finding>> groups = new LinkedHashMap<>();
    for (Finding finding : findings) {
      String name = finding.technique().id() + " " + finding.group();
      groups.computeIfAbsent(name, key -> new ArrayList<>()).add(finding);
    }
    return groups.values().stream().map(FindingGroup::new).toList();
  }

  /** The occurrence to tell: the surest of the most marked. */
  public Finding telling() {
    return occurrences.stream()
        .max(Comparator.comparingDouble(finding -> finding.probability() * finding.strength()))
        .orElseThrow();
  }

  public Technique technique() {
    return occurrences.get(0).technique();
  }

  /** That at least the surest occurrence is right. */
  public double probability() {
    return occurrences.stream().mapToDouble(Finding::probability).max().orElse(0);
  }
}
