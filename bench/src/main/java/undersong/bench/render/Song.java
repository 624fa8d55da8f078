package undersong.bench.render;

import java.util.Collections;
import java.util.Set;
import java.util.TreeSet;

/**
 * One song of a set: which chart, and how the band plays it.
 *
 * @param chartId as the reader numbers it
 * @param fromBar first bar of the excerpt
 * @param toBar bar before which it ends
 * @param swingRatio 1 = even
 * @param drift largest deviation of the tempo, as a share; 0 = steady
 * @param earlyShare how many chords come half a beat early
 * @param tuningCents of the worn rendering
 * @param echo whether the lead is sent to an echo at the end of phrases
 * @param devices of production; none = everybody plays throughout and stays in place
 */
public record Song(
    String chartId,
    int fromBar,
    int toBar,
    String styleName,
    double bpm,
    double swingRatio,
    double drift,
    double earlyShare,
    double tuningCents,
    Lead lead,
    boolean echo,
    Set<Device> devices) {
  /** Who has the tune. */
  enum Lead {
    PLAYED,
    /** A voice of our own, by formants. */
    VOWELS,
    /** A speech synthesizer in its singing mode. */
    WORDS
  }

  /** What a production does with a song, in the order in which it is done. */
  enum Device {
    /** Parts enter and leave by section. */
    LAYERS,
    /** Short lines by turns left and right. */
    ALTERNATE,
    /** An echo on single words. */
    THROW,
    /** An echo on the lead through whole sections. */
    ECHO,
    /** An echo that jumps between the sides. */
    PING_PONG,
    /** The end of a phrase performed again. */
    ANSWER,
    /** The chords played twice, left and right. */
    DOUBLE,
    /** The lead sung twice, left and right, in some sections. */
    LEAD_DOUBLE,
    /** A second voice in some sections. */
    SECOND,
    /** A second voice with a will of its own; nothing else is done to the band. */
    COUNTER,
    /** Held sounds give way to the kick. */
    DUCK,
    /** A filter opens into a section, or closes on the last. */
    SWEEP,
    /** Thirds that only the repeats have. */
    ADDITION,
    /** Some sections are narrow, others wide. */
    WIDTH,
    /** The room is louder in some sections than in others, and may be another one. */
    ROOM
  }

  public Song {
    devices = Collections.unmodifiableSet(new TreeSet<>(devices));
  }

  Style style() {
    return Style.valueOf(styleName);
  }

  /** Whether words are to be sung where a singer of words is there. */
  public boolean wantsWords() {
    return lead == Lead.WORDS;
  }

  boolean sung() {
    return lead != Lead.PLAYED;
  }

  /**
   * Whether a producer has a hand in it; otherwise everybody plays throughout and stays in place.
   */
  boolean produced() {
    return devices.stream().anyMatch(d -> d != Device.COUNTER);
  }

  boolean has(Device device) {
    return devices.contains(device);
  }

  /** Repeatable randomness of this song alone. */
  java.util.Random random(int use) {
    return new java.util.Random(31L * chartId.hashCode() + use);
  }
}
