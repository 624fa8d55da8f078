package undersong.estimate.form;

import java.util.Arrays;
import undersong.feature.EarActivations;
import undersong.feature.EarHead;
import undersong.feature.Features;
import undersong.feature.FrameMatrix;
import undersong.time.Span;

/**
 * What each bar sounds like, as three vectors of unit length: its harmony (pitch classes in four
 * quarters of the bar, so that order counts), its texture (band levels, width, onset density; drums
 * and lead where the ear hears them), and its leading tune (pitch classes in quarters; nothing
 * without ear or lead).
 *
 * <p>Cost: one pass over the spectra, O(frames * bins).
 */
final class BarDescriptions {
  private static final int QUARTERS = 4;
  private static final int PITCH_CLASSES = 12;
  private static final int BINS_PER_SEMITONE = 3;
  private static final int FIRST_BIN_MIDI = 21;
  private static final int LOWEST_MIDI = 40;
  private static final int HIGHEST_MIDI = 96;

  private static final int FIRST_LEAD_MIDI = 21;

  /** The ear's probabilities, brought to the spread of levels in decibels. */
  private static final float AS_DECIBELS = 10;

  /** Drums are brief: their mean probabilities are small. */
  private static final float DRUMS_AS_DECIBELS = 30;

  private final float[][] harmony;
  private final float[][] texture;
  private final float[][] tune;

  private BarDescriptions(float[][] harmony, float[][] texture, float[][] tune) {
    this.harmony = harmony;
    this.texture = texture;
    this.tune = tune;
  }

  static BarDescriptions of(Features features, BarSpans bars, double tuningCents) {
    float[][] harmony = new float[bars.size()][];
    float[][] texture = new float[bars.size()][];
    float[][] tune = new float[bars.size()][];
    int[] pitchClassOfBin = pitchClassOfBin(features.longSpectrum().bins(), tuningCents);
    for (int bar = 0; bar < bars.size(); bar++) {
      Span span = bars.spans().get(bar);
      harmony[bar] = harmonyOf(features.longSpectrum(), pitchClassOfBin, span);
      texture[bar] = textureOf(features, span);
      tune[bar] =
          features
              .heard()
              .map(ear -> tuneOf(ear, span))
              .orElseGet(() -> new float[QUARTERS * PITCH_CLASSES]);
    }
    standardize(texture);
    for (int bar = 0; bar < bars.size(); bar++) {
      normalize(harmony[bar]);
      normalize(texture[bar]);
      normalize(tune[bar]);
    }
    return new BarDescriptions(harmony, texture, tune);
  }

  int size() {
    return harmony.length;
  }

  /** Cosine of two bars' harmony, the second bar lowered by some semitones first; -1 to 1. */
  float harmonyLikeness(int bar, int other, int semitones) {
    return cosine(harmony[bar], harmony[other], semitones);
  }

  /** The same of the leading tune; 0 where one of the bars has none. */
  float tuneLikeness(int bar, int other, int semitones) {
    return cosine(tune[bar], tune[other], semitones);
  }

  /** Whether a leading tune sounds in a bar. */
  boolean hasTune(int bar) {
    for (float value : tune[bar]) {
      if (value > 0) {
        return true;
      }
    }
    return false;
  }

  private static float cosine(float[] a, float[] b, int semitones) {
    float sum = 0;
    for (int quarter = 0; quarter < QUARTERS; quarter++) {
      int base = quarter * PITCH_CLASSES;
      for (int pc = 0; pc < PITCH_CLASSES; pc++) {
        sum += a[base + pc] * b[base + Math.floorMod(pc + semitones, PITCH_CLASSES)];
      }
    }
    return sum;
  }

  /** Cosine of two bars' texture; -1 to 1. */
  float textureLikeness(int bar, int other) {
    float sum = 0;
    for (int i = 0; i < texture[bar].length; i++) {
      sum += texture[bar][i] * texture[other][i];
    }
    return sum;
  }

  private static int[] pitchClassOfBin(int bins, double tuningCents) {
    int[] pitchClass = new int[bins];
    for (int bin = 0; bin < bins; bin++) {
      double midi = FIRST_BIN_MIDI + (bin - 1.0) / BINS_PER_SEMITONE - tuningCents / 100;
      long nearest = Math.round(midi);
      pitchClass[bin] =
          nearest < LOWEST_MIDI || nearest > HIGHEST_MIDI
              ? -1
              : Math.floorMod((int) nearest, PITCH_CLASSES);
    }
    return pitchClass;
  }

