package undersong.reading;

/** What a chord does in its key, as textbooks have it. */
public enum HarmonicFunction {
  TONIC,
  PREDOMINANT,
  DOMINANT,
  APPLIED_DOMINANT,
  OTHER,
  NONE
}
