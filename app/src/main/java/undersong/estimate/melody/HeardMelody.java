package undersong.estimate.melody;

import java.lang.ref.WeakReference;
import java.util.List;
import java.util.Optional;
import undersong.estimate.Estimator;
import undersong.feature.Features;
import undersong.reading.Corrections;
import undersong.reading.Derived;
import undersong.reading.Facet;
import undersong.reading.Melody;
import undersong.reading.Reading;

/**
 * The leading tune from the trained ear's pitch activations.
 *
 * <p><b>Silence</b>, music without a lead, and a program without its trained ear give no melody: a
 * classical pitch tracker on a full mix is wrong too often to be put before a listener.
 * <b>Cost:</b> O(frames * 264 * 13).
 */
public final class HeardMelody implements Estimator<Melody> {
  private final MelodySettings settings;
  private WeakReference<Features> lastFeatures = new WeakReference<>(null);
  private double lastCents;
  private Optional<FollowedLead> lastLead = Optional.empty();
  private Melody lastMelody = Melody.NONE;

  public HeardMelody(MelodySettings settings) {
    this.settings = settings;
  }

  @Override
  public Derived<Melody> estimate(Features features, Reading earlier, Corrections corrections) {
    SaidMelody said =
        new SaidMelody(corrections.of(Facet.MELODY).entries(), earlier.durationSeconds());
    Melody melody = heard(features, earlier.get(Facet.TUNING).cents(), said);
    return new Derived<>(melody.withNotes(said.laidOver(melody.notes())), said.unplaced());
  }

  /** Follows the same recording once, so that a correction is answered fast. */
  @SuppressWarnings("ReferenceEquality") // the very same features; comparing them costs more
  private synchronized Melody heard(Features features, double cents, SaidMelody said) {
    if (lastFeatures.get() != features || lastCents != cents) {
      lastLead =
          features.heard().map(ear -> new FollowedLead(ear, features, settings, cents / 100));
      lastMelody = lastLead.map(lead -> lead.melody(List.of())).orElse(Melody.NONE);
      lastFeatures = new WeakReference<>(features);
      lastCents = cents;
    }
    return said.sounding().isEmpty()
        ? lastMelody
        : lastLead.map(lead -> lead.melody(said.sounding())).orElse(Melody.NONE);
  }
}
