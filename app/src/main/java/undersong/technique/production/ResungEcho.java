package undersong.technique.production;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import undersong.reading.Echo;
import undersong.reading.Facet;
import undersong.reading.Reading;
import undersong.technique.Finding;
import undersong.technique.FindingDraft;
import undersong.technique.Pulse;
import undersong.technique.Technique;
import undersong.technique.TechniqueFinder;

/** A line is answered by a new performance of itself. */
final class ResungEcho implements TechniqueFinder {
  private final Settings settings;

  ResungEcho(Settings settings) {
    this.settings = settings;
  }

  /**
   * @param leastLagWanderSeconds a delay's lag wanders less
   */
  record Settings(double leastLagWanderSeconds) {
    static final Settings DEFAULTS = new Settings(0.015);
  }

  @Override
  public Set<Technique> techniques() {
    return Set.of(Technique.RESUNG_ECHO);
  }

  @Override
  public Set<Facet<?>> reads() {
    return Set.of(Facet.BEATS, Facet.METER, Facet.ECHOES);
  }

  @Override
  public List<Finding> find(Reading reading) {
    Pulse pulse = Pulse.of(reading);
    List<Finding> findings = new ArrayList<>();
    for (Echo echo : reading.get(Facet.ECHOES).echoes()) {
      if (echo.kind() == Echo.Kind.RESUNG) {
        findings.add(
            FindingDraft.of(Technique.RESUNG_ECHO, echo.span())
                .bars(pulse.bars(echo.span()))
                .sure(echo.probability())
                .strength(0.6)
                .says("summary", echo.lagSeconds())
                .hear("hear")
                .atLeast(
                    "lag-wander",
                    1000 * echo.lagWanderSeconds(),
                    1000 * settings.leastLagWanderSeconds(),
                    "ms")
                .make());
      }
    }
    return findings;
  }
}
