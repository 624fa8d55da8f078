package undersong.estimate.role;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import undersong.estimate.Estimator;
import undersong.feature.Features;
import undersong.reading.Correction;
import undersong.reading.Corrections;
import undersong.reading.Derived;
import undersong.reading.Reading;
import undersong.reading.Roles;
import undersong.reading.Roles.NamedSection;
import undersong.reading.SectionRole;

/**
 * Names sections by common practice (no source): the chorus is the returning music that is loudest,
 * most often sung and still there late in the song; the verse returns before it; what always leads
 * into it is the prechorus; new music between two choruses late in the song is the bridge.
 *
 * <p>By function a section that tops every chorus in loudness is the payoff, whatever its place.
 * Probabilities are rough until calibrated: these names are guesses. A name said by the listener
 * stands for its section and for the other sections of its letter that nobody named.
 */
public final class PlaceAndPayoffRoles implements Estimator<Roles> {
  private static final double GUESS = 0.55;
  private static final double PAYOFF_LU = 1.0;

  @Override
  public Derived<Roles> estimate(Features features, Reading earlier, Corrections corrections) {
    List<SectionTraits> sections = SectionTraits.of(earlier);
    Optional<String> chorus = chorusLetter(sections);
    Optional<String> verse = verseLetter(sections, chorus);
    List<NamedSection> named = new ArrayList<>();
    double loudestChorus =
        sections.stream()
            .filter(s -> chorus.filter(s.letter()::equals).isPresent())
            .mapToDouble(SectionTraits::lufs)
            .max()
            .orElse(Double.POSITIVE_INFINITY);
    for (int i = 0; i < sections.size(); i++) {
      SectionRole place = place(sections, i, chorus, verse);
      boolean payoff =
          place != SectionRole.CHORUS && sections.get(i).lufs() > loudestChorus + PAYOFF_LU;
      named.add(
          new NamedSection(
              sections.get(i).section().span(), place, payoff ? SectionRole.CHORUS : place, GUESS));
    }
    List<Correction> unplaced = new ArrayList<>();
    layOver(named, sections, corrections.ofKind(Correction.NameOver.class), unplaced);
    return new Derived<>(new Roles(named), unplaced);
  }

  private static Optional<String> chorusLetter(List<SectionTraits> sections) {
    double song = sections.stream().mapToDouble(SectionTraits::lufs).average().orElse(0);
    return sections.stream()
        .filter(s -> s.copies() >= 2)
        .map(SectionTraits::letter)
        .distinct()
        .max(Comparator.comparingDouble(letter -> chorusStrength(sections, letter, song)));
  }

  private static double chorusStrength(List<SectionTraits> sections, String letter, double song) {
    double loudness = 0;
    double sung = 0;
    int copies = 0;
    int last = 0;
    for (int i = 0; i < sections.size(); i++) {
      SectionTraits s = sections.get(i);
      if (s.letter().equals(letter)) {
        loudness += s.lufs() - song;
        sung += s.sungShare();
        copies++;
        last = i;
      }
    }
    double late = (double) last / Math.max(1, sections.size() - 1);
    return 0.5 * loudness / copies + sung / copies + 0.2 * Math.min(copies, 4) + late;
  }

  private static Optional<String> verseLetter(
      List<SectionTraits> sections, Optional<String> chorus) {
    return sections.stream()
        .filter(s -> chorus.filter(s.letter()::equals).isEmpty())
        .filter(s -> s.bars() >= 6 || s.copies() >= 2)
        .max(
            Comparator.comparingInt((SectionTraits s) -> Math.min(2, s.copies()))
                .thenComparing(PlaceAndPayoffRoles::sung))
        .map(SectionTraits::letter);
  }

  private static SectionRole place(
      List<SectionTraits> sections, int i, Optional<String> chorus, Optional<String> verse) {
    SectionTraits here = sections.get(i);
    boolean isVerse = verse.filter(here.letter()::equals).isPresent();
    if (chorus.filter(here.letter()::equals).isPresent()) {
      return SectionRole.CHORUS;
    }
    if (i == 0 && sections.size() > 1 && (here.bars() <= 8 || here.copies() == 1) && !sung(here)) {
      return SectionRole.INTRO;
    }
    boolean last = i == sections.size() - 1 && i > 0;
    if (last && (here.copies() == 1 || here.bars() <= 4 || (!isVerse && !sung(here)))) {
      return SectionRole.OUTRO;
    }
    if (isVerse) {
      return SectionRole.VERSE;
    }
    if (here.copies() >= 2 && here.bars() <= 8 && leadsIntoChorus(sections, here, chorus)) {
      return SectionRole.PRECHORUS;
    }
    boolean afterAChorus = hasChorus(sections.subList(0, i), chorus);
    boolean beforeAChorus = hasChorus(sections.subList(i + 1, sections.size()), chorus);
    if (here.copies() == 1 && afterAChorus && beforeAChorus) {
      return here.bars() <= 4 ? SectionRole.BREAK : SectionRole.BRIDGE;
    }
    return here.copies() >= 2 ? SectionRole.VERSE : SectionRole.OTHER;
  }

  /** Where no tune was heard at all, nothing counts as sung. */
  private static boolean sung(SectionTraits section) {
    return section.sungShare() > 0.4;
  }

  private static boolean hasChorus(List<SectionTraits> sections, Optional<String> chorus) {
    return sections.stream().anyMatch(s -> chorus.filter(s.letter()::equals).isPresent());
  }

  private static boolean leadsIntoChorus(
      List<SectionTraits> sections, SectionTraits candidate, Optional<String> chorus) {
    int leads = 0;
    for (int i = 0; i + 1 < sections.size(); i++) {
      if (sections.get(i).letter().equals(candidate.letter())
          && chorus.filter(sections.get(i + 1).letter()::equals).isPresent()) {
        leads++;
      }
    }
    return leads * 2 > candidate.copies();
  }

  private static void layOver(
      List<NamedSection> named,
      List<SectionTraits> sections,
      List<Correction.NameOver> said,
      List<Correction> unplaced) {
    boolean[] saidHere = new boolean[named.size()];
    for (Correction.NameOver name : said) {
      int at = sectionAt(named, name.span().middleSeconds());
      if (at < 0) {
        unplaced.add(name);
        continue;
      }
      for (int i = 0; i < named.size(); i++) {
        boolean sameMusic = sections.get(i).letter().equals(sections.get(at).letter());
        if (i == at || (sameMusic && !saidHere[i])) {
          named.set(
              i,
              new NamedSection(named.get(i).span(), name.role(), name.role(), i == at ? 1 : GUESS));
        }
      }
      saidHere[at] = true;
    }
  }

  private static int sectionAt(List<NamedSection> sections, double seconds) {
    for (int i = 0; i < sections.size(); i++) {
      if (sections.get(i).span().contains(seconds)) {
        return i;
      }
    }
    return -1;
  }
}
