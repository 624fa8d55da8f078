package undersong.render.synth;

import java.util.Locale;

/** What a voice of a score can sound like. */
public enum Sound {
  BASS,
  SUB,
  PLUCK,
  STRING,
  KEYS,
  ORGAN,
  PAD,
  BRASS,
  LEAD,
  DRIVE,
  PLAIN,
  PLAIN_SOFT,
  VOICE,
  LOW_VOICE,
  KICK,
  SNARE,
  BRUSH,
  SNAP,
  HAT,
  OPEN_HAT,
  CYMBAL,
  TOM,
  RISER,
  SWELL;

  /** As a score writes it: {@code open-hat}. */
  public String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** Struck, and without a pitch that counts. */
  public boolean isDrum() {
    return switch (this) {
      case KICK, SNARE, BRUSH, SNAP, HAT, OPEN_HAT, CYMBAL, TOM -> true;
      default -> false;
    };
  }

  /** Noise that climbs or grows: an effect, neither drum nor tone. */
  public boolean isSweep() {
    return this == RISER || this == SWELL;
  }

  public boolean isSung() {
    return this == VOICE || this == LOW_VOICE;
  }
}
