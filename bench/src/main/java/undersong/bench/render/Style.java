package undersong.bench.render;

/**
 * How a band plays. Patterns are common practice, no source.
 *
 * @see DrumPlayer
 * @see BassPlayer
 * @see ChordPlayer
 */
enum Style {
  ROCK(Drums.BACKBEAT, Bass.EIGHTHS, Comping.STRUM, 27, 33, false),
  BALLAD(Drums.SOFT, Bass.LONG, Comping.BEATS, 0, 32, true),
  DANCE(Drums.FOUR_ON_THE_FLOOR, Bass.OFF_BEATS, Comping.STABS, 81, 38, true),
  SHUFFLE(Drums.RIDE, Bass.WALKING, Comping.STABS, 0, 32, false),
  SYNCOPATED(Drums.THREE_THREE_TWO, Bass.THREE_THREE_TWO, Comping.STRUM, 25, 33, false),
  HALF_TIME(Drums.HALF, Bass.LONG, Comping.LONG, 4, 39, true),
  HEAVY(Drums.DRIVING, Bass.EIGHTHS, Comping.EIGHTHS, 30, 34, false),
  UNPLUGGED(Drums.NONE, Bass.LONG, Comping.STRUM, 24, 32, false),
  CHAMBER(Drums.NONE, Bass.BEATS, Comping.LONG, 48, 43, true),
  RACING(Drums.BETWEEN, Drums.BACKBEAT, Bass.RIFF, Comping.RIFF, 30, 34, false),
  BLASTING(Drums.ON_ALL, Drums.HALF, Bass.EIGHTHS, Comping.RIFF, 30, 34, false),
  PUSHING(Drums.PUSHED, Drums.HALF, Bass.RIFF, Comping.RIFF, 29, 33, false),
  FALLING(Drums.DRIVING, Drums.BETWEEN, Bass.RIFF, Comping.EIGHTHS, 30, 34, false),
  STORMING(Drums.ON_ALL, Drums.PUSHED, Bass.RIFF, Comping.RIFF, 30, 34, false);

  enum Drums {
    BACKBEAT,
    SOFT,
    FOUR_ON_THE_FLOOR,
    RIDE,
    THREE_THREE_TWO,
    HALF,
    DRIVING,
    /** Kick on every beat, snare between all of them. */
    BETWEEN,
    /** Snare on every beat, kick and cymbals between. */
    ON_ALL,
    /** Backbeat with kick and cymbals ahead of the beat. */
    PUSHED,
    NONE
  }

  enum Bass {
    LONG,
    BEATS,
    EIGHTHS,
    OFF_BEATS,
    WALKING,
    THREE_THREE_TWO,
    /** Eighths that lean on what the guitars lean on. */
    RIFF
  }

  enum Comping {
    LONG,
    BEATS,
    EIGHTHS,
    STRUM,
    STABS,
    /** Eighths, some of them struck hard, most of those off the beat. */
    RIFF
  }

  final Drums drums;

  /** In every other letter of the form. */
  final Drums otherDrums;

  final Bass bass;
  final Comping comping;
  final int compingProgram;
  final int bassProgram;
  final boolean hasPad;

  Style(Drums drums, Bass bass, Comping comping, int compingProgram, int bassProgram, boolean pad) {
    this(drums, drums, bass, comping, compingProgram, bassProgram, pad);
  }

  Style(
      Drums drums,
      Drums otherDrums,
      Bass bass,
      Comping comping,
      int compingProgram,
      int bassProgram,
      boolean hasPad) {
    this.drums = drums;
    this.otherDrums = otherDrums;
    this.bass = bass;
    this.comping = comping;
    this.compingProgram = compingProgram;
    this.bassProgram = bassProgram;
    this.hasPad = hasPad;
  }
}
