package undersong.technique.harmony;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import undersong.reading.Candidate;
import undersong.reading.Facet;
import undersong.reading.KeyRegion;
import undersong.reading.Reading;
import undersong.technique.ChordPath;
import undersong.technique.ChordStep;
import undersong.technique.Finding;
import undersong.technique.FindingDraft;
import undersong.technique.Pulse;
import undersong.technique.SongSection;
import undersong.technique.Technique;
import undersong.technique.TechniqueFinder;

/** A new tonic that stays and is confirmed by a cadence; the way home again is none. */
final class Modulation implements TechniqueFinder {
  private static final int FEWEST_BARS = 4;

  private final Settings settings;

  Modulation(Settings settings) {
    this.settings = settings;
  }

  /**
   * @param leastBars for which the new key stays, unless it fills a section
   * @param sectionShare of a section it must fill
   * @param leastForeign share of a section that is foreign to the old key, where its chords alone
   *     tell
   * @param mostOutside share of it that may be foreign to the new key
   */
  record Settings(double leastBars, double sectionShare, double leastForeign, double mostOutside) {
    static final Settings DEFAULTS = new Settings(8, 0.9, 0.5, 0.05);
  }

  @Override
  public Set<Technique> techniques() {
    return Set.of(Technique.MODULATION);
  }

  @Override
  public Set<Facet<?>> reads() {
    return HarmonyFinders.with(Facet.KEYS);
  }

  @Override
  public List<Finding> find(Reading reading) {
    Pulse pulse = Pulse.of(reading);
    List<KeyRegion> regions = reading.get(Facet.KEYS).regions();
    if (!pulse.isThere() || regions.isEmpty()) {
      return List.of();
    }
    int home = reading.get(Facet.KEYS).mainKey().orElseThrow().tonic().pitchClass();
    List<SongSection> sections = SongSection.of(reading);
    ChordPath path = ChordPath.of(reading);
    List<Finding> findings = new ArrayList<>();
    for (int i = 1; i < regions.size(); i++) {
      KeyRegion region = regions.get(i);
      int tonic = region.key().tonic().pitchClass();
      boolean moves = tonic != regions.get(i - 1).key().tonic().pitchClass();
      if (moves && tonic != home && stays(region, sections, pulse)) {
        Optional<Integer> cadence = cadence(path, region);
        KeyRegion before = regions.get(i - 1);
        cadence.ifPresent(at -> findings.add(finding(before, region, path, at, pulse)));
      }
    }
    for (SongSection section : sections) {
      if (section.bars() >= FEWEST_BARS && section.place() > 0) {
        SectionKey.of(path, section, settings.leastForeign(), settings.mostOutside())
            .ifPresent(found -> findings.add(finding(found, section, path)));
      }
    }
    return findings;
  }

  private boolean stays(KeyRegion region, List<SongSection> sections, Pulse pulse) {
    boolean longEnough = pulse.lengthBars(region.span()) >= settings.leastBars() - 0.1;
    boolean fillsSection =
        sections.stream()
            .anyMatch(
                section ->
                    section.bars() >= FEWEST_BARS
                        && section.span().overlapSeconds(region.span())
                            >= settings.sectionShare() * section.span().lengthSeconds());
    return longEnough || fillsSection;
  }

  /** Place of a dominant that goes home within the region. */
  private static Optional<Integer> cadence(ChordPath path, KeyRegion region) {
    for (int i = 0; i + 1 < path.size(); i++) {
      ChordStep dominant = path.get(i);
      ChordStep tonic = path.get(i + 1);
      boolean inside =
          region.span().contains(dominant.span().middleSeconds())
              && region.span().contains(tonic.span().middleSeconds());
      if (inside && path.goesOn(i) && dominant.dominant() && tonic.root() == 0) {
        return Optional.of(i);
      }
    }
    return Optional.empty();
  }

  private Finding finding(
      KeyRegion before, KeyRegion region, ChordPath path, int cadence, Pulse pulse) {
    ChordStep dominant = path.get(cadence);
    ChordStep tonic = path.get(cadence + 1);
    return FindingDraft.of(Technique.MODULATION, region.span())
        .bars(pulse.bars(region.span()))
        .sure(sureOfTonic(before), sureOfTonic(region), dominant.sureOfTriad(), tonic.sureOfRoot())
        .strength(0.7)
        .group(region.key().tonic().toString())
        .says("summary", before.key().toString(), region.key().toString())
        .hear(path.span(cadence, cadence + 1), "hear", region.key().tonic().toString())
        .atLeast("bars", pulse.lengthBars(region.span()), settings.leastBars(), "bars")
        .read(Facet.KEYS, region.span(), region.key().toString())
        .read(Facet.HARMONY, dominant.span(), dominant.numeralText())
        .read(Facet.HARMONY, tonic.span(), tonic.numeralText())
        .make();
  }

  /** Whatever its mode. */
  private static double sureOfTonic(KeyRegion region) {
    int tonic = region.key().tonic().pitchClass();
    double others =
        region.runnersUp().stream()
            .filter(other -> other.value().tonic().pitchClass() == tonic)
            .mapToDouble(Candidate::probability)
            .sum();
    return Math.min(1, region.probability() + others);
  }

  private Finding finding(SectionKey found, SongSection section, ChordPath path) {
    int cadence = found.cadence();
    ChordStep dominant = path.get(cadence);
    ChordStep tonic = path.get(cadence + 1);
    String key = found.key().toString();
    return FindingDraft.of(Technique.MODULATION, section.span())
        .bars(section.barRange())
        .sure(
            found.sureOfChords(), dominant.sureOfTriad(), tonic.sureOfRoot(), found.foreignShare())
        .strength(0.7)
        .group(found.key().tonic().toString())
        .says("summary", found.home().toString(), key)
        .hear(path.span(cadence, cadence + 1), "hear", found.key().tonic().toString())
        .atLeast("foreign", 100 * found.foreignShare(), 100 * settings.leastForeign(), "%")
        .read(Facet.CHORDS, section.span(), key)
        .make();
  }
}
