package undersong.reading;

/** Another answer that was weighed, with its calibrated probability. */
public record Candidate<V>(V value, double probability) {
  public Candidate {
    Probability.check(probability);
  }
}
