package undersong.bench.render;

import java.util.ArrayList;
import java.util.List;
import undersong.bench.render.Part.Role;

/**
 * Where the notes of a worn copy stand. Its channels are bent unlike each other, which moves a
 * sound by as much as its own frequencies are moved: measured on each part by itself, note by note.
 * What saturation and coding do besides is left out of account.
 */
final class Leaning {
  private static final int STEPS_A_SECOND = 100;

  private final TempoMap tempo;
  private final ChannelEqualizer leftEqualizer;
  private final ChannelEqualizer rightEqualizer;

  /**
   * @param equalizers of the left and the right channel
   */
  Leaning(TempoMap tempo, List<ChannelEqualizer> equalizers) {
    this.tempo = tempo;
    this.leftEqualizer = equalizers.get(0);
    this.rightEqualizer = equalizers.get(1);
  }

  /**
   * @param signals of the parts, before they are mixed
   */
  List<Staging.Stand> of(List<Part> parts, List<float[]> signals) {
    List<Staging.Stand> stands = new ArrayList<>();
    for (int p = 0; p < parts.size(); p++) {
      Role role = parts.get(p).role();
      if (role != Role.DRUMS && role != Role.COMPING && role != Role.PAD) {
        stands.addAll(of(parts.get(p), signals.get(p)));
      }
    }
    return stands;
  }

  private List<Staging.Stand> of(Part part, float[] signal) {
    double[] left = through(leftEqualizer, signal);
    double[] right = through(rightEqualizer, signal);
    List<Staging.Stand> stands = new ArrayList<>();
    for (PlayedNote note : part.notes()) {
      double start = tempo.secondsAt(note.startBeat());
      double end = tempo.secondsAt(note.endBeat());
      double angle = (part.strip().placementAt(start) + 1) * Math.PI / 4;
      double onLeft = Math.cos(angle) * Math.sqrt(sum(left, start, end));
      double onRight = Math.sin(angle) * Math.sqrt(sum(right, start, end));
      if (onLeft + onRight > 0) {
        double placement = 4 / Math.PI * Math.atan2(onRight, onLeft) - 1;
        stands.add(new Staging.Stand(part.role().words(), start, note.pitch(), placement));
      }
    }
    return stands;
  }

  private static double[] through(ChannelEqualizer equalizer, float[] signal) {
    float[] channel = signal.clone();
    equalizer.apply(channel);
    return MixLevels.energy(channel);
  }

  private static double sum(double[] energy, double start, double end) {
    double sum = 0;
    int last = Math.min(energy.length - 1, (int) (end * STEPS_A_SECOND));
    for (int i = Math.max(0, (int) (start * STEPS_A_SECOND)); i <= last; i++) {
      sum += energy[i];
    }
    return sum;
  }
}
