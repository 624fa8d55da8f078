package undersong.technique.rhythm;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import undersong.reading.Facet;
import undersong.reading.Reading;
import undersong.technique.Certainty;
import undersong.technique.Finding;
import undersong.technique.FindingDraft;
import undersong.technique.Pulse;
import undersong.technique.Technique;
import undersong.technique.TechniqueFinder;
import undersong.time.BeatGrid;
import undersong.time.Span;

/** The beat becomes faster or slower within two bars and stays so. */
final class TempoChange implements TechniqueFinder {
  private final Settings settings;

  TempoChange(Settings settings) {
    this.settings = settings;
  }

  /**
   * @param leastShare by which the beat period changes
   * @param mostShare beyond which it is rather another level of the same pulse
   * @param staysBeats before and after for which each tempo must hold
   */
  record Settings(double leastShare, double mostShare, int staysBeats) {
    static final Settings DEFAULTS = new Settings(0.04, 0.4, 16);
  }

  @Override
  public Set<Technique> techniques() {
    return Set.of(Technique.TEMPO_CHANGE);
  }

  @Override
  public Set<Facet<?>> reads() {
    return Set.of(Facet.BEATS, Facet.METER);
  }

  @Override
  public List<Finding> find(Reading reading) {
    Pulse pulse = Pulse.of(reading);
    BeatGrid grid = pulse.grid();
    int stays = settings.staysBeats();
    if (!pulse.isThere() || grid.size() < 2 * stays + 2) {
      return List.of();
    }
    List<Finding> findings = new ArrayList<>();
    int i = stays;
    while (i + stays < grid.size()) {
      double change = change(grid, i);
      if (!counts(change)) {
        i++;
        continue;
      }
      int sharpest = i;
      for (int k = i; k < Math.min(i + stays, grid.size() - stays); k++) {
        sharpest = Math.abs(change(grid, k)) > Math.abs(change(grid, sharpest)) ? k : sharpest;
      }
      double sharp = change(grid, sharpest);
      if (counts(sharp) && stays(grid, sharpest)) {
        findings.add(finding(grid, sharpest, sharp, pulse));
      }
      i = sharpest + stays;
    }
    return findings;
  }

  private boolean counts(double change) {
    return Math.abs(change) >= settings.leastShare() && Math.abs(change) <= settings.mostShare();
  }

  /** How much longer the beats after a beat are than those before it, as a share. */
  private double change(BeatGrid grid, int beat) {
    int stays = settings.staysBeats();
    return period(grid, beat, beat + stays) / period(grid, beat - stays, beat) - 1;
  }

  /** Both sides even: their halves differ by less than half of the change. */
  private boolean stays(BeatGrid grid, int beat) {
    int half = settings.staysBeats() / 2;
    double before =
        period(grid, beat - half, beat) / period(grid, beat - 2 * half, beat - half) - 1;
    double after = period(grid, beat + half, beat + 2 * half) / period(grid, beat, beat + half) - 1;
    double change = Math.abs(change(grid, beat));
    return Math.abs(before) < change / 2 && Math.abs(after) < change / 2;
  }

  /** Mean period: the change of means is largest exactly where the tempo changes. */
  private static double period(BeatGrid grid, int from, int to) {
    return (grid.secondsAt(to) - grid.secondsAt(from)) / (to - from);
  }

  private Finding finding(BeatGrid grid, int beat, double change, Pulse pulse) {
    int stays = settings.staysBeats();
    double before = 60 / period(grid, beat - stays, beat);
    double after = 60 / period(grid, beat, beat + stays);
    Span span =
        new Span(
            grid.secondsAt(Math.max(0, beat - pulse.beatsPerBar())),
            grid.secondsAt(Math.min(grid.size() - 1, beat + pulse.beatsPerBar())));
    double percent = 100 * Math.abs(change);
    return FindingDraft.of(Technique.TEMPO_CHANGE, span)
        .bars(pulse.bars(span))
        .sure(
            pulse.beatsProbability(),
            Certainty.beyond(Math.abs(change), settings.leastShare() - 0.005, 0.01))
        .strength(0.6)
        .group(Integer.toString(beat))
        .says(change > 0 ? "summary.slower" : "summary.faster", before, after)
        .hear("hear")
        .atLeast("change", percent, 100 * settings.leastShare(), "%")
        .make();
  }
}
