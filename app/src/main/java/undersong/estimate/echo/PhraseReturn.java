package undersong.estimate.echo;

import java.util.List;
import undersong.reading.NoteEvent;

/**
 * Notes of the lead whose pitches begin again some time later, in the same order and nearly the
 * same rhythm.
 *
 * @param notes of the lead, whether they return or not
 * @param lagsSeconds of those that return
 * @param inLead how many return in the lead itself: an answer that stands alone is taken for it
 * @param ownPlacement where the notes stand
 * @param placement where something has come to stand that was not there
 * @param gained by how much its share of the notes' partials has grown
 * @param held how much the pitches sound just before they begin again, 0 to 1
 * @param levelDb what begins again against what began first
 * @param offBeat how far the lag is from whole beats
 */
public record PhraseReturn(
    List<NoteEvent> notes,
    List<Double> lagsSeconds,
    int inLead,
    double ownPlacement,
    double placement,
    double gained,
    double held,
    double levelDb,
    double offBeat) {
  private static final double MOST_DB = 15;

  public PhraseReturn {
    if (lagsSeconds.isEmpty() || lagsSeconds.size() > notes.size()) {
      throw new IllegalArgumentException(
          "%d notes returning of %d: one must, and no more than there are."
              .formatted(lagsSeconds.size(), notes.size()));
    }
    notes = List.copyOf(notes);
    lagsSeconds = List.copyOf(lagsSeconds);
  }

  public double startSeconds() {
    return notes.get(0).span().startSeconds();
  }

  public double endSeconds() {
    return notes.get(notes.size() - 1).span().endSeconds();
  }

  public double lagSeconds() {
    return lagsSeconds.stream().mapToDouble(Double::doubleValue).average().orElseThrow();
  }

  /** Standard deviation of the lags, in seconds. */
  public double wanderSeconds() {
    double mean = lagSeconds();
    return Math.sqrt(
        lagsSeconds.stream().mapToDouble(l -> (l - mean) * (l - mean)).average().orElseThrow());
  }

  /** What speaks for a second performance or against it, each within -1 and 1. */
  public List<Double> evidence() {
    return List.of(
        gained,
        (double) inLead / notes.size(),
        held,
        Math.max(-MOST_DB, Math.min(MOST_DB, levelDb)) / MOST_DB,
        offBeat);
  }
}
