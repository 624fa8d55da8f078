package undersong.estimate.voice;

import java.util.List;
import undersong.time.Span;

/**
 * A pitch that begins with a note of the lead and may be sung.
 *
 * @param aboveLead in semitones; negative below
 * @param evidence in the order of {@link Candidates#EVIDENCE}
 * @param logOdds that a second voice sings it, by itself
 */
public record Candidate(
    Span span, int midiPitch, int aboveLead, List<Double> evidence, double logOdds) {
  public Candidate {
    evidence = List.copyOf(evidence);
  }

  /** The same, made likelier by what a listener said. */
  Candidate plus(double logOddsMore) {
    return new Candidate(span, midiPitch, aboveLead, evidence, logOdds + logOddsMore);
  }
}
