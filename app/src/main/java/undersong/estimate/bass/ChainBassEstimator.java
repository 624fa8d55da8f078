package undersong.estimate.bass;

import java.lang.ref.WeakReference;
import java.util.List;
import undersong.estimate.Estimator;
import undersong.feature.Features;
import undersong.reading.Bass;
import undersong.reading.Corrections;
import undersong.reading.Derived;
import undersong.reading.Facet;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;

/**
 * Hears the bass line as notes.
 *
 * <p><b>In:</b> both spectra; TUNING. <b>Out:</b> notes in order, MIDI 24 to 60 as heard, any pitch
 * as corrected. <b>Silence</b> gives no notes. <b>Cost:</b> evidence once per recording and tuning
 * (about 2 ms a second of music), then O(frames * pitches).
 */
public final class ChainBassEstimator implements Estimator<Bass> {
  /** What {@code BassFit} of the bench found best on tuning songs. */
  private static final double RESTRIKE_ONSET = 0.66;

  private final double restrikeOnset;
  private WeakReference<Features> lastFeatures = new WeakReference<>(null);
  private double lastCents;
  private BassEvidence lastEvidence;

  public ChainBassEstimator() {
    this(RESTRIKE_ONSET);
  }

  /**
   * @param restrikeOnset strength of the trained ear's onset, 0 to 1, from which a held pitch
   *     counts as struck again
   */
  public ChainBassEstimator(double restrikeOnset) {
    this.restrikeOnset = restrikeOnset;
  }

  @Override
  public Derived<Bass> estimate(Features features, Reading earlier, Corrections corrections) {
    BassEvidence evidence = evidence(features, earlier.get(Facet.TUNING).cents());
    PinnedBass pinned = new PinnedBass(corrections, earlier.durationSeconds());
    List<NoteEvent> heard =
        BassDecoder.decode(
            evidence,
            pinned.states(evidence.clock(), evidence.frames()),
            earlier.durationSeconds());
    return new Derived<>(new Bass(pinned.laidOver(heard)), pinned.unplaced());
  }

  /** Hears the same recording once, so that a correction is answered fast. */
  @SuppressWarnings("ReferenceEquality") // the very same features; comparing them costs more
  private synchronized BassEvidence evidence(Features features, double cents) {
    if (lastFeatures.get() != features || lastEvidence == null || lastCents != cents) {
      lastEvidence =
          features
              .heard()
              .map(ear -> HeardBassEvidence.of(ear, restrikeOnset))
              .orElseGet(() -> ClassicalBassEvidence.of(features, cents));
      lastFeatures = new WeakReference<>(features);
      lastCents = cents;
    }
    return lastEvidence;
  }
}
