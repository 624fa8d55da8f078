package undersong.reading;

/** The value of one facet. Value and probability are kept apart, so that work can stop early. */
public interface FacetValue {
  /**
   * What this value says without how sure it is: two values with equal essence differ at most in
   * their probabilities, and dependents that read values only need not run again.
   */
  Object essence();
}
