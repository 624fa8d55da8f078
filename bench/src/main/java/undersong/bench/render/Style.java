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
  CHAMBER(Drums.NONE, Bass.BEATS, Comping.LONG, 48, 43, true);

  enum Drums {
    BACKBEAT,
    SOFT,
    FOUR_ON_THE_FLOOR,
    RIDE,
    THREE_THREE_TWO,
    HALF,
    DRIVING,
    NONE
  }

  enum Bass {
    LONG,
    BEATS,
    EIGHTHS,
    OFF_BEATS,
    WALKING,
    THREE_THREE_TWO
  }

  enum Comping {
    LONG,
    BEATS,
    EIGHTHS,
    STRUM,
    STABS
  }

  final Drums drums;
  final Bass bass;
  final Comping comping;
  final int compingProgram;
  final int bassProgram;
  final boolean hasPad;

  Style(
      Drums drums,
      Bass bass,
      Comping comping,
      int compingProgram,
      int bassProgram,
      boolean hasPad) {
    this.drums = drums;
    this.bass = bass;
    this.comping = comping;
    this.compingProgram = compingProgram;
    this.bassProgram = bassProgram;
    this.hasPad = hasPad;
  }
}
