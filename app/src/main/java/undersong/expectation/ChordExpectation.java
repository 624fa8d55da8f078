package undersong.expectation;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import undersong.reading.Candidate;
import undersong.reading.Reading;
import undersong.theory.ChordSymbol;
import undersong.theory.ChordSymbol.Chord;

/**
 * Tells how surprising every chord of a song is to someone who knows other songs and has heard this
 * one so far.
 *
 * <p><b>In:</b> BEATS, METER, CHORDS and KEYS of a reading. <b>Out:</b> one surprise per chord,
 * equal neighbors joined, in order; the first chord of a new key is judged by the key just left.
 * <b>Silence:</b> no surprises. <b>Cost:</b> O(chords * longest context); a few milliseconds a
 * song.
 *
 * <p>Source: M. Pearce, "The Construction and Evaluation of Statistical Models of Melodic Structure
 * in Music Perception and Composition", thesis, City University London, 2005 (long- and short-term
 * models weighted by how sure each is; from memory).
 */
public final class ChordExpectation {
  private static final int SHOWN = 3;

  /** Runners-up below this are not asked whether they would surprise too. */
  private static final double LIKELY = 0.1;

  private final ExpectationCounts before;
  private final ExpectationSettings settings;

  /**
   * @param before songs heard before
   */
  public ChordExpectation(ExpectationCounts before, ExpectationSettings settings) {
    this.before = before;
    this.settings = settings;
  }

  public List<ChordSurprise> surprises(Reading reading) {
    List<HeardChord> heard = HeardChord.of(reading);
    Map<Viewpoint, ContextTree> song = ExpectationCounts.emptyTrees();
    List<ChordSurprise> surprises = new ArrayList<>();
    for (int i = 0; i < heard.size(); i++) {
      List<HeardChord> past = heard.subList(0, i);
      surprises.add(surprise(heard.get(i), past, song));
      listen(heard.get(i), past, song);
    }
    return surprises;
  }

  private ChordSurprise surprise(
      HeardChord heard, List<HeardChord> past, Map<Viewpoint, ContextTree> song) {
    double bits = 0;
    double harmonyBits = 0;
    double weight = 0;
    double least = Double.POSITIVE_INFINITY;
    for (Candidate<ChordSymbol> candidate : candidates(heard)) {
      if (candidate.value() instanceof Chord symbol) {
        KeyedChord chord = heard.judged(symbol);
        double harmony = bits(Viewpoint.HARMONY, chord, heard, past, song);
        double family = bits(Viewpoint.FAMILY, chord, heard, past, song);
        double bass = bits(Viewpoint.BASS, chord, heard, past, song);
        boolean likely = weight == 0 || candidate.probability() >= LIKELY;
        least = likely ? Math.min(least, harmony) : least;
        bits += candidate.probability() * (harmony + family + bass);
        harmonyBits += candidate.probability() * harmony;
        weight += candidate.probability();
      }
    }
    return new ChordSurprise(
        heard.source().span(),
        heard.judged((Chord) heard.source().symbol()),
        bits / weight,
        harmonyBits / weight,
        least,
        bits(Viewpoint.ARRIVAL, heard.chord(), heard, past, song),
        expected(heard, past, song));
  }

  private static List<Candidate<ChordSymbol>> candidates(HeardChord heard) {
    List<Candidate<ChordSymbol>> all = new ArrayList<>();
    double own = Math.max(1e-6, heard.source().probability());
    all.add(new Candidate<>(heard.source().symbol(), own));
    all.addAll(heard.source().runnersUp());
    return all;
  }

  private void listen(HeardChord heard, List<HeardChord> past, Map<Viewpoint, ContextTree> song) {
    song.forEach(
        (viewpoint, tree) ->
            tree.add(
                viewpoint.symbol(heard.chord(), heard),
                viewpoint.contextInSong(heard.chord(), heard, past, settings.knowingWhen()),
                settings.longestInSong()));
  }

  private double bits(
      Viewpoint viewpoint,
      KeyedChord chord,
      HeardChord heard,
      List<HeardChord> past,
      Map<Viewpoint, ContextTree> song) {
    double[] odds = predict(viewpoint, chord, heard, past, song);
    return Odds.bits(odds[viewpoint.symbol(chord, heard)]);
  }

  private double[] predict(
      Viewpoint viewpoint,
      KeyedChord chord,
      HeardChord heard,
      List<HeardChord> past,
      Map<Viewpoint, ContextTree> song) {
    double[] base = viewpoint.base(chord);
    int[] context = viewpoint.context(chord, heard, past);
    double[] known = before.tree(viewpoint).predict(context, base, settings.novelty());
    if (!settings.inSong()) {
      return known;
    }
    int[] here = viewpoint.contextInSong(chord, heard, past, settings.knowingWhen());
    double[] learned = song.get(viewpoint).predict(here, base, settings.noveltyInSong());
    double[] both = Odds.together(known, learned, settings.certaintyPower());
    return Odds.blend(both, known, settings.leaving());
  }

  private List<Candidate<KeyedChord>> expected(
      HeardChord heard, List<HeardChord> past, Map<Viewpoint, ContextTree> song) {
    double[] odds = predict(Viewpoint.HARMONY, heard.chord(), heard, past, song);
    return IntStream.range(0, odds.length)
        .boxed()
        .sorted(Comparator.comparingDouble((Integer s) -> -odds[s]))
        .limit(SHOWN)
        .map(s -> new Candidate<>(Viewpoint.plainest(s), Math.min(1, odds[s])))
        .toList();
  }
}
