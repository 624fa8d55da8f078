package undersong.reading;

import java.util.List;

/** The corrections in force, oldest first: those said and not taken back. */
public record Corrections(List<CorrectionEntry> entries) {
  public static final Corrections NONE = new Corrections(List.of());

  public Corrections {
    entries = List.copyOf(entries);
  }

  /** Those of one kind, oldest first. */
  public <C extends Correction> List<C> ofKind(Class<C> kind) {
    return entries.stream()
        .map(CorrectionEntry::correction)
        .filter(kind::isInstance)
        .map(kind::cast)
        .toList();
  }

  /** Whether anything is said against this facet. */
  public boolean touch(Facet<?> facet) {
    return entries.stream().anyMatch(entry -> entry.correction().facet() == facet);
  }

  /** Only those said against this facet, oldest first. */
  public Corrections of(Facet<?> facet) {
    return new Corrections(
        entries.stream().filter(entry -> entry.correction().facet() == facet).toList());
  }
}
