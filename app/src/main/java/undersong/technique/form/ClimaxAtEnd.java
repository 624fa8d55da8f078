package undersong.technique.form;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import undersong.reading.Facet;
import undersong.reading.Reading;
import undersong.reading.SectionRole;
import undersong.technique.BarChords;
import undersong.technique.Certainty;
import undersong.technique.Finding;
import undersong.technique.FindingDraft;
import undersong.technique.SectionSound;
import undersong.technique.SongSection;
import undersong.technique.Technique;
import undersong.technique.TechniqueFinder;
import undersong.technique.form.Gains.Gain;
import undersong.technique.form.Gains.Limits;

/** New music near the end is the high point of the song, and no chorus follows. */
final class ClimaxAtEnd implements TechniqueFinder {
  private final Settings settings;

  ClimaxAtEnd(Settings settings) {
    this.settings = settings;
  }

  /**
   * @param leastRespects in which it exceeds every other section; two, for mastering flattens
   *     loudness
   * @param limits from which a difference counts
   * @param leastBars it lasts
   * @param earliestShare of the song before which it does not begin
   * @param mostLikeness of its chords to an earlier section's, as a share
   */
  record Settings(
      int leastRespects, Limits limits, int leastBars, double earliestShare, double mostLikeness) {
    static final Settings DEFAULTS =
        new Settings(2, new Limits(0.5, 1.08, Double.POSITIVE_INFINITY, 1, 1), 8, 0.6, 0.7);
  }

  @Override
  public Set<Technique> techniques() {
    return Set.of(Technique.CLIMAX_AT_END);
  }

  @Override
  public Set<Facet<?>> reads() {
    return Set.of(
        Facet.METER,
        Facet.CHORDS,
        Facet.FORM,
        Facet.ROLES,
        Facet.DYNAMICS,
        Facet.MELODY,
        Facet.SPACE,
        Facet.TEXTURE);
  }

  @Override
  public List<Finding> find(Reading reading) {
    List<SongSection> sections = SongSection.of(reading);
    Optional<SongSection> candidate =
        candidate(sections, reading)
            .filter(section -> isNewMusic(section, sections, BarChords.of(reading)));
    if (candidate.isEmpty()) {
      return List.of();
    }
    SongSection climax = candidate.get();
    SectionSound sound = SectionSound.of(reading, climax);
    List<Gain> lasting = null;
    for (SongSection other : sections) {
      if (other.place() == climax.place() || other.bars() < 2) {
        continue;
      }
      List<Gain> gains =
          Gains.of(sound, SectionSound.of(reading, other), settings.limits()).stream()
              .filter(Gain::counts)
              .toList();
      lasting = lasting == null ? gains : smaller(lasting, gains);
    }
    return lasting == null || lasting.size() < settings.leastRespects()
        ? List.of()
        : List.of(finding(climax, lasting));
  }

  /** The last section, or the last before an outro: long, new, late. */
  private Optional<SongSection> candidate(List<SongSection> sections, Reading reading) {
    int perBar = reading.get(Facet.METER).usualBarsPerBar();
    int last = sections.size() - 1;
    while (last > 0 && isOutro(sections, last, perBar)) {
      last--;
    }
    if (last < 2) {
      return Optional.empty();
    }
    SongSection section = sections.get(last);
    boolean isNew =
        sections.stream()
            .noneMatch(
                other ->
                    other.place() < section.place() && other.letter().equals(section.letter()));
    boolean late =
        section.span().startSeconds() >= settings.earliestShare() * reading.durationSeconds();
    boolean chorus = section.is(SectionRole.CHORUS) && section.number() > 1;
    return isNew && late && !chorus && perBar * section.bars() >= settings.leastBars()
        ? Optional.of(section)
        : Optional.empty();
  }

  /** Whatever letter the form gives it, it must not go over chords heard before. */
  private boolean isNewMusic(SongSection section, List<SongSection> sections, BarChords chords) {
    return sections.stream()
        .filter(earlier -> earlier.place() < section.place() && earlier.bars() >= 4)
        .allMatch(earlier -> chords.likeness(earlier, section) < settings.mostLikeness());
  }

  /** Called so, or the music of the beginning coming back at the very end. */
  private static boolean isOutro(List<SongSection> sections, int i, int perBar) {
    SongSection section = sections.get(i);
    boolean intro = section.letter().equals(sections.get(0).letter()) && i > 0;
    boolean isNew =
        sections.stream()
            .noneMatch(other -> other.place() < i && other.letter().equals(section.letter()));
    // A long new section is no outro, whatever it is called.
    return intro || (section.is(SectionRole.OUTRO) && !(isNew && perBar * section.bars() >= 8));
  }

  /** Respects that count in both, each with the smaller gain. */
  private static List<Gain> smaller(List<Gain> one, List<Gain> other) {
    return one.stream()
        .flatMap(
            gain ->
                other.stream()
                    .filter(second -> second.respect() == gain.respect())
                    .map(second -> second.value() < gain.value() ? second : gain))
        .toList();
  }

  private Finding finding(SongSection climax, List<Gain> gains) {
    FindingDraft draft =
        FindingDraft.of(Technique.CLIMAX_AT_END, climax.span())
            .bars(climax.barRange())
            .sure(
                0.5 + 0.5 * climax.section().probability(),
                Certainty.beyond(gains.size(), settings.leastRespects() - 0.7, 1))
            .strength(0.5 + 0.15 * gains.size())
            .group(climax.letter())
            .says("summary", climax.words(), Drama.respects(gains))
            .hear("hear")
            .read(Facet.FORM, climax.span(), climax.letter());
    gains.forEach(
        gain ->
            draft.atLeast(gain.respect().key(), gain.value(), gain.limit(), gain.respect().unit()));
    return draft.make();
  }
}
