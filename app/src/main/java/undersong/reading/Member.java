package undersong.reading;

/**
 * One member of a chord (its third, fifth or seventh).
 *
 * @param accompaniment whether instruments sound it
 * @param voices whether a leading voice sounds it
 * @param impliedBy what implies it, in words; empty where nothing does
 */
public record Member(Presence accompaniment, Presence voices, String impliedBy) {
  public static final Member ABSENT = new Member(Presence.ABSENT, Presence.ABSENT, "");
  public static final Member SOUNDING = new Member(Presence.SOUNDING, Presence.ABSENT, "");

  public boolean sounds() {
    return accompaniment == Presence.SOUNDING || voices == Presence.SOUNDING;
  }
}
