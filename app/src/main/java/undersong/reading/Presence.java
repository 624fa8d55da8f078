package undersong.reading;

/** Whether a chord member is there. */
public enum Presence {
  /** Heard. */
  SOUNDING,
  /** Not heard here, but the surroundings leave no doubt (another copy, the key, the melody). */
  IMPLIED,
  /** Neither heard nor implied. */
  ABSENT
}
