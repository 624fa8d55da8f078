package undersong.bench.plant;

import undersong.estimate.Estimator;
import undersong.reading.Derived;
import undersong.reading.Echoes;
import undersong.reading.Facet;
import undersong.reading.FacetValue;
import undersong.reading.Reading;
import undersong.reading.Space;
import undersong.reading.Texture;
import undersong.render.DemoSong;
import undersong.study.Estimators;

/**
 * Estimators that know the score: what is written is told, what follows from it is derived as ever
 * (harmony, repeats, motifs), and what no score says is measured (levels, widths, brightness).
 */
final class TrueEstimators {
  private TrueEstimators() {}

  static Estimators of(DemoSong song) {
    Reading truth = song.truth().reading();
    StagedTruth staged = new StagedTruth(song);
    Estimators standard = Estimators.standard();
    Estimators told = standard;
    for (Facet<?> facet : Facet.IN_ORDER) {
      told = truth.find(facet).isPresent() ? told(told, facet, truth) : told;
    }
    Estimator<Space> space = standard.estimator(Facet.SPACE);
    Estimator<Texture> texture = standard.estimator(Facet.TEXTURE);
    Estimator<Echoes> echoes = standard.estimator(Facet.ECHOES);
    return told.with(
            Facet.LINES,
            (features, earlier, said) -> Derived.of(staged.lines(truth.get(Facet.LINES))))
        .with(
            Facet.SPACE,
            (features, earlier, said) -> {
              Space heard = space.estimate(features, earlier, said).value();
              return Derived.of(new Space(heard.bars(), staged.places(), heard.foldDownLossDb()));
            })
        .with(
            Facet.TEXTURE,
            (features, earlier, said) ->
                Derived.of(
                    new Texture(
                        staged.layers(),
                        texture.estimate(features, earlier, said).value().bars(),
                        staged.gestures(),
                        staged.ducking())))
        .with(
            Facet.ECHOES,
            (features, earlier, said) ->
                Derived.of(
                    new Echoes(
                        staged.echoes(),
                        echoes.estimate(features, earlier, said).value().reverbs())))
        .version("true " + song.id());
  }

  private static <V extends FacetValue> Estimators told(
      Estimators estimators, Facet<V> facet, Reading truth) {
    V value = truth.get(facet);
    return estimators.with(facet, (features, earlier, said) -> Derived.of(value));
  }
}
