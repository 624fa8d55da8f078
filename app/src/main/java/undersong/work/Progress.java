package undersong.work;

/** Told how far long work has come. Called often and from the working thread; must return fast. */
@FunctionalInterface
public interface Progress {
  Progress SILENT = (stage, share) -> {};

  /**
   * @param stage what is being done, in words a listener knows ("decoding", "hearing chords")
   * @param share 0 to 1 of this stage
   */
  void at(String stage, double share);
}