  private static float[] harmonyOf(FrameMatrix spectrum, int[] pitchClassOfBin, Span span) {
    float[] sums = new float[QUARTERS * PITCH_CLASSES];
    int first = Math.max(0, spectrum.clock().frameAt(span.startSeconds()));
    int end = Math.min(spectrum.frames(), spectrum.clock().frameAt(span.endSeconds()));
    for (int frame = first; frame < end; frame++) {
      int base = (frame - first) * QUARTERS / (end - first) * PITCH_CLASSES;
      for (int bin = 0; bin < pitchClassOfBin.length; bin++) {
        if (pitchClassOfBin[bin] >= 0) {
          sums[base + pitchClassOfBin[bin]] += spectrum.at(frame, bin);
        }
      }
    }
    // The mean of a quarter is broadband sound; what stands out of it is harmony.
    for (int quarter = 0; quarter < QUARTERS; quarter++) {
      float mean = 0;
      for (int pc = 0; pc < PITCH_CLASSES; pc++) {
        mean += sums[quarter * PITCH_CLASSES + pc] / PITCH_CLASSES;
      }
      for (int pc = 0; pc < PITCH_CLASSES; pc++) {
        sums[quarter * PITCH_CLASSES + pc] -= mean;
      }
    }
    return sums;
  }

  /** Pitch classes of the lead in the quarters of a bar, as the ear hears them. */
  private static float[] tuneOf(EarActivations ear, Span span) {
    FrameMatrix lead = ear.head(EarHead.LEAD);
    FrameMatrix voicing = ear.head(EarHead.VOICING);
    float[] sums = new float[QUARTERS * PITCH_CLASSES];
    int first = Math.max(0, lead.clock().frameAt(span.startSeconds()));
    int end = Math.min(lead.frames(), lead.clock().frameAt(span.endSeconds()));
    for (int frame = first; frame < end; frame++) {
      float sounds = voicing.at(Math.min(frame, voicing.frames() - 1), 0);
      if (sounds >= 0.5) {
        int base = (frame - first) * QUARTERS / (end - first) * PITCH_CLASSES;
        for (int bin = 0; bin < lead.bins(); bin++) {
          int midi = FIRST_LEAD_MIDI + Math.round((bin - 1) / (float) BINS_PER_SEMITONE);
          sums[base + Math.floorMod(midi, PITCH_CLASSES)] += sounds * lead.at(frame, bin);
        }
      }
    }
    return sums;
  }

  private static float[] textureOf(Features features, Span span) {
    int bands = features.bandLevelsDb().bins();
    int drums = features.heard().isPresent() ? EarHead.DRUMS.bins() : 0;
    float[] out = new float[bands + 2 + (drums > 0 ? drums + 1 : 0)];
    for (int band = 0; band < bands; band++) {
      out[band] = (float) mean(features.bandLevelsDb(), band, span);
    }
    out[bands] = (float) (mean(features.sideLevelsDb(), bands - 1, span) - out[bands - 1]);
    double onsets = 0;
    for (int band = 0; band < features.bandOnsets().bins(); band++) {
      onsets += mean(features.bandOnsets(), band, span);
    }
    out[bands + 1] = (float) Math.log1p(onsets);
    features
        .heard()
        .ifPresent(
            ear -> {
              for (int drum = 0; drum < drums; drum++) {
                out[bands + 2 + drum] =
                    DRUMS_AS_DECIBELS * (float) mean(ear.head(EarHead.DRUMS), drum, span);
              }
              out[bands + 2 + drums] =
                  AS_DECIBELS * (float) mean(ear.head(EarHead.VOICING), 0, span);
            });
    return out;
  }

  private static double mean(FrameMatrix matrix, int bin, Span span) {
    int first = Math.max(0, matrix.clock().frameAt(span.startSeconds()));
    int end = Math.min(matrix.frames(), matrix.clock().frameAt(span.endSeconds()));
    double sum = 0;
    for (int frame = first; frame < end; frame++) {
      sum += matrix.at(frame, bin);
    }
    return end > first ? sum / (end - first) : 0;
  }

  /** Each column to mean 0; its spread to 1, but never blown up from under 1 dB. */
  private static void standardize(float[][] rows) {
    for (int column = 0; column < rows[0].length; column++) {
      double sum = 0;
      double squares = 0;
      for (float[] row : rows) {
        sum += row[column];
        squares += row[column] * row[column];
      }
      double mean = sum / rows.length;
      double spread = Math.sqrt(Math.max(0, squares / rows.length - mean * mean));
      for (float[] row : rows) {
        row[column] = (float) ((row[column] - mean) / Math.max(1, spread));
      }
    }
  }

  private static void normalize(float[] vector) {
    double squares = 0;
    for (float v : vector) {
      squares += v * v;
    }
    if (squares < 1e-9) {
      Arrays.fill(vector, 0);
      return;
    }
    float scale = (float) (1 / Math.sqrt(squares));
    for (int i = 0; i < vector.length; i++) {
      vector[i] *= scale;
    }
  }
}
