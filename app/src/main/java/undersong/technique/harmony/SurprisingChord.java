package undersong.technique.harmony;

import java.util.ArrayList;
import java.util.List;
import undersong.expectation.ChordSurprise;
import undersong.expectation.KeyedChord;
import undersong.reading.Candidate;
import undersong.reading.Facet;
import undersong.technique.Certainty;
import undersong.technique.ChordStep;
import undersong.technique.Finding;
import undersong.technique.FindingDraft;
import undersong.technique.Technique;
import undersong.technique.harmony.AgainstExpectation.Surprises;

/**
 * A chord that is hard to see coming, whatever its likely candidates: among the most surprising of
 * its song, and surprising by any measure. The first chord of a new key is not meant.
 */
final class SurprisingChord {
  private final Settings settings;

  SurprisingChord(Settings settings) {
    this.settings = settings;
  }

  /**
   * @param topShare of the song's chords, at least one, that may surprise
   * @param leastBits of degree and third
   * @param widthBits how sharp that limit is
   * @param leastBitsOfAny that every likely candidate must have too
   * @param leastBeats for which the chord lasts
   * @param chordsBefore that a listener needs to expect anything
   */
  record Settings(
      double topShare,
      double leastBits,
      double widthBits,
      double leastBitsOfAny,
      double leastBeats,
      int chordsBefore) {
    static final Settings DEFAULTS = new Settings(0.02, 9, 1.5, 5, 0.9, 6);
  }

  List<Finding> find(Surprises song) {
    double[] ranked = song.inOrder().stream().mapToDouble(s -> -s.harmonyBits()).sorted().toArray();
    if (ranked.length <= settings.chordsBefore()) {
      return List.of();
    }
    int may = (int) Math.max(1, settings.topShare() * ranked.length);
    double least = Math.max(-ranked[may - 1], settings.leastBits() - settings.widthBits());
    List<Finding> findings = new ArrayList<>();
    for (int i = settings.chordsBefore(); i < song.path().size(); i++) {
      ChordStep step = song.path().get(i);
      boolean couldSurprise =
          song.sameKeyAsBefore(i)
              && !step.chord().quality().hasNoThird()
              && song.pulse().beats(step.span()) >= settings.leastBeats();
      if (couldSurprise) {
        song.at(step)
            .filter(s -> s.harmonyBits() >= least)
            .filter(s -> s.leastHarmonyBits() >= settings.leastBitsOfAny())
            .ifPresent(s -> findings.add(finding(song, step, s)));
      }
    }
    return findings;
  }

  private Finding finding(Surprises song, ChordStep step, ChordSurprise surprise) {
    Candidate<KeyedChord> instead = surprise.expected().get(0);
    double bits = surprise.harmonyBits();
    return FindingDraft.of(Technique.SURPRISING_CHORD, step.span())
        .bars(song.pulse().bars(step.span()))
        .sure(
            Certainty.beyond(bits, settings.leastBits(), settings.widthBits()),
            step.sureOfTriad(),
            step.keyProbability())
        .strength(bits / 16)
        .group(step.numeralText())
        .says("summary", step.chordText(), step.numeralText(), Math.round(Math.pow(2, bits)))
        .hear(
            "hear", AgainstExpectation.numeral(instead.value(), step.key()), instead.probability())
        .atLeast("bits", bits, settings.leastBits(), "bits")
        .read(Facet.HARMONY, step.span(), step.numeralText())
        .make();
  }
}
