package undersong.reading;

import java.util.List;
import java.util.Optional;

/**
 * What the sound is made of: which layers enter and leave, how dense, bright and noisy each bar is,
 * and what rises, opens, stops or ducks.
 *
 * @param layers stretches in which a layer goes on sounding, by start; those of one kind do not
 *     overlap
 * @param bars one entry per bar, in the order of the bars
 * @param gestures by start
 * @param ducking by start
 */
public record Texture(
    List<Layer> layers, List<BarTexture> bars, List<Gesture> gestures, List<Ducking> ducking)
    implements FacetValue {
  public static final Texture NONE = new Texture(List.of(), List.of(), List.of(), List.of());

  public Texture {
    layers = List.copyOf(layers);
    bars = List.copyOf(bars);
    gestures = List.copyOf(gestures);
    ducking = List.copyOf(ducking);
  }

  /** The stretches of one layer, in order. */
  public List<Layer> of(LayerKind kind) {
    return layers.stream().filter(layer -> layer.kind() == kind).toList();
  }

  /** The stretch of a layer that sounds at a time; empty where the layer is silent. */
  public Optional<Layer> layerAt(LayerKind kind, double seconds) {
    return layers.stream()
        .filter(layer -> layer.kind() == kind && layer.span().contains(seconds))
        .findFirst();
  }

  @Override
  public Object essence() {
    return List.of(
        layers.stream().map(Layer::essence).toList(),
        bars,
        gestures.stream().map(Gesture::essence).toList(),
        ducking.stream().map(Ducking::essence).toList());
  }
}
