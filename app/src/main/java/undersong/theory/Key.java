package undersong.theory;

/** A tonic and a mode. */
public record Key(NoteName tonic, Mode mode) {
  public Key {
    if (tonic == null || mode == null) {
      throw new IllegalArgumentException("A key needs a tonic and a mode.");
    }
  }

  @Override
  public String toString() {
    return tonic + " " + mode.words();
  }
}
