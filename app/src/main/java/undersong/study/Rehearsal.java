package undersong.study;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import undersong.reading.ChordSpan;
import undersong.reading.Correction;
import undersong.reading.CorrectionEntry;
import undersong.reading.Corrections;
import undersong.reading.Facet;
import undersong.reading.Provenance;
import undersong.reading.Reading;
import undersong.shelf.Shelf;
import undersong.shelf.StoredReading;
import undersong.study.Derivation.Outcome;
import undersong.theory.ChordSymbol;
import undersong.theory.LeadSheet;
import undersong.work.Cancellation;
import undersong.work.Progress;

/**
 * Says a chord to nobody: all that a word sets going is done, and nothing of it kept, so that the
 * first word a listener says is answered as fast as later ones.
 */
final class Rehearsal {
  /** Far from each other, so that wherever the song is, something follows from one of them. */
  private static final List<ChordSymbol> SAID =
      List.of(LeadSheet.parse("Ebm7"), LeadSheet.parse("Amaj7"));

  private final Shelf shelf;
  private final CurrentReadings readings;
  private final CurrentFindings findings;

  Rehearsal(Shelf shelf, CurrentReadings readings, CurrentFindings findings) {
    this.shelf = shelf;
    this.readings = readings;
    this.findings = findings;
  }

  /**
   * The answer there would be; empty where no chord is heard.
   *
   * @param round which chord of the song is told otherwise; others in other rounds
   */
  Optional<Answer> of(StoredReading stands, Offers.Ground ground, int round) {
    List<ChordSpan> chords = stands.reading().get(Facet.CHORDS).spans();
    if (chords.isEmpty()) {
      return Optional.empty();
    }
    Correction said =
        new Correction.ChordOver(
            chords.get(7 * round % chords.size()).span(), SAID.get(round % SAID.size()));
    List<CorrectionEntry> entries = new ArrayList<>(ground.basis().said().entries());
    entries.add(new CorrectionEntry(Long.MAX_VALUE, "", Instant.EPOCH, said));
    Outcome outcome =
        readings
            .derivation()
            .derive(
                ground.features(),
                Optional.of(ground.basis()),
                new Corrections(entries),
                Progress.SILENT,
                new Cancellation());
    Reading would = outcome.reading();
    Provenance made = readings.provenance(outcome.milliseconds());
    shelf.readings().rehearse(stands.songId(), would, stands.inForce(), made);
    StoredReading after =
        new StoredReading(stands.songId(), stands.revision(), stands.inForce(), made, would);
    findings.found(after);
    return Optional.of(
        new Answer(after, Changes.between(stands.reading(), would), would.unplaced()));
  }
}
