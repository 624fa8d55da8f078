package undersong.technique.harmony;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import undersong.expectation.ChordSurprise;
import undersong.reading.Facet;
import undersong.technique.Certainty;
import undersong.technique.ChordPath;
import undersong.technique.ChordStep;
import undersong.technique.Finding;
import undersong.technique.FindingDraft;
import undersong.technique.SongSection;
import undersong.technique.Technique;
import undersong.technique.harmony.AgainstExpectation.Surprises;
import undersong.theory.Numerals;
import undersong.time.Span;

/**
 * A statement comes again, chord by chord and beat by beat, and then another chord comes than the
 * one that was stated. Other music is free to go elsewhere, and ends of sections are where ordinary
 * first and second endings differ: there more is asked, and of chords of the key anywhere. Two
 * chords that swing to and fro may be left at any time, and the stated root in another colour
 * breaks nothing.
 */
final class BrokenLoop {
  /** Within so many bars of its end a section may end otherwise. */
  private static final double ENDING_BARS = 2.1;

  private static final double SAME_SECONDS = 0.1;

  private final Settings settings;

  BrokenLoop(Settings settings) {
    this.settings = settings;
  }

  /**
   * @param leastChords that agree before the break
   * @param leastDifferent chords among them
   * @param leastBars that they last
   * @param evenBeats by which the lengths of agreeing chords may differ
   * @param leastBits of degree and third at the break
   * @param widthBits how sharp that limit is
   * @param moreInKey bits asked in addition of chords of the key
   * @param moreAtEnds bits asked in addition of these in a section's last two bars
   */
  record Settings(
      int leastChords,
      int leastDifferent,
      double leastBars,
      double evenBeats,
      double leastBits,
      double widthBits,
      double moreInKey,
      double moreAtEnds) {
    static final Settings DEFAULTS = new Settings(3, 3, 2, 0.3, 7, 1.5, 2, 1);
  }

  /** An earlier place whose chords before it agree with those before a later one. */
  private record Model(int place, int agreeing) {}

  List<Finding> find(Surprises song) {
    List<Finding> findings = new ArrayList<>();
    int earliest = 0;
    SongSection before = null;
    for (SongSection section : song.sections()) {
      List<Integer> within = song.path().within(section.span());
      if (!within.isEmpty() && !goesOn(before, section)) {
        earliest = within.get(0);
      }
      before = section;
      for (int i : within) {
        Optional<ChordSurprise> surprise = song.at(song.path().get(i));
        if (i >= earliest + settings.leastChords()
            && surprise.isPresent()
            && song.sameKeyAsBefore(i)) {
          model(song, section, i, earliest)
              .flatMap(m -> finding(song, section, i, m, surprise.get()))
              .ifPresent(findings::add);
        }
      }
    }
    return findings;
  }

  /** Copies that follow each other directly are one stretch in which a statement may come again. */
  private static boolean goesOn(SongSection before, SongSection section) {
    return before != null
        && before.letter().equals(section.letter())
        && section.span().startSeconds() - before.span().endSeconds() < SAME_SECONDS;
  }

  /**
   * The longest agreeing statement of the same music, unless one that agrees as well went on as
   * this does.
   */
  private Optional<Model> model(Surprises song, SongSection section, int i, int earliest) {
    ChordPath path = song.path();
    Model longest = null;
    for (int j = settings.leastChords(); j < i; j++) {
      String letter = HarmonyFinders.letter(song.sections(), path.get(j).span());
      if (!letter.equals(section.letter())) {
        continue;
      }
      int agreeing = agreeing(song, j, i, earliest);
      if (agreeing < settings.leastChords()) {
        continue;
      }
      if (sameRoot(path.get(j), path.get(i))) {
        return Optional.empty();
      }
      if (longest == null || agreeing >= longest.agreeing()) {
        longest = new Model(j, agreeing);
      }
    }
    return Optional.ofNullable(longest)
        .filter(m -> longEnough(song, i, m) && different(song, i, m) >= settings.leastDifferent());
  }

  private static boolean sameRoot(ChordStep one, ChordStep other) {
    return one.chord().root().pitchClass() == other.chord().root().pitchClass();
  }

  private static long different(Surprises song, int i, Model model) {
    return song.path().steps().subList(i - model.agreeing(), i).stream()
        .map(Loops::token)
        .distinct()
        .count();
  }

  private int agreeing(Surprises song, int j, int i, int earliest) {
    ChordPath path = song.path();
    int n = 0;
    while (j - n > 0 && i - n > earliest) {
      ChordStep here = path.get(i - n - 1);
      ChordStep there = path.get(j - n - 1);
      double difference = song.pulse().beats(here.span()) - song.pulse().beats(there.span());
      boolean same =
          Loops.token(here) == Loops.token(there)
              && Math.abs(difference) <= settings.evenBeats()
              && path.goesOn(i - n - 1)
              && path.goesOn(j - n - 1);
      if (!same) {
        break;
      }
      n++;
    }
    return n;
  }

  private boolean longEnough(Surprises song, int i, Model model) {
    Span agreeing = song.path().span(i - model.agreeing(), i - 1);
    return song.pulse().lengthBars(agreeing) >= settings.leastBars() - 0.1;
  }

  private Optional<Finding> finding(
      Surprises song, SongSection section, int i, Model model, ChordSurprise surprise) {
    ChordPath path = song.path();
    ChordStep step = path.get(i);
    ChordStep stated = path.get(model.place());
    boolean atTheEnd = barsLeft(song, section, step) <= ENDING_BARS;
    // An ordinary ending is made of chords of the key; a foreign one is a break there too.
    boolean ordinary = Numerals.isDiatonic(step.numeral(), step.key());
    double limit =
        settings.leastBits()
            + (ordinary ? settings.moreInKey() : 0)
            + (ordinary && atTheEnd ? settings.moreAtEnds() : 0);
    if (surprise.harmonyBits() < limit - settings.widthBits()) {
      return Optional.empty();
    }
    int shown = Math.min(model.agreeing(), 4);
    Span span = path.span(i - shown, i);
    return Optional.of(
        FindingDraft.of(Technique.BROKEN_LOOP, span)
            .bars(song.pulse().bars(span))
            .sure(
                Certainty.beyond(surprise.harmonyBits(), limit, settings.widthBits()),
                step.sureOfTriad(),
                stated.sureOfTriad(),
                step.keyProbability())
            .strength(surprise.harmonyBits() / 14)
            .group(section.letter() + " " + step.numeralText())
            .says(
                "summary",
                HarmonyFinders.numerals(path.steps().subList(i - shown, i)),
                step.numeralText(),
                stated.numeralText())
            .hear(path.span(model.place() - shown, model.place()), "stated", stated.chordText())
            .hear(span, "hear", step.chordText(), stated.chordText())
            .atLeast("bits", surprise.harmonyBits(), limit, "bits")
            .atLeast("agreeing", model.agreeing(), settings.leastChords(), "")
            .read(Facet.HARMONY, stated.span(), stated.numeralText())
            .read(Facet.HARMONY, step.span(), step.numeralText())
            .make());
  }

  private static double barsLeft(Surprises song, SongSection section, ChordStep step) {
    return song.pulse().beats(step.span().startSeconds(), section.span().endSeconds())
        / song.pulse().beatsPerBar();
  }
}
