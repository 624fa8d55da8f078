package undersong.technique.production;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import undersong.reading.Bar;
import undersong.reading.BarTexture;
import undersong.reading.Facet;
import undersong.reading.HearingBand;
import undersong.reading.LayerKind;
import undersong.reading.Reading;
import undersong.technique.Certainty;
import undersong.technique.Finding;
import undersong.technique.FindingDraft;
import undersong.technique.SongSection;
import undersong.technique.Technique;
import undersong.technique.TechniqueFinder;
import undersong.time.Span;

/**
 * Sub-bass comes in with a section and stays. Kicks sound below 80 Hz too, so levels alone do not
 * tell: the layer, which goes on between kicks, must not have been there before.
 */
final class SubBassEntry implements TechniqueFinder {
  private final Settings settings;

  SubBassEntry(Settings settings) {
    this.settings = settings;
  }

  /**
   * @param leastDb by which the level of bars rises, kicks included
   * @param bars looked at before the boundary, at most
   * @param stays share of the section through which the layer sounds
   * @param before share of those bars through which it may
   */
  record Settings(double leastDb, int bars, double stays, double before) {
    static final Settings DEFAULTS = new Settings(2, 4, 0.6, 0.25);
  }

  @Override
  public Set<Technique> techniques() {
    return Set.of(Technique.SUB_BASS_ENTRY);
  }

  @Override
  public Set<Facet<?>> reads() {
    return Set.of(Facet.METER, Facet.FORM, Facet.ROLES, Facet.TEXTURE);
  }

  @Override
  public List<Finding> find(Reading reading) {
    List<SongSection> sections = SongSection.of(reading);
    List<Finding> findings = new ArrayList<>();
    for (int i = 1; i < sections.size(); i++) {
      SongSection here = sections.get(i);
      List<Double> before =
          levels(reading, here.section().firstBar() - settings.bars(), here.section().firstBar());
      List<Double> after = levels(reading, here.section().firstBar(), here.section().lastBar() + 1);
      if (before.isEmpty() || after.isEmpty()) {
        continue;
      }
      double rise = decibels(after) - Math.max(-70, decibels(before));
      double stays = share(reading, here.span());
      if (rise >= settings.leastDb()
          && stays >= settings.stays()
          && share(reading, lastBars(reading, sections.get(i - 1))) <= settings.before()) {
        findings.add(
            FindingDraft.of(Technique.SUB_BASS_ENTRY, here.span())
                .bars(here.barRange())
                .sure(
                    Certainty.beyond(rise, 0, 1.5),
                    Certainty.beyond(stays, settings.stays() - 0.2, 0.15),
                    here.sureOfName())
                .strength(rise / 20)
                .group(here.letter())
                .says("summary", here.words(), rise)
                .hear(sections.get(i - 1).span(), "before")
                .hear("after")
                .atLeast("stays", 100 * stays, 100 * settings.stays(), "%")
                .atLeast("rise", rise, settings.leastDb(), "dB")
                .make());
      }
    }
    return findings;
  }

  /** The bars that end a section. */
  private Span lastBars(Reading reading, SongSection section) {
    int from = section.section().lastBar() - settings.bars() + 1;
    double start =
        reading.get(Facet.METER).bars().stream()
            .filter(bar -> bar.number() >= from)
            .mapToDouble(bar -> bar.span().startSeconds())
            .findFirst()
            .orElse(section.span().startSeconds());
    return new Span(Math.max(start, section.span().startSeconds()), section.span().endSeconds());
  }

  /** Share of a span through which sub-bass sounds. */
  private static double share(Reading reading, Span span) {
    return reading.get(Facet.TEXTURE).of(LayerKind.SUB_BASS).stream()
            .mapToDouble(layer -> layer.span().overlapSeconds(span))
            .sum()
        / span.lengthSeconds();
  }

  /** Levels below 80 Hz of bars [from, end). */
  private static List<Double> levels(Reading reading, int from, int end) {
    List<Bar> bars = reading.get(Facet.METER).bars();
    List<BarTexture> textures = reading.get(Facet.TEXTURE).bars();
    List<Double> levels = new ArrayList<>();
    for (int i = 0; i < Math.min(bars.size(), textures.size()); i++) {
      if (bars.get(i).number() >= from && bars.get(i).number() < end) {
        levels.add(textures.get(i).levelDb(HearingBand.SUB));
      }
    }
    return levels;
  }

  private static double decibels(List<Double> levels) {
    return 10
        * Math.log10(
            levels.stream().mapToDouble(db -> Math.pow(10, db / 10)).average().orElseThrow());
  }
}
