package undersong.render.synth;

/** Who plays each {@link Sound}. */
public interface Ensemble {
  Instrument of(Sound sound);
}
