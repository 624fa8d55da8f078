package undersong.expectation;

import undersong.theory.ChordQuality;

/** Qualities as expectation tells them apart: sixths and ninths count as what they color. */
public enum ChordFamily {
  MAJOR(Third.MAJOR),
  DOMINANT_SEVENTH(Third.MAJOR),
  MAJOR_SEVENTH(Third.MAJOR),
  AUGMENTED(Third.MAJOR),
  MINOR(Third.MINOR),
  MINOR_SEVENTH(Third.MINOR),
  DIMINISHED(Third.MINOR),
  HALF_DIMINISHED(Third.MINOR),
  DIMINISHED_SEVENTH(Third.MINOR),
  OPEN(Third.NONE),
  SUSPENDED(Third.NONE);

  /** The third of a chord. */
  public enum Third {
    MAJOR,
    MINOR,
    NONE
  }

  private final Third third;

  ChordFamily(Third third) {
    this.third = third;
  }

  public Third third() {
    return third;
  }

  public static ChordFamily of(ChordQuality quality) {
    return switch (quality) {
      case MAJOR, MAJOR_SIXTH -> MAJOR;
      case DOMINANT_SEVENTH, DOMINANT_NINTH -> DOMINANT_SEVENTH;
      case MAJOR_SEVENTH, MAJOR_NINTH -> MAJOR_SEVENTH;
      case AUGMENTED -> AUGMENTED;
      case MINOR, MINOR_SIXTH, MINOR_MAJOR_SEVENTH -> MINOR;
      case MINOR_SEVENTH, MINOR_NINTH -> MINOR_SEVENTH;
      case DIMINISHED -> DIMINISHED;
      case HALF_DIMINISHED_SEVENTH -> HALF_DIMINISHED;
      case DIMINISHED_SEVENTH -> DIMINISHED_SEVENTH;
      case FIFTH, ROOT -> OPEN;
      case SUSPENDED_SECOND, SUSPENDED_FOURTH -> SUSPENDED;
    };
  }
}
