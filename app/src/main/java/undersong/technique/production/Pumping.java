package undersong.technique.production;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import undersong.reading.Ducking;
import undersong.reading.Facet;
import undersong.reading.Reading;
import undersong.technique.Certainty;
import undersong.technique.Finding;
import undersong.technique.FindingDraft;
import undersong.technique.Pulse;
import undersong.technique.Technique;
import undersong.technique.TechniqueFinder;

/** Everything else gives way to the kick, over many bars. */
final class Pumping implements TechniqueFinder {
  private final Settings settings;

  Pumping(Settings settings) {
    this.settings = settings;
  }

  /**
   * @param leastDb of the dip
   * @param leastBars that it goes on; a bar less than a section of eight may be heard
   */
  record Settings(double leastDb, double leastBars) {
    static final Settings DEFAULTS = new Settings(3, 7);
  }

  @Override
  public Set<Technique> techniques() {
    return Set.of(Technique.DUCKING);
  }

  @Override
  public Set<Facet<?>> reads() {
    return Set.of(Facet.BEATS, Facet.METER, Facet.TEXTURE);
  }

  @Override
  public List<Finding> find(Reading reading) {
    Pulse pulse = Pulse.of(reading);
    List<Finding> findings = new ArrayList<>();
    for (Ducking ducking : reading.get(Facet.TEXTURE).ducking()) {
      double bars = pulse.isThere() ? pulse.lengthBars(ducking.span()) : 0;
      if (ducking.depthDb() >= settings.leastDb() && bars >= settings.leastBars()) {
        findings.add(
            FindingDraft.of(Technique.DUCKING, ducking.span())
                .bars(pulse.bars(ducking.span()))
                .sure(
                    Math.sqrt(ducking.probability()),
                    Certainty.beyond(ducking.depthDb(), settings.leastDb() - 0.5, 1.5))
                .strength(ducking.depthDb() / 10)
                .says("summary", ducking.depthDb(), 1000 * ducking.recoverySeconds())
                .hear("hear")
                .atLeast("depth", ducking.depthDb(), settings.leastDb(), "dB")
                .atLeast("bars", bars, settings.leastBars(), "bars")
                .make());
      }
    }
    return findings;
  }
}
