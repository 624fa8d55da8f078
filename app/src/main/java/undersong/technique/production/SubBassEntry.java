package undersong.technique.production;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import undersong.reading.Bar;
import undersong.reading.BarTexture;
import undersong.reading.Facet;
import undersong.reading.HearingBand;
import undersong.reading.Reading;
import undersong.technique.Certainty;
import undersong.technique.Finding;
import undersong.technique.FindingDraft;
import undersong.technique.SongSection;
import undersong.technique.Technique;
import undersong.technique.TechniqueFinder;

/** The level below 80 Hz rises at a section's beginning and stays. */
final class SubBassEntry implements TechniqueFinder {
  private final Settings settings;

  SubBassEntry(Settings settings) {
    this.settings = settings;
  }

  /**
   * @param leastDb of the rise
   * @param bars looked at before the boundary, at most
   * @param quietestDbfs below which there is no sub-bass
   * @param stays share of the section's bars that keep within 6 dB of its level
   */
  record Settings(double leastDb, int bars, double quietestDbfs, double stays) {
    static final Settings DEFAULTS = new Settings(10, 4, -45, 0.6);
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
      double level = decibels(after);
      double rise = level - Math.max(-70, decibels(before));
      double stays = (double) after.stream().filter(bar -> bar > level - 6).count() / after.size();
      if (rise >= settings.leastDb()
          && level >= settings.quietestDbfs()
          && stays >= settings.stays()) {
        findings.add(
            FindingDraft.of(Technique.SUB_BASS_ENTRY, here.span())
                .bars(here.barRange())
                .sure(Certainty.beyond(rise, settings.leastDb() - 3, 4), here.sureOfName())
                .strength(rise / 30)
                .group(here.letter())
                .says("summary", here.words(), rise)
                .hear(sections.get(i - 1).span(), "before")
                .hear("after")
                .atLeast("rise", rise, settings.leastDb(), "dB")
                .make());
      }
    }
    return findings;
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
