package undersong.technique.harmony;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import undersong.reading.Facet;
import undersong.reading.Keys;
import undersong.reading.Reading;
import undersong.technique.Finding;
import undersong.technique.FindingDraft;
import undersong.technique.SongSection;
import undersong.technique.Technique;
import undersong.technique.TechniqueFinder;
import undersong.theory.Key;

/** The last copies of a section come back higher. */
final class KeyLift implements TechniqueFinder {
  private final Settings settings;

  KeyLift(Settings settings) {
    this.settings = settings;
  }

  /**
   * @param mostCopies at the end of the song that may be lifted
   * @param mostSemitones by which they may be
   * @param sureWithoutKey how telling the form alone is where the keys do not agree
   */
  record Settings(int mostCopies, int mostSemitones, double sureWithoutKey) {
    static final Settings DEFAULTS = new Settings(3, 6, 0.4);
  }

  @Override
  public Set<Technique> techniques() {
    return Set.of(Technique.KEY_LIFT);
  }

  @Override
  public Set<Facet<?>> reads() {
    return Set.of(Facet.FORM, Facet.ROLES, Facet.KEYS);
  }

  @Override
  public List<Finding> find(Reading reading) {
    List<SongSection> sections = SongSection.of(reading);
    Keys keys = reading.get(Facet.KEYS);
    List<Finding> findings = new ArrayList<>();
    for (String letter : sections.stream().map(SongSection::letter).distinct().toList()) {
      List<SongSection> copies =
          sections.stream().filter(section -> section.letter().equals(letter)).toList();
      int first = firstLifted(copies);
      if (first > 0 && copies.size() - first <= settings.mostCopies()) {
        for (SongSection lifted : copies.subList(first, copies.size())) {
          findings.add(finding(copies.get(first - 1), lifted, keys));
        }
      }
    }
    return findings;
  }

  /** The first copy from which on all stand higher than all before; -1 where there is none. */
  private int firstLifted(List<SongSection> copies) {
    for (int first = 1; first < copies.size(); first++) {
      int before = copies.get(first - 1).section().transposedSemitones();
      int end = first;
      while (end < copies.size() && isLift(copies.get(end), before)) {
        end++;
      }
      if (end == copies.size()) {
        return first;
      }
    }
    return -1;
  }

  private boolean isLift(SongSection copy, int before) {
    int up = copy.section().transposedSemitones() - before;
    return up >= 1 && up <= settings.mostSemitones();
  }

  private Finding finding(SongSection before, SongSection lifted, Keys keys) {
    int up = lifted.section().transposedSemitones() - before.section().transposedSemitones();
    Optional<Key> from = keys.keyAt(before.span().middleSeconds());
    Optional<Key> to = keys.keyAt(lifted.span().middleSeconds());
    boolean agree =
        from.isPresent()
            && to.isPresent()
            && Math.floorMod(
                    to.get().tonic().pitchClass() - from.get().tonic().pitchClass() - up, 12)
                == 0;
    FindingDraft draft =
        FindingDraft.of(Technique.KEY_LIFT, lifted.span())
            .bars(lifted.barRange())
            .sure(lifted.section().probability(), agree ? 0.98 : settings.sureWithoutKey())
            .strength(0.8)
            .group("lift " + up)
            .says("summary", lifted.words(), up, before.words())
            .hear(before.span(), "before")
            .hear("hear")
            .atLeast("semitones", up, 1, "semitones");
    from.ifPresent(key -> draft.read(Facet.KEYS, before.span(), key.toString()));
    to.ifPresent(key -> draft.read(Facet.KEYS, lifted.span(), key.toString()));
    return draft.make();
  }
}
