package undersong.study;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import undersong.feature.Features;
import undersong.reading.Beats;
import undersong.reading.Correction;
import undersong.reading.CorrectionEntry;
import undersong.reading.Corrections;
import undersong.reading.Facet;
import undersong.reading.Form;
import undersong.reading.Reading;
import undersong.reading.Section;
import undersong.time.BeatGrid;

/**
 * What was said of one section, offered for the others with the same music: moved beat by beat, and
 * up or down where the music is.
 */
final class Offers {
  /** A correction may reach a little over the section's end and still be about the section. */
  private static final double LONGEST_SHARE = 1.05;

  private final Derivation derivation;

  Offers(Derivation derivation) {
    this.derivation = derivation;
  }

  /** What words are weighed against: what was measured, what was derived and said so far. */
  record Ground(Features features, Derivation.Basis basis) {}

  /** Only offers that would change what is heard there; in the order of the sections. */
  List<Offer> of(Correction correction, Ground ground) {
    List<Offer> offers = new ArrayList<>();
    List<Double> anchors = Anchors.seconds(correction);
    Reading reading = ground.basis().reading();
    Form form = reading.get(Facet.FORM);
    BeatGrid grid = reading.find(Facet.BEATS).map(Beats::grid).orElse(BeatGrid.NO_PULSE);
    if (anchors.isEmpty() || grid.isEmpty() || correction instanceof Correction.SamenessOver) {
      return offers;
    }
    double middle = (anchors.get(0) + anchors.get(anchors.size() - 1)) / 2;
    double length = anchors.get(anchors.size() - 1) - anchors.get(0);
    Optional<Section> here =
        form.sectionAt(middle).filter(s -> length <= LONGEST_SHARE * s.span().lengthSeconds());
    for (Section there : form.sections()) {
      if (here.isEmpty()
          || there.equals(here.get())
          || !there.letter().equals(here.get().letter())) {
        continue;
      }
      moved(correction, here.get(), there, grid, reading.durationSeconds())
          .flatMap(moved -> changeBy(moved, ground).map(change -> new Offer(there, moved, change)))
          .ifPresent(offers::add);
    }
    return offers;
  }

  private static Optional<Correction> moved(
      Correction correction, Section here, Section there, BeatGrid grid, double durationSeconds) {
    double beats =
        grid.positionAt(there.span().startSeconds()) - grid.positionAt(here.span().startSeconds());
    int semitones = there.transposedSemitones() - here.transposedSemitones();
    try {
      return Anchors.moved(
              correction,
              at ->
                  Math.max(
                      0,
                      Math.min(
                          durationSeconds, grid.secondsAtPosition(grid.positionAt(at) + beats))),
              semitones)
          .filter(moved -> liesIn(moved, there));
    } catch (IllegalArgumentException outside) {
      return Optional
          .empty(); // the repeat ends before the place is reached, or the note leaves the range
    }
  }

  private static boolean liesIn(Correction moved, Section section) {
    List<Double> seconds = Anchors.seconds(moved);
    double middle = (seconds.get(0) + seconds.get(seconds.size() - 1)) / 2;
    // A place on the section's first bar line may fall a hair before it.
    return middle >= section.span().startSeconds() - 0.02 && middle < section.span().endSeconds();
  }

  /** What one more word would change in its own facet. */
  Optional<FacetChange> changeBy(Correction correction, Ground ground) {
    Derivation.Basis basis = ground.basis();
    List<CorrectionEntry> entries = new ArrayList<>(basis.said().entries());
    entries.add(new CorrectionEntry(Long.MAX_VALUE, "", java.time.Instant.EPOCH, correction));
    Reading would =
        derivation.deriveThrough(
            correction.facet(), ground.features(), basis, new Corrections(entries));
    return Changes.of(correction.facet(), basis.reading(), would);
  }
}
