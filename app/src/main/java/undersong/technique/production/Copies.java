package undersong.technique.production;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import undersong.reading.Echo;
import undersong.reading.Facet;
import undersong.reading.Reading;
import undersong.technique.Certainty;
import undersong.technique.Finding;
import undersong.technique.FindingDraft;
import undersong.technique.Pulse;
import undersong.technique.Technique;
import undersong.technique.TechniqueFinder;

/** True delays, delays on chosen words only, and lines played twice at once. */
final class Copies implements TechniqueFinder {
  private final Settings settings;

  Copies(Settings settings) {
    this.settings = settings;
  }

  /**
   * @param mostWanderMs of the lag of a delay
   * @param throwBars that a delay on one word lasts at most, copies included
   * @param apart distance of two takes between left and right
   */
  record Settings(double mostWanderMs, double throwBars, double apart) {
    static final Settings DEFAULTS = new Settings(12, 2, 0.6);
  }

  @Override
  public Set<Technique> techniques() {
    return Set.of(Technique.ECHO, Technique.DELAY_THROW, Technique.WIDE_DOUBLE);
  }

  @Override
  public Set<Facet<?>> reads() {
    return Set.of(Facet.BEATS, Facet.METER, Facet.ECHOES);
  }

  @Override
  public List<Finding> find(Reading reading) {
    Pulse pulse = Pulse.of(reading);
    List<Finding> findings = new ArrayList<>();
    if (!pulse.isThere()) {
      return findings;
    }
    for (Echo echo : reading.get(Facet.ECHOES).echoes()) {
      if (echo.kind() == Echo.Kind.DELAY) {
        delay(echo, pulse, findings);
      } else if (echo.kind() == Echo.Kind.DOUBLE) {
        doubled(echo, pulse, findings);
      }
    }
    return findings;
  }

  private void delay(Echo echo, Pulse pulse, List<Finding> findings) {
    double wanderMs = 1000 * echo.lagWanderSeconds();
    if (wanderMs > settings.mostWanderMs()) {
      return;
    }
    boolean thrown = pulse.lengthBars(echo.span()) <= settings.throwBars();
    double lagBeats =
        pulse.beats(echo.span().startSeconds(), echo.span().startSeconds() + echo.lagSeconds());
    FindingDraft draft =
        FindingDraft.of(thrown ? Technique.DELAY_THROW : Technique.ECHO, echo.span())
            .bars(pulse.bars(echo.span()))
            .sure(echo.probability())
            .strength(echo.repeats().size() / 5.0)
            .group(echo.noteValue().map(Object::toString).orElse("free"))
            .says("summary", 1000 * echo.lagSeconds(), lagBeats, echo.repeats().size())
            .hear("hear")
            .atMost("wander", wanderMs, settings.mostWanderMs(), "ms");
    if (thrown) {
      draft.atMost("length", pulse.lengthBars(echo.span()), settings.throwBars(), "bars");
    } else {
      draft.atLeast("decay", echo.decayDbPerRepeat(), 0, "dB");
    }
    findings.add(draft.make());
  }

  private void doubled(Echo echo, Pulse pulse, List<Finding> findings) {
    double apart =
        echo.repeats().isEmpty()
            ? 0
            : Math.abs(echo.repeats().get(0).placement() - echo.sourcePlacement());
    if (apart >= settings.apart()) {
      findings.add(
          FindingDraft.of(Technique.WIDE_DOUBLE, echo.span())
              .bars(pulse.bars(echo.span()))
              .sure(echo.probability(), Certainty.beyond(apart, settings.apart() - 0.1, 0.2))
              .strength(apart / 2)
              .says("summary", 1000 * echo.lagSeconds())
              .hear("hear")
              .atLeast("apart", apart, settings.apart(), "")
              .atLeast("lag", 1000 * echo.lagSeconds(), 5, "ms")
              .make());
    }
  }
}
