package undersong.technique.harmony;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import undersong.expectation.ChordExpectation;
import undersong.expectation.ChordSurprise;
import undersong.expectation.KeyedChord;
import undersong.reading.Facet;
import undersong.reading.Reading;
import undersong.technique.ChordPath;
import undersong.technique.ChordStep;
import undersong.technique.Finding;
import undersong.technique.Pulse;
import undersong.technique.SongSection;
import undersong.technique.Technique;
import undersong.technique.TechniqueFinder;
import undersong.theory.ChordQuality;
import undersong.theory.ChordSymbol;
import undersong.theory.Key;
import undersong.theory.Numerals;
import undersong.theory.Spelling;

/** What goes against expectation: chords hard to see coming, and statements that are broken. */
final class AgainstExpectation implements TechniqueFinder {
  private final ChordExpectation expectation;

  AgainstExpectation(ChordExpectation expectation) {
    this.expectation = expectation;
  }

  @Override
  public Set<Technique> techniques() {
    return Set.of(Technique.SURPRISING_CHORD, Technique.BROKEN_LOOP);
  }

  @Override
  public Set<Facet<?>> reads() {
    return HarmonyFinders.with(Facet.KEYS);
  }

  @Override
  public List<Finding> find(Reading reading) {
    Pulse pulse = Pulse.of(reading);
    if (!pulse.isThere()) {
      return List.of();
    }
    Surprises surprises =
        new Surprises(
            ChordPath.of(reading), SongSection.of(reading), pulse, expectation.surprises(reading));
    List<Finding> findings =
        new ArrayList<>(new SurprisingChord(SurprisingChord.Settings.DEFAULTS).find(surprises));
    findings.addAll(new BrokenLoop(BrokenLoop.Settings.DEFAULTS).find(surprises));
    return findings;
  }

  /** The chords of a song with what is known of their surprise. */
  static final class Surprises {
    private final ChordPath path;
    private final List<SongSection> sections;
    private final Pulse pulse;
    private final List<ChordSurprise> inOrder;
    private final Map<Double, ChordSurprise> byStart = new HashMap<>();

    Surprises(
        ChordPath path, List<SongSection> sections, Pulse pulse, List<ChordSurprise> inOrder) {
      this.path = path;
      this.sections = sections;
      this.pulse = pulse;
      this.inOrder = inOrder;
      inOrder.forEach(surprise -> byStart.put(surprise.span().startSeconds(), surprise));
    }

    ChordPath path() {
      return path;
    }

    List<SongSection> sections() {
      return sections;
    }

    Pulse pulse() {
      return pulse;
    }

    List<ChordSurprise> inOrder() {
      return inOrder;
    }

    /** Empty where a chord only goes on. */
    Optional<ChordSurprise> at(ChordStep step) {
      return Optional.ofNullable(byStart.get(step.span().startSeconds()));
    }

    boolean sameKeyAsBefore(int i) {
      return i > 0 && path.get(i - 1).key().tonic().equals(path.get(i).key().tonic());
    }
  }

  /** What was expected instead, as the key names it. */
  static String numeral(KeyedChord expected, Key key) {
    ChordQuality quality =
        switch (expected.family().third()) {
          case MAJOR -> ChordQuality.MAJOR;
          case MINOR -> ChordQuality.MINOR;
          case NONE -> ChordQuality.FIFTH;
        };
    int root = key.tonic().pitchClass() + expected.degreeSemitones();
    return Numerals.print(Numerals.of(ChordSymbol.of(Spelling.name(root, key), quality), key), key);
  }
}
