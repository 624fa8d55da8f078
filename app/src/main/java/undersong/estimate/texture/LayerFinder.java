package undersong.estimate.texture;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.OptionalDouble;
import undersong.estimate.HeardNotes.HeardNote;
import undersong.estimate.texture.Stretches.Sound;
import undersong.estimate.texture.Stretches.Stretch;
import undersong.feature.EarActivations;
import undersong.feature.EarHead;
import undersong.feature.Features;
import undersong.feature.FrameMatrix;
import undersong.feature.StereoImage;
import undersong.feature.StereoPowers;
import undersong.reading.Layer;
import undersong.reading.LayerKind;
import undersong.reading.NoteEvent;

/** Finds the stretches in which the layers besides drums, bass and lead sound. */
final class LayerFinder {
  private static final double SUB_BELOW_LOUD_DB = 10;
  private static final double SUB_FLOOR_DB = -45;
  private static final double SUB_LASTS_SECONDS = 0.5;
  private static final double PLUCKED_SECONDS = 0.45;
  private static final double HELD_SECONDS = 2.5;

  private final Features features;
  private final StereoPowers powers;
  private final List<HeardNote> notes;
  private final double barSeconds;
  private final double durationSeconds;

  /**
   * @param notes all that the ear heard, by onset
   */
  LayerFinder(Features features, StereoPowers powers, List<HeardNote> notes, double barSeconds) {
    this.features = features;
    this.notes = notes;
    this.powers = powers;
    this.barSeconds = barSeconds;
    this.durationSeconds = features.durationSeconds();
  }

  /**
   * @param players where drums, bass and lead play
   */
  List<Layer> of(List<NoteEvent> bass, List<NoteEvent> lead, List<Layer> players) {
    List<Layer> layers = new ArrayList<>(players);
    features
        .heard()
        .ifPresent(
            ear -> {
              add(LayerKind.FURTHER_VOICE, voiceSounds(ear), layers);
              addNotes(notes, bass, lead, layers);
            });
    add(LayerKind.SUB_BASS, subSounds(), layers);
    return layers;
  }

  private void add(LayerKind kind, List<Sound> sounds, List<Layer> layers) {
    for (Stretch stretch : Stretches.of(sounds, PlayerLayers.GAP_BARS * barSeconds, 1)) {
      layers.add(new Layer(kind, stretch.span(), OptionalDouble.empty(), stretch.probability()));
    }
  }

  private List<Sound> voiceSounds(EarActivations ear) {
    FrameMatrix voicing = ear.head(EarHead.VOICING);
    return whereAbove(
        frame -> voicing.at(frame, 0) * voicing.at(frame, 2),
        voicing.frames(),
        voicing.clock().framesPerSecond(),
        0.5,
        0.5);
  }

  /**
   * Sub-bass is what goes on, kicks apart, within 10 dB of its own loud moments: nothing is
   * absolute down there.
   */
  private List<Sound> subSounds() {
    FrameMatrix levels = features.bandLevelsDb();
    double[] lasting = lasting(levels);
    double[] sorted = lasting.clone();
    Arrays.sort(sorted);
    if (sorted.length == 0) {
      return List.of();
    }
    double limit =
        Math.max(SUB_FLOOR_DB, sorted[(int) (0.95 * (sorted.length - 1))] - SUB_BELOW_LOUD_DB);
    return whereAbove(
        frame -> lasting[frame], lasting.length, levels.clock().framesPerSecond(), limit, 0.25);
  }

  /** The level below 80 Hz without what is shorter than half a second (an opening by its least). */
  private static double[] lasting(FrameMatrix levels) {
    int width = (int) Math.round(SUB_LASTS_SECONDS * levels.clock().framesPerSecond());
    int frames = levels.frames();
    double[] least = new double[frames];
    for (int frame = 0; frame < frames; frame++) {
      least[frame] = levels.at(frame, 0);
      for (int i = frame; i < Math.min(frames, frame + width); i++) {
        least[frame] = Math.min(least[frame], levels.at(i, 0));
      }
    }
    double[] lasting = least.clone();
    for (int frame = 0; frame < frames; frame++) {
      for (int i = Math.max(0, frame - width + 1); i < frame; i++) {
        lasting[frame] = Math.max(lasting[frame], least[i]);
      }
    }
    return lasting;
  }

