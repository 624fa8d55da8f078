package undersong.technique.production;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import undersong.reading.BarWidth;
import undersong.reading.Facet;
import undersong.reading.Reading;
import undersong.technique.BarSteps;
import undersong.technique.Certainty;
import undersong.technique.Finding;
import undersong.technique.FindingDraft;
import undersong.technique.SectionSound;
import undersong.technique.SongSection;
import undersong.technique.Technique;
import undersong.technique.TechniqueFinder;

/** A section sounds wider or narrower than the one before. */
final class WidthChange implements TechniqueFinder {
  private final Settings settings;

  WidthChange(Settings settings) {
    this.settings = settings;
  }

  /**
   * @param leastDb by which sides against middle differ
   * @param narrowestDb sides that lie further below the middle are all heard as none
   * @param quietestLufs below which a section is too quiet to have a width
   */
  record Settings(double leastDb, double narrowestDb, double quietestLufs) {
    static final Settings DEFAULTS = new Settings(3, -20, -50);
  }

  @Override
  public Set<Technique> techniques() {
    return Set.of(Technique.WIDTH_CHANGE);
  }

  @Override
  public Set<Facet<?>> reads() {
    return Set.of(Facet.METER, Facet.FORM, Facet.ROLES, Facet.SPACE, Facet.DYNAMICS);
  }

  @Override
  public List<Finding> find(Reading reading) {
    List<SongSection> sections = SongSection.of(reading);
    List<Finding> findings = new ArrayList<>();
    for (int i = 1; i < sections.size(); i++) {
      SongSection here = sections.get(i);
      SectionSound before = SectionSound.of(reading, sections.get(i - 1));
      SectionSound after = SectionSound.of(reading, here);
      if (!audible(before) || !audible(after)) {
        continue;
      }
      OptionalDouble narrow = before.sideToMidDb();
      OptionalDouble wide = after.sideToMidDb();
      if (narrow.isEmpty() || wide.isEmpty()) {
        continue;
      }
      double change =
          Math.max(settings.narrowestDb(), wide.getAsDouble())
              - Math.max(settings.narrowestDb(), narrow.getAsDouble());
      if (Math.abs(change) >= settings.leastDb()) {
        findings.add(
            FindingDraft.of(Technique.WIDTH_CHANGE, here.span())
                .bars(here.barRange())
                .sure(
                    Certainty.beyond(Math.abs(change), settings.leastDb() - 1, 2),
                    here.sureOfName(),
                    0.5 + here.section().probability() / 2)
                .strength(Math.abs(change) / 12)
                .group(here.letter() + (change > 0 ? "+" : "-"))
                .says(change > 0 ? "wider" : "narrower", here.words(), Math.abs(change))
                .hear(sections.get(i - 1).span(), "before")
                .hear("after")
                .atLeast("change", Math.abs(change), settings.leastDb(), "dB")
                .make());
      }
    }
    findings.addAll(inside(reading));
    return findings;
  }

  /** Where the width steps within what the form takes for one section. */
  private List<Finding> inside(Reading reading) {
    BarSteps steps = BarSteps.of(reading);
    List<Double> loudness = reading.get(Facet.DYNAMICS).barLufs();
    List<Double> widths = new ArrayList<>();
    List<BarWidth> bars = reading.get(Facet.SPACE).bars();
    for (int bar = 0; bar < Math.min(bars.size(), loudness.size()); bar++) {
      boolean silent = loudness.get(bar) <= settings.quietestLufs();
      widths.add(
          silent
              ? settings.narrowestDb()
              : Math.max(settings.narrowestDb(), bars.get(bar).sideToMidDb()));
    }
    List<Finding> findings = new ArrayList<>();
    for (BarSteps.Step step : steps.ofLevels(widths, settings.leastDb())) {
      if (!steps.isBoundary(step.index())) {
        findings.add(
            FindingDraft.of(Technique.WIDTH_CHANGE, steps.span(step.index()))
                .bars(Optional.of(steps.range(step.index())))
                .sure(Certainty.beyond(Math.abs(step.change()), settings.leastDb() - 1, 2))
                .strength(Math.abs(step.change()) / 12)
                .group(step.change() > 0 ? "inside+" : "inside-")
                .says(
                    step.change() > 0 ? "wider" : "narrower",
                    steps.words(step.index()),
                    Math.abs(step.change()))
                .hear(steps.span(step.index() - steps.width()), "before")
                .hear("after")
                .atLeast("change", Math.abs(step.change()), settings.leastDb(), "dB")
                .make());
      }
    }
    return findings;
  }

  private boolean audible(SectionSound sound) {
    return sound.lufs().orElse(-120) > settings.quietestLufs();
  }
}
