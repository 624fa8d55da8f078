package undersong.technique.form;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import undersong.reading.Bar;
import undersong.reading.Dynamics;
import undersong.reading.Facet;
import undersong.reading.Reading;
import undersong.technique.BarRange;
import undersong.technique.Certainty;
import undersong.technique.Finding;
import undersong.technique.FindingDraft;
import undersong.technique.SongSection;
import undersong.technique.Technique;
import undersong.technique.TechniqueFinder;
import undersong.time.Span;

/** The music grows louder or denser for two bars or more into a boundary. */
final class Build implements TechniqueFinder {
  private final Settings settings;

  Build(Settings settings) {
    this.settings = settings;
  }

  /**
   * @param leastRiseLu of the loudness of bars
   * @param leastDensity factor by which onsets become denser, where loudness does not rise so far
   * @param leastBars it takes
   * @param mostBars looked back
   * @param sagLu by which a bar may be softer than the one before
   */
  record Settings(
      double leastRiseLu, double leastDensity, int leastBars, int mostBars, double sagLu) {
    static final Settings DEFAULTS = new Settings(3, 1.8, 2, 8, 0.4);
  }

  @Override
  public Set<Technique> techniques() {
    return Set.of(Technique.BUILD);
  }

  @Override
  public Set<Facet<?>> reads() {
    return Set.of(Facet.METER, Facet.FORM, Facet.ROLES, Facet.DYNAMICS);
  }

  @Override
  public List<Finding> find(Reading reading) {
    List<Bar> bars = reading.get(Facet.METER).bars();
    Dynamics dynamics = reading.get(Facet.DYNAMICS);
    List<SongSection> sections = SongSection.of(reading);
    if (bars.isEmpty() || dynamics.barLufs().size() < bars.size()) {
      return List.of();
    }
    List<Finding> findings = new ArrayList<>();
    for (int s = 1; s < sections.size(); s++) {
      int boundary = sections.get(s).section().firstBar() - bars.get(0).number();
      if (boundary >= settings.leastBars() && boundary < bars.size()) {
        build(bars, dynamics, boundary, sections.get(s - 1), sections.get(s))
            .ifPresent(findings::add);
      }
    }
    return findings;
  }

  private Optional<Finding> build(
      List<Bar> bars, Dynamics dynamics, int boundary, SongSection before, SongSection after) {
    int start = boundary - 1;
    List<Double> lufs = dynamics.barLufs();
    List<Double> density = dynamics.onsetsPerBeat();
    int floor = Math.max(0, boundary - settings.mostBars());
    while (start > floor
        && lufs.get(start) >= lufs.get(start - 1) - settings.sagLu()
        && lufs.get(start - 1) > -60) {
      start--;
    }
    int length = boundary - start;
    double rise = lufs.get(boundary - 1) - lufs.get(start);
    double growth = (density.get(boundary - 1) + 0.25) / (Math.max(0, density.get(start)) + 0.25);
    boolean louder = rise >= settings.leastRiseLu();
    boolean denser = growth >= settings.leastDensity() && rise >= settings.leastRiseLu() / 3;
    // A roll may end louder than what it leads to, but it must lead up, not into a hole.
    boolean arrives = lufs.get(boundary) >= lufs.get(start) + Math.max(0, rise) / 2;
    if (length < settings.leastBars() || !(louder || denser) || !arrives) {
      return Optional.empty();
    }
    Span span =
        new Span(bars.get(start).span().startSeconds(), bars.get(boundary - 1).span().endSeconds());
    double sure =
        louder
            ? Certainty.beyond(rise, settings.leastRiseLu() - 0.5, 1)
            : Certainty.beyond(growth, settings.leastDensity() - 0.1, 0.4);
    return Optional.of(
        FindingDraft.of(Technique.BUILD, span)
            .bars(
                Optional.of(
                    new BarRange(bars.get(start).number(), bars.get(boundary - 1).number())))
            .sure(sure, 0.5 + 0.5 * after.section().probability())
            .strength(rise / 10)
            .group(before.letter() + after.letter())
            .says("summary", length, rise, growth, after.words())
            .hear("hear", after.words())
            .atLeast("rise", rise, settings.leastRiseLu(), "LU")
            .atLeast("growth", growth, settings.leastDensity(), "times")
            .make());
  }
}
