package undersong.kernel;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * Cuts notes out of two activations over pitch and time: one that peaks where notes begin, one that
 * stays up while they sound. A note begins at a peak of the first and ends where the second falls,
 * or where the same pitch begins again.
 *
 * <p>Source: the way of C. Hawthorne and others, "Onsets and Frames: Dual-Objective Piano
 * Transcription", ISMIR 2018 (from memory). Departs from it: a note may begin at a peak though the
 * other activation is late.
 */
public final class NotePicker {
  private static final int CLOSEST_PEAKS = 4;
  private static final int SHORTEST = 3;

  private NotePicker() {}

  /**
   * One note, times in frames of the onset activation.
   *
   * @param onset height of the peak
   * @param sustain mean of the other activation while the note lasts; 0 where it never rose
   */
  public record Picked(int startFrame, int endFrame, int bin, float onset, float sustain) {}

  /**
   * @param onsets read, {@code [frame][bin]}
   * @param sustains read, {@code [frame / ratio][bin]}
   * @param ratio onset frames to one sustain frame
   * @param leastOnset a lower peak begins nothing
   * @param leastSustain below it a note has ended
   * @return by start, then by bin
   */
  public static List<Picked> pick(
      float[][] onsets, float[][] sustains, int ratio, float leastOnset, float leastSustain) {
    List<Picked> picked = new ArrayList<>();
    int bins = onsets.length == 0 ? 0 : onsets[0].length;
    for (int bin = 0; bin < bins; bin++) {
      List<Integer> peaks = peaks(onsets, bin, leastOnset);
      for (int i = 0; i < peaks.size(); i++) {
        int start = peaks.get(i);
        int latest = i + 1 < peaks.size() ? peaks.get(i + 1) : ratio * sustains.length;
        picked.add(note(onsets, sustains, ratio, start, latest, bin, leastSustain));
      }
    }
    picked.sort(Comparator.comparingInt(Picked::startFrame).thenComparingInt(Picked::bin));
    return picked;
  }

  private static List<Integer> peaks(float[][] onsets, int bin, float least) {
    List<Integer> peaks = new ArrayList<>();
    for (int f = 0; f < onsets.length; f++) {
      float here = onsets[f][bin];
      boolean peak =
          here >= least
              && (f == 0 || here >= onsets[f - 1][bin])
              && (f + 1 == onsets.length || here > onsets[f + 1][bin]);
      if (!peak) {
        continue;
      }
      int before = peaks.isEmpty() ? -CLOSEST_PEAKS : peaks.get(peaks.size() - 1);
      if (f - before >= CLOSEST_PEAKS) {
        peaks.add(f);
      } else if (here > onsets[before][bin]) {
        peaks.set(peaks.size() - 1, f);
      }
    }
    return peaks;
  }

  private static Picked note(
      float[][] onsets,
      float[][] sustains,
      int ratio,
      int start,
      int latest,
      int bin,
      float leastSustain) {
    // The frame after the onset's own: the onset may fall at the end of its own.
    int first = start / ratio + 1;
    int frame = first;
    float sum = 0;
    while (frame < sustains.length
        && frame * ratio < latest
        && sustains[frame][bin] >= leastSustain) {
      sum += sustains[frame][bin];
      frame++;
    }
    int end = Math.min(Math.max(frame * ratio, start + SHORTEST), Math.max(latest, start + 1));
    float sustain = frame == first ? 0 : sum / (frame - first);
    return new Picked(start, end, bin, onsets[start][bin], sustain);
  }
}
