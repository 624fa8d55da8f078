package undersong.bench.decode;

import java.io.IOException;
import java.io.PrintStream;
import java.util.Locale;
import undersong.bench.render.Truth;
import undersong.estimate.melody.LeadPath;
import undersong.estimate.melody.LeadSounding;
import undersong.estimate.melody.MelodySettings;
import undersong.feature.EarActivations;
import undersong.feature.EarHead;
import undersong.feature.Features;
import undersong.reading.Facet;
import undersong.study.Studied;
import undersong.time.FrameClock;

/**
 * Writes what {@code training/voicing.py} fits to: one row for each frame of the lead's path, of
 * the truth's points in it how many there are, how many sound and at how many of these the path's
 * pitch is right, then the evidence.
 */
public final class VoicingRows {
  private static final double RIGHT_SEMITONES = 0.5;

  private VoicingRows() {}

  /**
   * @param arguments cache and soundfont, as the bench has them; file to write; the sets
   */
  public static void main(String[] arguments) throws IOException {
    TuningSong.writeRows(
        arguments,
        (set, truth, id, studied, features, out) -> {
          if (!truth.melody().isEmpty()) {
            String song = set + " " + id.substring(0, id.indexOf(' '));
            write(truth, song.hashCode(), id.contains("worn"), studied, features, out);
          }
        });
  }

  private static void write(
      Truth truth, int song, boolean worn, Studied studied, Features features, PrintStream out) {
    EarActivations ear = features.heard().orElseThrow();
    double tuning = studied.stored().reading().get(Facet.TUNING).cents() / 100;
    LeadPath path = LeadPath.find(ear.head(EarHead.LEAD), MelodySettings.DEFAULTS);
    LeadSounding sounding = new LeadSounding(ear, path, tuning);
    FrameClock clock = ear.head(EarHead.LEAD).clock();
    for (int frame = 0; frame < path.frames(); frame++) {
      int points = 0;
      int sound = 0;
      int right = 0;
      int to = point(clock.secondsAt(frame + 1));
      for (int i = point(clock.secondsAt(frame)); i < Math.min(to, truth.curve().size()); i++) {
        double hertz = truth.curve().get(i);
        points++;
        if (hertz > 0) {
          double midi = 69 + 12 * Math.log(hertz / 440) / Math.log(2);
          sound++;
          right += Math.abs(midi - path.pitchAt(frame)) < RIGHT_SEMITONES ? 1 : 0;
        }
      }
      StringBuilder row = new StringBuilder();
      row.append(song).append(',').append(worn ? 1 : 0).append(',').append(truth.sung() ? 1 : 0);
      row.append(',').append(points).append(',').append(sound).append(',').append(right);
      for (double evidence : sounding.evidence(frame)) {
        row.append(String.format(Locale.ROOT, ",%.4f", evidence));
      }
      out.println(row);
    }
  }

  private static int point(double seconds) {
    return (int) Math.rint(seconds / Truth.CURVE_HOP_SECONDS);
  }
}
