package undersong.technique;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import undersong.reading.Facet;
import undersong.reading.Reading;
import undersong.reading.Roles.NamedSection;
import undersong.reading.Section;
import undersong.reading.SectionRole;
import undersong.time.Span;

/**
 * One section with its music, its name and its number among those of its name.
 *
 * @param place in the song, from 0
 * @param number 1 for the first verse, 2 for the second ...
 */
public record SongSection(int place, Section section, NamedSection named, int number) {
  /** How much of a name's doubt falls on what is said about the music under it. */
  private static final double HANGS_ON_THE_NAME = 0.3;

  /** Reads FORM and ROLES. */
  public static List<SongSection> of(Reading reading) {
    List<Section> sections = reading.get(Facet.FORM).sections();
    List<NamedSection> names = reading.get(Facet.ROLES).sections();
    Map<SectionRole, Integer> numbers = new EnumMap<>(SectionRole.class);
    List<SongSection> all = new ArrayList<>();
    for (int i = 0; i < Math.min(sections.size(), names.size()); i++) {
      int number = numbers.merge(names.get(i).place(), 1, Integer::sum);
      all.add(new SongSection(i, sections.get(i), names.get(i), number));
    }
    return all;
  }

  /** The section in which most of a span lies. */
  public static Optional<SongSection> at(List<SongSection> sections, Span span) {
    SongSection most = null;
    for (SongSection section : sections) {
      double seconds = section.span().overlapSeconds(span);
      if (seconds > 0 && (most == null || seconds > most.span().overlapSeconds(span))) {
        most = section;
      }
    }
    return Optional.ofNullable(most);
  }

  public Span span() {
    return section.span();
  }

  public String letter() {
    return section.letter();
  }

  public SectionRole role() {
    return named.place();
  }

  public boolean is(SectionRole role) {
    return named.place() == role;
  }

  public int bars() {
    return section.lastBar() - section.firstBar() + 1;
  }

  public Optional<BarRange> barRange() {
    return Optional.of(new BarRange(section.firstBar(), section.lastBar()));
  }

  /**
   * How sure something is that is said of this section by its name: a wrong name leaves most of it
   * standing, for the music is what it is.
   */
  public double sureOfName() {
    return 1 - HANGS_ON_THE_NAME * (1 - named.probability());
  }

  /** "verse 2", "section C". */
  public Sentence words() {
    return role() == SectionRole.OTHER
        ? Sentence.of("section.letter", letter())
        : Sentence.of("section.numbered", Sentence.of("role." + role().words()), number);
  }
}
