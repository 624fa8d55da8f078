package undersong.estimate.texture;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import undersong.estimate.texture.Stretches.Sound;
import undersong.estimate.texture.Stretches.Stretch;
import undersong.feature.EarActivations;
import undersong.feature.EarHead;
import undersong.feature.FrameMatrix;
import undersong.feature.StereoImage;
import undersong.feature.StereoPowers;
import undersong.reading.LayerKind;

/** Finds where kick, snare and cymbals play, from the ear's strokes and their own bands. */
final class DrumLayers {
  private static final LayerKind[] DRUMS = {LayerKind.KICK, LayerKind.SNARE, LayerKind.CYMBAL};
  private static final double[][] DRUM_BANDS_HZ = {{40, 130}, {180, 6000}, {7000, 16_000}};
  private static final double[] WEAK_STROKE_DB = {14, 14, 8};
  private static final double LONE_CYMBAL = 0.88;
  private static final double AMONG_DRUMS_BARS = 4;
  private static final int FEWEST_OTHERS = 2;
  private static final double STROKE_LIMIT = 0.5;
  private static final double STROKE_SECONDS = 0.1;

  /** A bar in which no drum is struck ends them all. */
  private static final double ALL_DRUMS_GAP_BARS = 0.95;

  /** A few strokes within less than this are a noise, not a drummer. */
  private static final double SHORTEST_BARS = 1.5;

  private static final double WEAKEST_STROKE = 0.1;

  private final FrameMatrix drums;
  private final StereoPowers powers;
  private final double barSeconds;
  private final double durationSeconds;

  DrumLayers(EarActivations ear, StereoPowers powers, double barSeconds, double durationSeconds) {
    drums = ear.head(EarHead.DRUMS);
    this.powers = powers;
    this.barSeconds = barSeconds;
    this.durationSeconds = durationSeconds;
  }

  /** The stretches of each kind. */
  Map<LayerKind, List<Stretch>> found() {
    List<List<Sound>> strokes = new ArrayList<>();
    for (int kind = 0; kind < DRUMS.length; kind++) {
      strokes.add(strong(strokes(kind), DRUM_BANDS_HZ[kind], WEAK_STROKE_DB[kind]));
    }
    List<Sound> kickAndSnare = inCompany(strokes.get(0), strokes.get(1));
    strokes.set(0, among(strokes.get(0), kickAndSnare));
    strokes.set(1, among(strokes.get(1), kickAndSnare));
    strokes.set(2, Stretches.inCompany(strokes.get(2), barSeconds, FEWEST_OTHERS));
    List<Sound> cymbals =
        strokes.get(2).stream()
            .filter(
                cymbal ->
                    cymbal.probability() >= LONE_CYMBAL || isAccompanied(cymbal, kickAndSnare))
            .toList();
    strokes.set(2, Stretches.inCompany(cymbals, barSeconds, 3));
    List<Sound> all = new ArrayList<>();
    strokes.forEach(all::addAll);
    all.sort(Comparator.comparingDouble(Sound::startSeconds));
    Map<LayerKind, List<Stretch>> layers = new EnumMap<>(LayerKind.class);
    for (int kind = 0; kind < DRUMS.length; kind++) {
      List<Stretch> found = new ArrayList<>();
      for (Stretch playing : Stretches.of(all, ALL_DRUMS_GAP_BARS * barSeconds, 1)) {
        if (playing.span().lengthSeconds() < SHORTEST_BARS * barSeconds) {
          continue;
        }
        List<Sound> own =
            strokes.get(kind).stream()
                .filter(
                    stroke ->
                        stroke.startSeconds() >= playing.span().startSeconds()
                            && stroke.startSeconds() < playing.span().endSeconds())
                .toList();
        found.addAll(Stretches.of(own, PlayerLayers.GAP_BARS * barSeconds, 4));
      }
      layers.put(DRUMS[kind], found);
    }
    return layers;
  }

  /** Kick and snare keep each other company: under loud guitars the ear hears few of either. */
  private List<Sound> inCompany(List<Sound> kick, List<Sound> snare) {
    List<Sound> both = new ArrayList<>(kick);
    both.addAll(snare);
    both.sort(Comparator.comparingDouble(Sound::startSeconds));
    return Stretches.inCompany(both, barSeconds, FEWEST_OTHERS);
  }

  private static List<Sound> among(List<Sound> strokes, List<Sound> kept) {
    return strokes.stream().filter(kept::contains).toList();
  }

  /** Strokes a second through a span, weak ones counted as far as the ear believes in them. */
  double struck(LayerKind drum, double start, double end) {
    int kind = List.of(DRUMS).indexOf(drum);
    double sum = 0;
    int last = Math.min(drums.frames() - 1, drums.clock().frameAt(end));
    for (int frame = Math.max(1, drums.clock().frameAt(start)); frame < last; frame++) {
      float here = drums.at(frame, kind);
      if (here >= WEAKEST_STROKE
          && here >= drums.at(frame - 1, kind)
          && here > drums.at(frame + 1, kind)) {
        sum += here;
      }
    }
    return end > start ? sum / (end - start) : 0;
  }

  /**
   * A strummed chord sounds much like a cymbal: one that no drum is near must be surer, above all
   * before the first drum and after the last.
   */
  private boolean isAccompanied(Sound cymbal, List<Sound> drums) {
    boolean near = false;
    boolean before = false;
    boolean after = false;
    for (Sound drum : drums) {
      double bars = (drum.startSeconds() - cymbal.startSeconds()) / barSeconds;
      if (Math.abs(bars) < 0.5) {
        return true;
      }
      near |= Math.abs(bars) < 1;
      before |= bars < 0 && bars > -AMONG_DRUMS_BARS;
      after |= bars > 0 && bars < AMONG_DRUMS_BARS;
    }
    return near && before && after;
  }

  private List<Sound> strokes(int kind) {
    List<Sound> strokes = new ArrayList<>();
    for (int frame = 1; frame < drums.frames() - 1; frame++) {
      float here = drums.at(frame, kind);
      if (here >= STROKE_LIMIT
          && here >= drums.at(frame - 1, kind)
          && here > drums.at(frame + 1, kind)) {
        double seconds = drums.clock().secondsAt(frame);
        strokes.add(new Sound(seconds, Math.min(durationSeconds, seconds + STROKE_SECONDS), here));
      }
    }
    return strokes;
  }

  /** Without those that hardly sound in the drum's own band, against what is usual in this song. */
  private List<Sound> strong(List<Sound> strokes, double[] bandHz, double weakDb) {
    double[] rises = strokes.stream().mapToDouble(s -> riseDb(s.startSeconds(), bandHz)).toArray();
    double[] sorted = rises.clone();
    Arrays.sort(sorted);
    List<Sound> strong = new ArrayList<>();
    for (int i = 0; i < rises.length; i++) {
      if (rises[i] >= sorted[3 * sorted.length / 4] - weakDb) {
        strong.add(strokes.get(i));
      }
    }
    return strong;
  }

  /** Level in a band just after a moment. */
  private double riseDb(double seconds, double[] bandHz) {
    double sum = 0;
    int frame = powers.frameAt(seconds + 0.03);
    for (int bin = StereoImage.binOf(bandHz[0]); bin <= StereoImage.binOf(bandHz[1]); bin++) {
      double before = powers.power(powers.frameAt(seconds - 0.07), bin);
      sum += Math.max(0, powers.power(frame, bin) - before);
    }
    return 10 * Math.log10(sum + 1e-12);
  }
}
