package undersong.exchange;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import undersong.reading.Facet;
import undersong.reading.Form;
import undersong.reading.Reading;
import undersong.reading.Roles;
import undersong.reading.Roles.NamedSection;
import undersong.reading.SectionRole;

/** What the sections of a reading are called, one name per section of the form. */
public final class SectionNames {
  private SectionNames() {}

  /** What a section does; where that is open, what it is by its place. */
  static SectionRole role(NamedSection section) {
    return section.function() == SectionRole.OTHER ? section.place() : section.function();
  }

  /** The role of each section of the form, by the middle of the section. */
  static List<SectionRole> roles(Reading reading) {
    List<NamedSection> named = reading.find(Facet.ROLES).map(Roles::sections).orElse(List.of());
    List<SectionRole> roles = new ArrayList<>();
    for (var section : reading.find(Facet.FORM).map(Form::sections).orElse(List.of())) {
      Optional<NamedSection> here =
          named.stream().filter(n -> n.span().contains(section.span().middleSeconds())).findFirst();
      roles.add(here.map(SectionNames::role).orElse(SectionRole.OTHER));
    }
    return roles;
  }

  /** "Verse 1", "Verse 2", "Bridge"; a section without role goes by its letter. */
  public static List<String> titles(Reading reading) {
    List<SectionRole> roles = roles(reading);
    Map<SectionRole, Integer> seen = new HashMap<>();
    List<String> titles = new ArrayList<>();
    for (int i = 0; i < roles.size(); i++) {
      SectionRole role = roles.get(i);
      int occurrence = seen.merge(role, 1, Integer::sum);
      long inAll = roles.stream().filter(other -> other == role).count();
      String word =
          role.words().substring(0, 1).toUpperCase(java.util.Locale.ROOT)
              + role.words().substring(1);
      if (role == SectionRole.OTHER) {
        titles.add("Section " + reading.get(Facet.FORM).sections().get(i).letter());
      } else {
        titles.add(inAll > 1 ? word + " " + occurrence : word);
      }
    }
    return titles;
  }
}
