package undersong.technique.production;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import undersong.reading.Facet;
import undersong.reading.Layer;
import undersong.reading.LayerKind;
import undersong.reading.Reading;
import undersong.technique.Certainty;
import undersong.technique.Finding;
import undersong.technique.FindingDraft;
import undersong.technique.Pulse;
import undersong.technique.Technique;
import undersong.technique.TechniqueFinder;

/** Short plucked notes join what sounds already. */
final class PluckedLayer implements TechniqueFinder {
  private final Settings settings;

  PluckedLayer(Settings settings) {
    this.settings = settings;
  }

  /**
   * @param mostDecaySeconds time to fall by 60 dB; measured through a window of 93 ms, which makes
   *     short decays look longer
   * @param leastBars that the layer goes on
   * @param afterBars that the song has gone on before: what is there from the start does not join
   */
  record Settings(double mostDecaySeconds, double leastBars, double afterBars) {
    static final Settings DEFAULTS = new Settings(0.4, 2, 2);
  }

  @Override
  public Set<Technique> techniques() {
    return Set.of(Technique.PLUCKED_LAYER);
  }

  @Override
  public Set<Facet<?>> reads() {
    return Set.of(Facet.BEATS, Facet.METER, Facet.TEXTURE);
  }

  @Override
  public List<Finding> find(Reading reading) {
    Pulse pulse = Pulse.of(reading);
    List<Finding> findings = new ArrayList<>();
    if (!pulse.isThere()) {
      return findings;
    }
    double start = pulse.meter().bars().get(0).span().startSeconds();
    for (Layer layer : reading.get(Facet.TEXTURE).of(LayerKind.PLUCKED)) {
      double decay = layer.decaySeconds().orElse(99);
      double bars = pulse.lengthBars(layer.span());
      double after = pulse.beats(start, layer.span().startSeconds()) / pulse.beatsPerBar();
      if (decay <= settings.mostDecaySeconds()
          && bars >= settings.leastBars()
          && after >= settings.afterBars()) {
        findings.add(
            FindingDraft.of(Technique.PLUCKED_LAYER, layer.span())
                .bars(pulse.bars(layer.span()))
                .sure(
                    layer.probability(),
                    Certainty.beyond(settings.mostDecaySeconds() - decay, -0.05, 0.1))
                .says("summary", 1000 * decay)
                .hear("hear")
                .atMost("decay", 1000 * decay, 1000 * settings.mostDecaySeconds(), "ms")
                .make());
      }
    }
    return findings;
  }
}