  private interface Curve {
    double at(int frame);
  }

  /** Runs in which a curve stays above a limit for a while. */
  private List<Sound> whereAbove(
      Curve curve, int frames, double framesPerSecond, double limit, double shortestSeconds) {
    List<Sound> sounds = new ArrayList<>();
    int begin = -1;
    for (int frame = 0; frame <= frames; frame++) {
      boolean above = frame < frames && curve.at(frame) > limit;
      if (above && begin < 0) {
        begin = frame;
      } else if (!above && begin >= 0) {
        double start = begin / framesPerSecond;
        double end = Math.min(durationSeconds, frame / framesPerSecond);
        if (end - start >= shortestSeconds) {
          sounds.add(new Sound(start, end, 0.7));
        }
        begin = -1;
      }
    }
    return sounds;
  }

  private void addNotes(
      List<HeardNote> heard, List<NoteEvent> bass, List<NoteEvent> lead, List<Layer> layers) {
    List<Sound> plucked = new ArrayList<>();
    List<Sound> held = new ArrayList<>();
    List<Double> decays = new ArrayList<>();
    for (HeardNote note : heard) {
      if (isOf(note, bass) || isOf(note, lead)) {
        continue;
      }
      double decay = decaySeconds(note);
      Sound sound = new Sound(note.startSeconds(), note.endSeconds(), note.strength());
      if (decay < PLUCKED_SECONDS) {
        plucked.add(sound);
        decays.add(decay);
      } else if (decay > HELD_SECONDS && note.endSeconds() - note.startSeconds() > barSeconds / 4) {
        held.add(sound);
      }
    }
    decays.sort(null);
    OptionalDouble decay =
        decays.isEmpty()
            ? OptionalDouble.empty()
            : OptionalDouble.of(Math.round(100 * decays.get(decays.size() / 2)) / 100.0);
    for (Stretch stretch :
        Stretches.of(Stretches.inCompany(plucked, barSeconds, 3), barSeconds, 6)) {
      layers.add(new Layer(LayerKind.PLUCKED, stretch.span(), decay, 0.8 * stretch.probability()));
    }
    for (Stretch stretch : Stretches.of(Stretches.inCompany(held, barSeconds, 1), barSeconds, 3)) {
      layers.add(
          new Layer(
              LayerKind.HELD, stretch.span(), OptionalDouble.empty(), 0.8 * stretch.probability()));
    }
  }

  private static boolean isOf(HeardNote note, List<NoteEvent> part) {
    for (NoteEvent own : part) {
      if (Math.abs(own.midiPitch() - note.midiPitch()) < 0.8
          && own.span().startSeconds() - 0.1 < note.startSeconds()
          && own.span().endSeconds() > note.startSeconds()) {
        return true;
      }
    }
    return false;
  }

  /**
   * Time to fall by 60 dB, from the slope of its fundamental over at most 0.4 s; 99 where it holds.
   */
  private double decaySeconds(HeardNote note) {
    int bin = StereoImage.binOf(note.hertz());
    int from = powers.frameAt(note.startSeconds() + 0.06);
    int end = Math.min(powers.frames() - 1, from + 8);
    double first = decibels(from, bin);
    double lowest = first;
    int at = from;
    for (int frame = from + 1; frame <= end; frame++) {
      double here = decibels(frame, bin);
      if (here > lowest + 1.5) {
        break; // something else begins
      }
      if (here < lowest) {
        lowest = here;
        at = frame;
      }
    }
    double fall = first - lowest;
    return fall < 1 || at == from ? 99 : 60 * (at - from) / fall / 25;
  }

  private double decibels(int frame, int bin) {
    return 10 * Math.log10(powers.power(frame, bin) + 1e-12);
  }
}
