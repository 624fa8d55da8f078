package undersong.technique.form;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import undersong.reading.Facet;
import undersong.reading.Reading;
import undersong.reading.SectionRole;
import undersong.technique.BarRange;
import undersong.technique.Certainty;
import undersong.technique.Finding;
import undersong.technique.FindingDraft;
import undersong.technique.SectionSound;
import undersong.technique.SongEnding;
import undersong.technique.SongSection;
import undersong.technique.Technique;
import undersong.technique.TechniqueFinder;
import undersong.time.Span;

/**
 * A chorus, or the first bars of one, comes without half of its layers or without its low end,
 * against the fullest copy of the chorus.
 */
final class DropChorus implements TechniqueFinder {
  /** Names that are easily given to a chorus by mistake. */
  private static final Set<SectionRole> UNNAMED = Set.of(SectionRole.VERSE, SectionRole.OTHER);

  private final Settings settings;

  DropChorus(Settings settings) {
    this.settings = settings;
  }

  /**
   * @param lessThanShare of the layers that are left
   * @param leastLowDb by which the level below 250 Hz is down
   * @param openingBars of a long chorus that are looked at by themselves
   * @param sureOfOther that what comes thin and in full is a chorus where it is not called so
   */
  record Settings(double lessThanShare, double leastLowDb, int openingBars, double sureOfOther) {
    static final Settings DEFAULTS = new Settings(0.5, 6, 4, 0.9);
  }

  @Override
  public Set<Technique> techniques() {
    return Set.of(Technique.DROP_CHORUS);
  }

  @Override
  public Set<Facet<?>> reads() {
    return Set.of(
        Facet.BEATS, Facet.METER, Facet.FORM, Facet.BASS, Facet.MELODY, Facet.ROLES, Facet.TEXTURE);
  }

  /** How the song ends, to know a fade. */
  @Override
  public Set<Facet<?>> alsoReads() {
    return Set.of(Facet.DYNAMICS);
  }

  /** A chorus or the opening of one. */
  private record Stretch(SongSection section, BarRange bars, SectionSound sound) {}

  @Override
  public List<Finding> find(Reading reading) {
    // What fades is thin at its end, but no thin chorus.
    Optional<Span> fade = SongEnding.of(reading).filter(SongEnding::fades).map(SongEnding::fall);
    List<SongSection> sections =
        SongSection.of(reading).stream()
            .filter(section -> fade.isEmpty() || !section.span().overlaps(fade.get()))
            .toList();
    List<SongSection> choruses =
        sections.stream().filter(section -> section.is(SectionRole.CHORUS)).toList();
    List<Finding> findings = new ArrayList<>(thin(choruses, 1, reading));
    // What comes thin after it came in full, or in full right after it came thin, is likely a
    // chorus, whatever it is called.
    sections.stream()
        .filter(section -> UNNAMED.contains(section.role()))
        .collect(
            java.util.stream.Collectors.groupingBy(
                SongSection::letter,
                java.util.LinkedHashMap::new,
                java.util.stream.Collectors.toList()))
        .values()
        .forEach(copies -> findings.addAll(thin(late(copies), settings.sureOfOther(), reading)));
    return findings;
  }

  /** Copies without the first of the song: a first verse may be thin. */
  private static List<SongSection> late(List<SongSection> copies) {
    return copies.stream().filter(copy -> copy.place() > 0).toList();
  }

  /** Copies that are thin against the fullest. */
  private List<Finding> thin(List<SongSection> copies, double sure, Reading reading) {
    if (copies.size() < 2) {
      return List.of();
    }
    List<Stretch> whole = new ArrayList<>();
    for (SongSection chorus : copies) {
      BarRange bars = new BarRange(chorus.section().firstBar(), chorus.section().lastBar());
      whole.add(new Stretch(chorus, bars, sound(reading, bars)));
    }
    Stretch fullest = whole.get(0);
    for (Stretch stretch : whole) {
      boolean fuller =
          stretch.sound().layers().size() > fullest.sound().layers().size()
              || (stretch.sound().layers().size() == fullest.sound().layers().size()
                  && low(stretch) > low(fullest));
      fullest = fuller ? stretch : fullest;
    }
    List<Finding> findings = new ArrayList<>();
    for (Stretch stretch : whole) {
      Optional<Finding> thin = thin(stretch, fullest, sure, reading);
      if (thin.isEmpty() && stretch.section().bars() >= 2 * settings.openingBars()) {
        int first = stretch.bars().first();
        BarRange opening = new BarRange(first, first + settings.openingBars() - 1);
        thin =
            thin(
                new Stretch(stretch.section(), opening, sound(reading, opening)),
                fullest,
                sure,
                reading);
      }
      thin.ifPresent(findings::add);
    }
    return findings;
  }

  private static SectionSound sound(Reading reading, BarRange bars) {
    return SectionSound.of(reading, bars.first(), bars.last());
  }

  private static double low(Stretch stretch) {
    return stretch.sound().lowDb().orElse(-120);
  }

  private Optional<Finding> thin(Stretch stretch, Stretch fullest, double sure, Reading reading) {
    int all = fullest.sound().layers().size();
    int left = stretch.sound().layers().size();
    double share = all > 0 ? (double) left / all : 1;
    double lowDown = low(fullest) - low(stretch);
    boolean fewLayers = all >= 3 && share < settings.lessThanShare();
    boolean noFloor = lowDown >= settings.leastLowDb();
    if (stretch.equals(fullest) || !(fewLayers || noFloor)) {
      return Optional.empty();
    }
    Optional<Span> span = span(reading, stretch.bars());
    if (span.isEmpty()) {
      return Optional.empty();
    }
    FindingDraft draft =
        FindingDraft.of(Technique.DROP_CHORUS, span.get())
            .bars(Optional.of(stretch.bars()))
            .sure(
                sure,
                stretch.section().sureOfName(),
                noFloor
                    ? Certainty.beyond(lowDown, settings.leastLowDb() - 1, 2)
                    : Certainty.beyond(settings.lessThanShare() - share, -0.05, 0.1))
            .strength(lowDown / 20)
            .group(stretch.section().letter())
            .says(
                "summary", stretch.section().words(), left, all, lowDown, stretch.bars().last() + 1)
            .hear("hear")
            .hear(fullest.section().span(), "full")
            .atLeast("low", lowDown, settings.leastLowDb(), "dB");
    if (fewLayers) {
      draft.atMost("layers", 100 * share, 100 * settings.lessThanShare(), "%");
    }
    return Optional.of(draft.make());
  }

  private static Optional<Span> span(Reading reading, BarRange range) {
    var bars =
        reading.get(Facet.METER).bars().stream()
            .filter(bar -> bar.number() >= range.first() && bar.number() <= range.last())
            .toList();
    return bars.isEmpty()
        ? Optional.empty()
        : Optional.of(
            new Span(
                bars.get(0).span().startSeconds(), bars.get(bars.size() - 1).span().endSeconds()));
  }
}
