package undersong.technique.form;

import java.util.List;
import undersong.technique.Sentence;
import undersong.technique.form.Gains.Gain;

/** Respects in which music grows, as one phrase. */
final class Drama {
  private Drama() {}

  /** "louder, denser, wider". */
  static Sentence respects(List<Gain> gains) {
    Sentence sentence = Sentence.of("respect." + gains.get(0).respect().key());
    for (Gain gain : gains.subList(1, gains.size())) {
      sentence =
          Sentence.of("respect.and", sentence, Sentence.of("respect." + gain.respect().key()));
    }
    return sentence;
  }
}
