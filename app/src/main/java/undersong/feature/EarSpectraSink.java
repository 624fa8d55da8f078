package undersong.feature;

/** Takes the spectra as they are made, so that nobody has to make them twice. */
@FunctionalInterface
public interface EarSpectraSink {
  EarSpectraSink NOBODY = chunk -> {};

  /**
   * Called in the order of time, from one thread, without gaps or overlaps. The sink may keep the
   * chunk; slow sinks slow the extraction down, they do not fill the memory.
   */
  void accept(EarSpectra chunk);
}
