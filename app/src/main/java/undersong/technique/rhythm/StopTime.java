package undersong.technique.rhythm;

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
import undersong.technique.SongSection;
import undersong.technique.Technique;
import undersong.technique.TechniqueFinder;

/** All instruments stop for half a beat to four beats and come back. */
final class StopTime implements TechniqueFinder {
  private final Settings settings;

  StopTime(Settings settings) {
    this.settings = settings;
  }

  /**
   * @param leastFallDb of the whole level
   * @param leastBeats of the stop
   * @param mostBeats of the stop
   */
  record Settings(double leastFallDb, double leastBeats, double mostBeats) {
    static final Settings DEFAULTS = new Settings(12, 0.5, 4);
  }

  @Override
  public Set<Technique> techniques() {
    return Set.of(Technique.STOP_TIME);
  }

  @Override
  public Set<Facet<?>> reads() {
    return Set.of(Facet.BEATS, Facet.METER, Facet.TEXTURE, Facet.FORM, Facet.ROLES);
  }

  @Override
  public List<Finding> find(Reading reading) {
    Pulse pulse = Pulse.of(reading);
    if (!pulse.isThere()) {
      return List.of();
    }
    List<SongSection> sections = SongSection.of(reading);
    List<Finding> findings = new ArrayList<>();
    for (Gesture gesture : reading.get(Facet.TEXTURE).gestures()) {
      double beats = pulse.beats(gesture.span());
      boolean stops =
          gesture.kind() == Gesture.Kind.STOP
              && -gesture.levelChangeDb() >= settings.leastFallDb()
              && beats >= settings.leastBeats() - 0.15
              && beats <= settings.mostBeats() + 0.5;
      if (stops) {
        findings.add(finding(gesture, beats, sections, pulse));
      }
    }
    return findings;
  }

  private Finding finding(Gesture gesture, double beats, List<SongSection> sections, Pulse pulse) {
    double fallDb = -gesture.levelChangeDb();
    return FindingDraft.of(Technique.STOP_TIME, gesture.span())
        .bars(pulse.bars(gesture.span()))
        .sure(gesture.probability(), Certainty.beyond(fallDb, settings.leastFallDb() - 1, 2))
        .strength(0.3 + beats / 8)
        .group(SongSection.at(sections, gesture.span()).map(SongSection::letter).orElse("-"))
        .says("summary", beats, fallDb)
        .hear("hear")
        .atLeast("fall", fallDb, settings.leastFallDb(), "dB")
        .atLeast("beats", beats, settings.leastBeats(), "beats")
        .make();
  }
}
