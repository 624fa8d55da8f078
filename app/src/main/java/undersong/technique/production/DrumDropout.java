package undersong.technique.production;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Set;
import undersong.reading.Facet;
import undersong.reading.Layer;
import undersong.reading.LayerKind;
import undersong.reading.Reading;
import undersong.reading.Texture;
import undersong.technique.Certainty;
import undersong.technique.Finding;
import undersong.technique.FindingDraft;
import undersong.technique.Pulse;
import undersong.technique.Technique;
import undersong.technique.TechniqueFinder;
import undersong.time.Span;

/** All drums leave while something else goes on, and come back. */
final class DrumDropout implements TechniqueFinder {
  private final Settings settings;

  DrumDropout(Settings settings) {
    this.settings = settings;
  }

  /**
   * @param leastBars without drums
   * @param mostBars without drums: longer is another arrangement, not a gap
   * @param goesOn share of the gap in which something else sounds
   */
  record Settings(double leastBars, double mostBars, double goesOn) {
    static final Settings DEFAULTS = new Settings(1, 16, 0.5);
  }

  @Override
  public Set<Technique> techniques() {
    return Set.of(Technique.DRUM_DROPOUT);
  }

  @Override
  public Set<Facet<?>> reads() {
    return Set.of(Facet.BEATS, Facet.METER, Facet.TEXTURE);
  }

  @Override
  public List<Finding> find(Reading reading) {
    Pulse pulse = Pulse.of(reading);
    if (!pulse.isThere()) {
      return List.of();
    }
    Texture texture = reading.get(Facet.TEXTURE);
    List<Layer> drums =
        texture.layers().stream()
            .filter(layer -> layer.kind().drum())
            .sorted(Comparator.comparingDouble(layer -> layer.span().startSeconds()))
            .toList();
    List<Finding> findings = new ArrayList<>();
    double end = -1;
    double sure = 1;
    for (Layer layer : drums) {
      if (end >= 0 && layer.span().startSeconds() > end) {
        Span gap = new Span(end, layer.span().startSeconds());
        double bars = pulse.usualBars(gap);
        double other = others(texture, gap);
        if (bars >= settings.leastBars()
            && bars <= settings.mostBars() + 1
            && other >= settings.goesOn()) {
          findings.add(finding(gap, bars, other, Math.min(sure, layer.probability()), pulse));
        }
      }
      if (layer.span().endSeconds() > end) {
        end = layer.span().endSeconds();
        sure = layer.probability();
      }
    }
    return findings;
  }

  private static double others(Texture texture, Span gap) {
    return texture.layers().stream()
        .filter(layer -> !layer.kind().drum() && layer.kind() != LayerKind.SUB_BASS)
        .mapToDouble(layer -> layer.span().overlapSeconds(gap) / gap.lengthSeconds())
        .max()
        .orElse(0);
  }

  private Finding finding(Span gap, double bars, double other, double sure, Pulse pulse) {
    return FindingDraft.of(Technique.DRUM_DROPOUT, gap)
        .bars(pulse.bars(gap))
        .sure(sure, Certainty.beyond(bars, settings.leastBars(), 0.5))
        .strength(0.3 + bars / 16)
        .says("summary", bars)
        .hear("hear")
        .atLeast("bars", bars, settings.leastBars(), "bars")
        .atLeast("others", 100 * other, 100 * settings.goesOn(), "%")
        .make();
  }
}
