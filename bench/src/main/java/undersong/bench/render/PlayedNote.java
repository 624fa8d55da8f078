package undersong.bench.render;

/**
 * One note as an instrument plays it.
 *
 * @param startBeat beats from the first bar line, before swing
 * @param velocity 1 to 127
 */
record PlayedNote(double startBeat, double endBeat, int pitch, int velocity) {
  PlayedNote {
    if (!(endBeat > startBeat) || pitch < 0 || pitch > 127 || velocity < 1 || velocity > 127) {
      throw new IllegalArgumentException(
          "Note %d (velocity %d) from beat %s to %s cannot be played."
              .formatted(pitch, velocity, startBeat, endBeat));
    }
  }
}
