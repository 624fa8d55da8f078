package undersong.technique.production;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import undersong.reading.Facet;
import undersong.reading.Gesture;
import undersong.reading.Reading;
import undersong.technique.Certainty;
import undersong.technique.Finding;
import undersong.technique.FindingDraft;
import undersong.technique.Pulse;
import undersong.technique.Technique;
import undersong.technique.TechniqueFinder;

/** Filters that open or close, risers and swells: movements of the sound that the texture holds. */
final class Gestures implements TechniqueFinder {
  private final Settings settings;

  Gestures(Settings settings) {
    this.settings = settings;
  }

  /**
   * @param sweepOctaves that the roll-off moves at least
   * @param riseDb by which a riser climbs at least
   * @param swellDb by which a swell grows at least
   * @param steadiness rank correlation with time
   */
  record Settings(double sweepOctaves, double riseDb, double swellDb, double steadiness) {
    static final Settings DEFAULTS = new Settings(1, 6, 12, 0.8);
  }

  @Override
  public Set<Technique> techniques() {
    return Set.of(Technique.FILTER_SWEEP, Technique.RISER, Technique.SWELL);
  }

  @Override
  public Set<Facet<?>> reads() {
    return Set.of(Facet.BEATS, Facet.METER, Facet.TEXTURE);
  }

  @Override
  public List<Finding> find(Reading reading) {
    Pulse pulse = Pulse.of(reading);
    List<Finding> findings = new ArrayList<>();
    for (Gesture gesture : reading.get(Facet.TEXTURE).gestures()) {
      switch (gesture.kind()) {
        case OPENING, CLOSING -> sweep(gesture, pulse, findings);
        case RISER -> rise(Technique.RISER, settings.riseDb(), gesture, pulse, findings);
        case SWELL -> rise(Technique.SWELL, settings.swellDb(), gesture, pulse, findings);
        case STOP -> {} // a matter of rhythm
      }
    }
    return findings;
  }

  private void sweep(Gesture gesture, Pulse pulse, List<Finding> findings) {
    double octaves = Math.abs(gesture.octaves());
    if (octaves < settings.sweepOctaves()) {
      return;
    }
    findings.add(
        FindingDraft.of(Technique.FILTER_SWEEP, gesture.span())
            .bars(pulse.bars(gesture.span()))
            .sure(
                gesture.probability(), Certainty.beyond(octaves, settings.sweepOctaves() - 0.5, 1))
            .strength(octaves / 5)
            .says(gesture.kind() == Gesture.Kind.OPENING ? "opens" : "closes", octaves)
            .hear("hear")
            .atLeast("octaves", octaves, settings.sweepOctaves(), "")
            .atLeast("steadiness", Math.abs(gesture.steadiness()), settings.steadiness(), "")
            .make());
  }

  private void rise(
      Technique technique, double limitDb, Gesture gesture, Pulse pulse, List<Finding> findings) {
    if (gesture.levelChangeDb() < limitDb) {
      return;
    }
    findings.add(
        FindingDraft.of(technique, gesture.span())
            .bars(pulse.bars(gesture.span()))
            .sure(gesture.probability(), Certainty.beyond(gesture.levelChangeDb(), limitDb - 3, 4))
            .strength(gesture.levelChangeDb() / 30)
            .says("summary", gesture.levelChangeDb())
            .hear("hear")
            .atLeast("rise", gesture.levelChangeDb(), limitDb, "dB")
            .atLeast("steadiness", gesture.steadiness(), settings.steadiness(), "")
            .make());
  }
}
