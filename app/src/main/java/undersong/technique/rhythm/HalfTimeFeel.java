package undersong.technique.rhythm;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import undersong.reading.Bar;
import undersong.reading.BarTexture;
import undersong.reading.Facet;
import undersong.reading.Reading;
import undersong.technique.BarRange;
import undersong.technique.Certainty;
import undersong.technique.Finding;
import undersong.technique.FindingDraft;
import undersong.technique.Pulse;
import undersong.technique.SongSection;
import undersong.technique.Technique;
import undersong.technique.TechniqueFinder;
import undersong.time.Span;

/** The snare moves from 2 and 4 to 3 for some bars of four while the beat stays. */
final class HalfTimeFeel implements TechniqueFinder {
  private final Settings settings;

  HalfTimeFeel(Settings settings) {
    this.settings = settings;
  }

  /**
   * @param leastBars with the snare on 3 only
   * @param leastUsualShare of the bars with a snare that have it on 2 and 4
   * @param nearBeats within which a stroke is on its beat
   */
  record Settings(int leastBars, double leastUsualShare, double nearBeats) {
    static final Settings DEFAULTS = new Settings(4, 0.3, 0.2);
  }

  /** What the snare does in a bar. */
  private enum Backbeat {
    USUAL,
    HALF,
    OTHER,
    NONE
  }

  @Override
  public Set<Technique> techniques() {
    return Set.of(Technique.HALF_TIME_FEEL);
  }

  @Override
  public Set<Facet<?>> reads() {
    return Set.of(Facet.BEATS, Facet.METER, Facet.TEXTURE, Facet.FORM, Facet.ROLES);
  }

  @Override
  public List<Finding> find(Reading reading) {
    Pulse pulse = Pulse.of(reading);
    List<Bar> bars = pulse.meter().bars();
    List<BarTexture> textures = reading.get(Facet.TEXTURE).bars();
    List<Backbeat> backbeats = new ArrayList<>();
    boolean doubled = pulse.meter().usualBarsPerBar() == 2;
    for (int i = 0; i < Math.min(bars.size(), textures.size()); i++) {
      List<Double> snares = textures.get(i).snareBeats();
      backbeats.add(doubled ? ofTwo(bars.get(i), snares) : backbeat(bars.get(i), snares));
    }
    long usual = backbeats.stream().filter(Backbeat.USUAL::equals).count();
    long struck = backbeats.stream().filter(backbeat -> backbeat != Backbeat.NONE).count();
    if (usual == 0 || usual < settings.leastUsualShare() * struck) {
      return List.of();
    }
    List<SongSection> sections = SongSection.of(reading);
    List<Finding> findings = new ArrayList<>();
    int i = 0;
    while (i < backbeats.size()) {
      int last = i;
      while (backbeats.get(i) == Backbeat.HALF
          && last + 1 < backbeats.size()
          && backbeats.get(last + 1) == Backbeat.HALF) {
        last++;
      }
      if (backbeats.get(i) == Backbeat.HALF
          && (last - i + 1) * pulse.meter().usualBarsPerBar() >= settings.leastBars()) {
        findings.add(finding(bars.get(i), bars.get(last), (int) usual, sections, pulse));
      }
      i = last + 1;
    }
    return findings;
  }

  private Backbeat backbeat(Bar bar, List<Double> snareBeats) {
    if (snareBeats.isEmpty()) {
      return Backbeat.NONE;
    }
    if (bar.beats() != 4) {
      return Backbeat.OTHER;
    }
    boolean two = struck(snareBeats, 1);
    boolean three = struck(snareBeats, 2);
    boolean four = struck(snareBeats, 3);
    if (two && four) {
      return Backbeat.USUAL;
    }
    return three && !two && !four ? Backbeat.HALF : Backbeat.OTHER;
  }

  /** The same where a bar holds two, so that 2 and 4 of each lie between its beats. */
  private Backbeat ofTwo(Bar bar, List<Double> snareBeats) {
    if (snareBeats.isEmpty()) {
      return Backbeat.NONE;
    }
    if (bar.beats() != 4) {
      return Backbeat.OTHER;
    }
    int between = 0;
    for (double beat : new double[] {0.5, 1.5, 2.5, 3.5}) {
      between += struck(snareBeats, beat) ? 1 : 0;
    }
    boolean both = struck(snareBeats, 1) && struck(snareBeats, 3);
    if (between >= 3) {
      return Backbeat.USUAL;
    }
    return both && between <= 1 ? Backbeat.HALF : Backbeat.OTHER;
  }

  private boolean struck(List<Double> snareBeats, double beat) {
    return snareBeats.stream().anyMatch(at -> Math.abs(at - beat) <= settings.nearBeats());
  }

  private Finding finding(Bar first, Bar last, int usual, List<SongSection> sections, Pulse pulse) {
    Span span = new Span(first.span().startSeconds(), last.span().endSeconds());
    BarRange range = new BarRange(first.number(), last.number());
    int bars = range.bars() * pulse.meter().usualBarsPerBar();
    return FindingDraft.of(Technique.HALF_TIME_FEEL, span)
        .bars(Optional.of(range))
        .sure(
            pulse.beatsProbability(),
            pulse.barsProbability(),
            Certainty.beyond(bars, settings.leastBars() - 1, 1.5))
        .strength(0.6)
        .group(SongSection.at(sections, span).map(SongSection::letter).orElse("-"))
        .says("summary", bars, usual)
        .hear("hear")
        .atLeast("bars", bars, settings.leastBars(), "bars")
        .make();
  }
}
