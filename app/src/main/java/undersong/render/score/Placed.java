package undersong.render.score;

/**
 * Something at a place of its section, in beats from the section's first bar line as written (swing
 * and early arrival not yet applied).
 */
record Placed<T>(double startBeat, double lengthBeats, T value) {}
