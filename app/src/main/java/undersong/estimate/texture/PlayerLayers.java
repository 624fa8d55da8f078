package undersong.estimate.texture;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import undersong.estimate.texture.Stretches.Sound;
import undersong.estimate.texture.Stretches.Stretch;
import undersong.feature.EarActivations;
import undersong.feature.EarHead;
import undersong.feature.Features;
import undersong.feature.FrameMatrix;
import undersong.feature.StereoPowers;
import undersong.reading.Layer;
import undersong.reading.LayerKind;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;
import undersong.time.Span;

/**
 * Where drums, bass and lead play: what is told as entering and leaving. Without a trained ear the
 * lead alone.
 */
public final class PlayerLayers {
  static final double GAP_BARS = 2;

  private static final int NO_BASS = 45;
  private static final double MOSTLY_NONE = 0.75;

  private final Features features;
  private final StereoPowers powers;
  private final double barSeconds;
  private final double startSeconds;
  private final double endSeconds;

  /**
   * @param song from its first to its last beat
   */
  PlayerLayers(Features features, StereoPowers powers, double barSeconds, Span song) {
    this.features = features;
    this.powers = powers;
    this.barSeconds = barSeconds;
    this.startSeconds = song.startSeconds();
    this.endSeconds = song.endSeconds();
  }

  /** Those of a song whose bars are known. */
  public static PlayerLayers of(Features features, Reading reading) {
    return new PlayerLayers(
        features,
        StereoPowers.of(features.image()),
        LayeredTexture.barSeconds(reading),
        LayeredTexture.song(reading));
  }

  /** All of them. */
  List<Layer> layers(List<NoteEvent> bass, List<NoteEvent> lead, RestSettings settings) {
    List<Layer> layers = new ArrayList<>(drums(settings));
    layers.addAll(bass(bass, settings));
    layers.addAll(lead(lead, settings));
    return layers;
  }

  public List<Layer> drums(RestSettings settings) {
    List<Layer> layers = new ArrayList<>();
    if (features.heard().isPresent()) {
      DrumLayers drums =
          new DrumLayers(features.heard().get(), powers, barSeconds, features.durationSeconds());
      drums
          .found()
          .forEach(
              (kind, stretches) ->
                  layers.addAll(
                      played(
                          kind,
                          stretches,
                          rests(
                              (start, end) -> drums.struck(kind, start, end), settings.drums()))));
    }
    return layers;
  }

  public List<Layer> bass(List<NoteEvent> notes, RestSettings settings) {
    if (features.heard().isEmpty()) {
      return List.of();
    }
    EarActivations ear = features.heard().get();
    Rests rests = rests((start, end) -> bassThrough(ear, start, end), settings.bass());
    List<Stretch> stretches = Stretches.of(bassSounds(notes, ear), GAP_BARS * barSeconds, 3);
    return played(LayerKind.BASS, stretches, rests);
  }

  private List<Layer> played(LayerKind kind, List<Stretch> stretches, Rests rests) {
    List<Stretch> judged =
        rests.toTheEdges(rests.longer(rests.joined(stretches)), startSeconds, endSeconds);
    return told(kind, Stretches.toTheEnd(judged, endSeconds, GAP_BARS * barSeconds));
  }

  public List<Layer> lead(List<NoteEvent> notes, RestSettings settings) {
    if (features.heard().isEmpty()) {
      return told(LayerKind.LEAD, Stretches.of(sounds(notes), GAP_BARS * barSeconds, 2));
    }
    EarActivations ear = features.heard().get();
    Rests rests = rests((start, end) -> leadThrough(ear, start, end), settings.lead());
    List<Stretch> stretches = Stretches.of(sounds(notes), GAP_BARS * barSeconds, 2);
    return told(
        LayerKind.LEAD, rests.toTheEdges(rests.joined(stretches), startSeconds, endSeconds));
  }

  private Rests rests(Rests.Activity activity, RestSettings.Limit limit) {
    return new Rests(activity, limit, barSeconds, features.durationSeconds());
  }

  private static List<Layer> told(LayerKind kind, List<Stretch> stretches) {
    return stretches.stream()
        .map(s -> new Layer(kind, s.span(), OptionalDouble.empty(), s.probability()))
        .toList();
  }

  private static List<Sound> sounds(List<NoteEvent> notes) {
    return notes.stream()
        .map(n -> new Sound(n.span().startSeconds(), n.span().endSeconds(), n.probability()))
        .toList();
  }

  /** How much of a span the ear hears a bass. */
  private static double bassThrough(EarActivations ear, double start, double end) {
    FrameMatrix pitch = ear.head(EarHead.BASS_PITCH);
    return mean(pitch, start, end, frame -> 1 - pitch.at(frame, NO_BASS));
  }

  /** How much of a span the ear hears a lead. */
  private static double leadThrough(EarActivations ear, double start, double end) {
    FrameMatrix voicing = ear.head(EarHead.VOICING);
    return mean(voicing, start, end, frame -> voicing.at(frame, 0));
  }

  private interface Curve {
    double at(int frame);
  }

  private static double mean(FrameMatrix matrix, double start, double end, Curve curve) {
    double sum = 0;
    int from = Math.max(0, matrix.clock().frameAt(start));
    int last = Math.min(matrix.frames(), matrix.clock().frameAt(end));
    for (int frame = from; frame < last; frame++) {
      sum += curve.at(frame);
    }
    return last > from ? sum / (last - from) : 0;
  }

  /** Bass notes through which the ear does not mostly hear none. */
  private List<Sound> bassSounds(List<NoteEvent> bass, EarActivations ear) {
    FrameMatrix pitch = ear.head(EarHead.BASS_PITCH);
    List<Sound> sounds = new ArrayList<>();
    for (NoteEvent note : bass) {
      int from = Math.min(pitch.frames() - 1, pitch.clock().frameAt(note.span().startSeconds()));
      int end =
          Math.min(
              pitch.frames(), Math.max(from + 1, pitch.clock().frameAt(note.span().endSeconds())));
      double none = 0;
      for (int frame = from; frame < end; frame++) {
        none += pitch.at(frame, NO_BASS) / (end - from);
      }
      if (none < MOSTLY_NONE) {
        sounds.add(new Sound(note.span().startSeconds(), note.span().endSeconds(), 1 - none));
      }
    }
    return Stretches.inCompany(sounds, 2 * barSeconds, 1);
  }
}
