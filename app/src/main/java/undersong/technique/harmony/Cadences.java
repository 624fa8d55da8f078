package undersong.technique.harmony;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import undersong.reading.Facet;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;
import undersong.technique.BarChords;
import undersong.technique.ChordPath;
import undersong.technique.ChordStep;
import undersong.technique.Finding;
import undersong.technique.FindingDraft;
import undersong.technique.Pulse;
import undersong.technique.SongSection;
import undersong.technique.Technique;
import undersong.technique.TechniqueFinder;
import undersong.technique.harmony.Loops.Loop;
import undersong.technique.harmony.Phrases.End;
import undersong.time.Span;

/**
 * Phrases that end on the dominant (half cadence), and dominants that at a phrase's end go to 6
 * where the song elsewhere went home (deceptive cadence).
 */
final class Cadences implements TechniqueFinder {
  private final Settings settings;

  Cadences(Settings settings) {
    this.settings = settings;
  }

  /**
   * @param sureByCopy how telling it is that an earlier copy of the phrase went home
   * @param sureByModel how telling it is that another phrase of the song did
   * @param loopRounds from which a progression is a loop, whose wrap is no cadence
   * @param copyLikeness of their chords from which two sections are copies
   */
  record Settings(double sureByCopy, double sureByModel, double loopRounds, double copyLikeness) {
    static final Settings DEFAULTS = new Settings(0.95, 0.7, 1.9, 0.7);
  }

  @Override
  public Set<Technique> techniques() {
    return Set.of(Technique.HALF_CADENCE, Technique.DECEPTIVE_CADENCE);
  }

  @Override
  public Set<Facet<?>> reads() {
    return HarmonyFinders.with(Facet.MELODY);
  }

  @Override
  public List<Finding> find(Reading reading) {
    Pulse pulse = Pulse.of(reading);
    if (!pulse.isThere()) {
      return List.of();
    }
    List<SongSection> sections = SongSection.of(reading);
    ChordPath path = ChordPath.of(reading);
    List<Loop> loops = Loops.of(path, sections, pulse, settings.loopRounds());
    Phrases phrases = new Phrases(pulse, sections);
    List<End> homes = homes(path, phrases);
    BarChords chords = BarChords.of(reading);
    List<NoteEvent> tune = reading.get(Facet.MELODY).notes();
    List<Finding> findings = new ArrayList<>();
    for (int i = 0; i < path.size(); i++) {
      ChordStep step = path.get(i);
      int here = i;
      boolean inLoop = loops.stream().anyMatch(loop -> loop.contains(here));
      if (!dominantTriad(step) || inLoop) {
        continue;
      }
      boolean toSix = path.goesOn(i) && isSix(path.get(i + 1));
      Optional<End> deceived = toSix ? phrases.endAt(path.get(i + 1).span()) : Optional.empty();
      if (deceived.isPresent()) {
        deceptive(path, i, deceived.get(), homes, chords, pulse).ifPresent(findings::add);
      }
      phrases
          .endWith(step.span())
          .filter(end -> endsPhrase(path, here, end))
          .filter(end -> longEnough(path, here, pulse) && phrases.comesToRest(tune, end.bar()))
          .ifPresent(end -> findings.add(half(path, here, end, pulse)));
    }
    return findings;
  }

  private static boolean dominantTriad(ChordStep step) {
    return step.dominant() && step.root() == 7;
  }

  private static boolean isSix(ChordStep step) {
    boolean minorKey = step.key().mode().hasMinorThird();
    boolean plain = minorKey ? step.root() == 8 && step.major() : step.root() == 9 && step.minor();
    return !step.applied() && (plain || (step.root() == 8 && step.major()));
  }

  /** Phrase ends at which a dominant went home. */
  private static List<End> homes(ChordPath path, Phrases phrases) {
    List<End> homes = new ArrayList<>();
    for (int i = 0; i + 1 < path.size(); i++) {
      if (dominantTriad(path.get(i)) && path.goesOn(i) && path.get(i + 1).tonic()) {
        phrases.endAt(path.get(i + 1).span()).ifPresent(homes::add);
      }
    }
    return homes;
  }

  /** By the form's letter, or because both go over the same chords. */
  private boolean isCopy(SongSection one, SongSection other, BarChords chords) {
    return one.letter().equals(other.letter())
        || chords.likeness(one, other) >= settings.copyLikeness();
  }

  private Optional<Finding> deceptive(
      ChordPath path, int i, End end, List<End> homes, BarChords chords, Pulse pulse) {
    ChordStep dominant = path.get(i);
    ChordStep six = path.get(i + 1);
    Optional<End> copy =
        homes.stream()
            .filter(
                home ->
                    home.section().place() < end.section().place()
                        && home.barInSection() == end.barInSection()
                        && isCopy(home.section(), end.section(), chords))
            .findFirst();
    if (copy.isEmpty() && homes.isEmpty()) {
      return Optional.empty();
    }
    End model = copy.orElseGet(() -> homes.get(0));
    Span span = path.span(i, i + 1);
    return Optional.of(
        FindingDraft.of(Technique.DECEPTIVE_CADENCE, span)
            .bars(pulse.bars(span))
            .sure(
                dominant.sureOfTriad(),
                six.sureOfTriad(),
                dominant.keyProbability(),
                copy.isPresent() ? settings.sureByCopy() : settings.sureByModel())
            .strength(copy.isPresent() ? 0.8 : 0.5)
            .group(end.section().letter())
            .says(
                copy.isPresent() ? "summary.copy" : "summary",
                dominant.chordText(),
                six.chordText(),
                six.numeralText(),
                model.section().words())
            .hear("hear", dominant.chordText())
            .hear(model.bar(), "home")
            .read(Facet.HARMONY, dominant.span(), dominant.numeralText())
            .read(Facet.HARMONY, six.span(), six.numeralText())
            .make());
  }

  /** Whether no other chord comes before the phrase is over. */
  private static boolean endsPhrase(ChordPath path, int i, End end) {
    return path.get(i).span().endSeconds()
        >= end.bar().endSeconds() - 0.3 * end.bar().lengthSeconds();
  }

  /** As long as the chords of its phrase are on the whole, or longer. */
  private static boolean longEnough(ChordPath path, int i, Pulse pulse) {
    double sum = 0;
    int count = 0;
    for (int k = Math.max(0, i - 3); k < i; k++) {
      sum += pulse.beats(path.get(k).span());
      count++;
    }
    return count > 0 && pulse.beats(path.get(i).span()) >= 0.9 * Math.min(sum / count, 4);
  }

  private static Finding half(ChordPath path, int i, End end, Pulse pulse) {
    ChordStep step = path.get(i);
    return FindingDraft.of(Technique.HALF_CADENCE, step.span())
        .bars(pulse.bars(step.span()))
        .sure(step.sureOfTriad(), step.keyProbability(), pulse.barsProbability())
        .strength(0.4)
        .group(end.section().letter())
        .says("summary", step.chordText(), step.numeralText(), end.section().words())
        .hear("hear")
        .read(Facet.HARMONY, step.span(), step.numeralText())
        .make();
  }
}
