package undersong.technique.form;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import undersong.reading.Facet;
import undersong.reading.Reading;
import undersong.technique.Certainty;
import undersong.technique.Finding;
import undersong.technique.FindingDraft;
import undersong.technique.Pulse;
import undersong.technique.SongEnding;
import undersong.technique.Technique;
import undersong.technique.TechniqueFinder;
import undersong.time.Span;

/** Songs that stop dead, and songs that fade. */
final class Ending implements TechniqueFinder {
  private final Settings settings;

  Ending(Settings settings) {
    this.settings = settings;
  }

  /**
   * @param mostBeats within which a cold ending falls silent
   * @param roomSeconds that the room may ring on after it
   * @param mostHeldBeats for which the last sound may be held: a long last chord that is cut off
   *     stops, but not dead
   * @param fewestNotesAfter of bass and tune with which the music goes on
   */
  record Settings(
      double mostBeats, double roomSeconds, double mostHeldBeats, int fewestNotesAfter) {
    static final Settings DEFAULTS = new Settings(1, 0, 4, 1);
  }

  @Override
  public Set<Technique> techniques() {
    return Set.of(Technique.COLD_ENDING, Technique.FADE_OUT);
  }

  @Override
  public Set<Facet<?>> reads() {
    return Set.of(Facet.BEATS, Facet.METER, Facet.DYNAMICS, Facet.BASS, Facet.MELODY);
  }

  @Override
  public List<Finding> find(Reading reading) {
    Pulse pulse = Pulse.of(reading);
    Optional<SongEnding> ending = SongEnding.of(reading);
    if (ending.isEmpty()) {
      return List.of();
    }
    if (ending.get().fades()) {
      return List.of(fade(ending.get(), pulse));
    }
    double beatSeconds = 60 / pulse.grid().medianBpm() / pulse.meter().usualBarsPerBar();
    double most = settings.mostBeats() * beatSeconds + settings.roomSeconds();
    boolean struck = ending.get().beatsSinceOnset() <= settings.mostHeldBeats();
    return struck && ending.get().ownSeconds() <= most && !goesOn(reading, ending.get().fall())
        ? List.of(cold(ending.get(), most, pulse))
        : List.of();
  }

  /** Whether bass or tune begin something after the fall: then only some of the music stopped. */
  private boolean goesOn(Reading reading, Span fall) {
    return Stream.concat(
                reading.get(Facet.BASS).notes().stream(),
                reading.get(Facet.MELODY).notes().stream())
            .filter(note -> note.probability() >= 0.5)
            .filter(note -> note.span().startSeconds() > fall.endSeconds())
            .count()
        >= settings.fewestNotesAfter();
  }

  private static Finding fade(SongEnding ending, Pulse pulse) {
    return FindingDraft.of(Technique.FADE_OUT, ending.fall())
        .bars(pulse.bars(ending.fall()))
        .sure(Certainty.beyond(ending.seconds(), SongEnding.FADE_SECONDS, 2))
        .strength(0.3)
        .says("summary", ending.seconds())
        .hear("hear")
        .atLeast("seconds", ending.seconds(), SongEnding.FADE_SECONDS, "s")
        .make();
  }

  private Finding cold(SongEnding ending, double most, Pulse pulse) {
    Span fall = ending.fall();
    // The last bar is part of what one hears stopping.
    double from = Math.max(0, fall.startSeconds() - 60 / pulse.grid().medianBpm());
    Span span = new Span(from, fall.endSeconds());
    return FindingDraft.of(Technique.COLD_ENDING, span)
        .bars(pulse.bars(new Span(from, fall.startSeconds() + 1e-3)))
        .sure(Certainty.beyond(most - ending.ownSeconds(), -0.1, 0.2))
        .strength(0.3)
        .says("summary", ending.ownSeconds())
        .hear("hear")
        .atMost("seconds", ending.ownSeconds(), most, "s")
        .make();
  }
}
