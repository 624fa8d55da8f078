package undersong.technique;

import java.util.Optional;
import java.util.stream.Stream;
import undersong.reading.Facet;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;
import undersong.time.Span;

/**
 * How a song ends.
 *
 * @param fall from the last loud moment until it is 20 dB softer
 * @param notesInFall bass and melody notes that begin while it falls
 * @param beatsSinceOnset from the last bass or melody note that begins to the start of the fall
 */
public record SongEnding(Span fall, int notesInFall, double beatsSinceOnset) {
  /** A fade takes at least this long: ours, after the catalogue. */
  public static final double FADE_SECONDS = 4;

  /** A sound that rings out may last as long as a fade; but in a fade the music goes on. */
  private static final int MUSIC_GOES_ON_NOTES = 3;

  /** Momentary loudness looks at 0.4 s (ITU-R BS.1770), so that no fall is shorter. */
  private static final double WINDOW_SECONDS = 0.4;

  /** Reads DYNAMICS, BASS, MELODY, BEATS and METER; empty where the end was not measured. */
  public static Optional<SongEnding> of(Reading reading) {
    Pulse pulse = Pulse.of(reading);
    Optional<Span> fall = reading.find(Facet.DYNAMICS).flatMap(dynamics -> dynamics.lastFall());
    if (fall.isEmpty() || !pulse.isThere()) {
      return Optional.empty();
    }
    long notes =
        Stream.concat(
                reading.get(Facet.BASS).notes().stream(),
                reading.get(Facet.MELODY).notes().stream())
            .map(NoteEvent::span)
            .filter(note -> fall.get().contains(note.startSeconds()))
            .count();
    double lastOnset =
        Stream.concat(
                reading.get(Facet.BASS).notes().stream(),
                reading.get(Facet.MELODY).notes().stream())
            .mapToDouble(note -> note.span().startSeconds())
            .filter(start -> start < fall.get().endSeconds())
            .max()
            .orElse(fall.get().startSeconds());
    double since = Math.max(0, pulse.beats(lastOnset, fall.get().startSeconds()));
    return Optional.of(new SongEnding(fall.get(), (int) notes, since));
  }

  public double seconds() {
    return fall.lengthSeconds();
  }

  public boolean fades() {
    return seconds() >= FADE_SECONDS && notesInFall >= MUSIC_GOES_ON_NOTES;
  }

  /** What is left of the fall when the width of the measurement is taken off. */
  public double ownSeconds() {
    return Math.max(0, seconds() - WINDOW_SECONDS);
  }
}
