package undersong.bench.plant;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import undersong.reading.Ducking;
import undersong.reading.Echo;
import undersong.reading.Gesture;
import undersong.reading.Layer;
import undersong.reading.LayerKind;
import undersong.reading.Line;
import undersong.reading.Lines;
import undersong.reading.PlacedEvent;
import undersong.reading.SoundSource;
import undersong.render.DemoSong;
import undersong.render.score.Mix;
import undersong.render.score.PartRole;
import undersong.render.score.PlayedNote;
import undersong.render.score.Truth;
import undersong.render.synth.Sound;
import undersong.time.Span;

/**
 * The production side of a score: layers, places, copies, movements, read off what was written.
 * Levels and brightness are not written in a score; they are measured.
 */
final class StagedTruth {
  private static final double SECONDS_OF_A_STOP = 0.8;
  private static final double RINGS_SECONDS = 0.1;

  private final DemoSong song;
  private final double barSeconds;

  StagedTruth(DemoSong song) {
    this.song = song;
    this.barSeconds = song.score().meter().beats() * 60 / song.score().bpm();
  }

  List<Layer> layers() {
    Map<LayerKind, List<Span>> sounding = new EnumMap<>(LayerKind.class);
    for (PlayedNote note : song.performance().notes()) {
      kind(note)
          .ifPresent(
              kind ->
                  sounding
                      .computeIfAbsent(kind, k -> new ArrayList<>())
                      .add(new Span(note.startSeconds(), note.endSeconds())));
    }
    List<Layer> layers = new ArrayList<>();
    sounding.forEach((kind, spans) -> layers.addAll(joined(kind, spans)));
    layers.sort(Comparator.comparingDouble(layer -> layer.span().startSeconds()));
    return layers;
  }

  private List<Layer> joined(LayerKind kind, List<Span> spans) {
    spans.sort(Comparator.comparingDouble(Span::startSeconds));
    List<Layer> layers = new ArrayList<>();
    OptionalDouble decay =
        kind == LayerKind.PLUCKED ? OptionalDouble.of(0.25) : OptionalDouble.empty();
    Span open = spans.get(0);
    for (Span span : spans) {
      if (span.startSeconds() - open.endSeconds() >= barSeconds) {
        layers.add(new Layer(kind, open, decay, 1));
        open = span;
      } else {
        open = new Span(open.startSeconds(), Math.max(open.endSeconds(), span.endSeconds()));
      }
    }
    layers.add(new Layer(kind, open, decay, 1));
    return layers;
  }

  private static Optional<LayerKind> kind(PlayedNote note) {
    if (note.part().role() == PartRole.MELODY) {
      return Optional.of(LayerKind.LEAD);
    }
    return switch (note.part().sound()) {
      case KICK -> Optional.of(LayerKind.KICK);
      case SNARE, SNAP, BRUSH -> Optional.of(LayerKind.SNARE);
      case HAT, OPEN_HAT, CYMBAL -> Optional.of(LayerKind.CYMBAL);
      case BASS -> Optional.of(LayerKind.BASS);
      case SUB -> Optional.of(LayerKind.SUB_BASS);
      case PAD, ORGAN -> Optional.of(LayerKind.HELD);
      case PLUCK -> Optional.of(LayerKind.PLUCKED);
      case VOICE, LOW_VOICE -> Optional.of(LayerKind.FURTHER_VOICE);
      default -> Optional.empty();
    };
  }

  /** Every note of a single line, where its part stands. */
  List<PlacedEvent> places() {
    List<PlacedEvent> events = new ArrayList<>();
    Map<String, Integer> turns = new java.util.HashMap<>();
    for (PlayedNote note : song.performance().notes()) {
      PartRole role = note.part().role();
      if (role != PartRole.MELODY && role != PartRole.VOICE && role != PartRole.LINE) {
        continue;
      }
      Mix mix = song.performance().mix(note.part(), note.sectionIndex()).orElseThrow();
      int turn = turns.merge(note.part().name() + note.sectionIndex(), 1, Integer::sum);
      double pan =
          mix.get("sway") > 0 ? mix.get("sway") * (turn % 2 == 0 ? 1 : -1) : mix.get("pan");
      double hertz = 440 * Math.pow(2, (note.midiPitch() - 69) / 12.0);
      events.add(
          new PlacedEvent(
              new Span(note.startSeconds(), note.endSeconds()),
              role == PartRole.MELODY ? SoundSource.LEAD : SoundSource.LINE,
              OptionalDouble.of(note.midiPitch()),
              hertz * 0.9,
              hertz * 5,
              pan,
              role == PartRole.MELODY ? -5 : -10,
              1));
    }
    return events;
  }

  /** The lines, with the takeovers that were planted. */
  Lines lines(Lines written) {
    List<Lines.Takeover> takeovers = new ArrayList<>();
    for (Truth.Planted planted : song.truth().planted()) {
      if (planted.techniqueId().equals("layer-follows")) {
        double at = planted.span().startSeconds();
        double before = at - planted.span().lengthSeconds();
        Optional<Line> from = sounding(written, before);
        Optional<Line> to = sounding(written, at);
        if (from.isPresent() && to.isPresent()) {
          takeovers.add(
              new Lines.Takeover(from.get().name(), to.get().name(), Math.max(0, before), at, 1));
        }
      }
    }
    return new Lines(written.lines(), takeovers);
  }

  private static Optional<Line> sounding(Lines lines, double seconds) {
    return lines.lines().stream()
        .filter(
            line ->
                line.notes().stream()
                    .anyMatch(note -> Math.abs(note.span().startSeconds() - seconds) < 0.5))
        .findFirst();
  }

  List<Gesture> gestures() {
    List<Gesture> gestures = new ArrayList<>();
    for (PlayedNote note : song.performance().notes()) {
      Span span = new Span(note.startSeconds(), note.endSeconds());
      if (note.part().sound() == Sound.RISER) {
        gestures.add(new Gesture(Gesture.Kind.RISER, span, 2, 12, 1, 1));
      } else if (note.part().sound() == Sound.SWELL) {
        gestures.add(new Gesture(Gesture.Kind.SWELL, span, 0.5, 20, 1, 1));
      }
    }
    for (int s = 0; s < song.performance().sections(); s++) {
      Span span = section(s);
      for (var part : song.score().parts()) {
        double from = song.performance().mix(part, s).map(mix -> mix.get("sweep-from")).orElse(0.0);
        double to = song.performance().mix(part, s).map(mix -> mix.get("sweep-to")).orElse(0.0);
        if (from > 0 && to > 0) {
          Gesture.Kind kind = to > from ? Gesture.Kind.OPENING : Gesture.Kind.CLOSING;
          double octaves = Math.log(to / from) / Math.log(2);
          gestures.add(new Gesture(kind, span, octaves, 0, Math.signum(octaves), 1));
          break;
        }
      }
    }
    gestures.addAll(stops());
    gestures.sort(Comparator.comparingDouble(gesture -> gesture.span().startSeconds()));
    return gestures;
  }

  /** Where nothing is struck or held and the music goes on after it. */
  private List<Gesture> stops() {
    List<Gesture> stops = new ArrayList<>();
    double end = Double.NaN;
    List<PlayedNote> notes = new ArrayList<>(song.performance().notes());
    notes.sort(Comparator.comparingDouble(PlayedNote::startSeconds));
    for (PlayedNote note : notes) {
      if (note.startSeconds() - end >= SECONDS_OF_A_STOP) {
        Span span = new Span(end + RINGS_SECONDS, note.startSeconds());
        stops.add(new Gesture(Gesture.Kind.STOP, span, 0, -30, 0, 1));
      }
      // drums are written as long as their slot, and sound as long as they ring
      double until = note.part().sound().isDrum() ? note.startSeconds() + 0.15 : note.endSeconds();
      end = Double.isNaN(end) ? until : Math.max(end, until);
    }
    return stops;
  }

  List<Ducking> ducking() {
    List<Ducking> ducking = new ArrayList<>();
    for (int s = 0; s < song.performance().sections(); s++) {
      double deepest = 0;
      for (var part : song.score().parts()) {
        deepest =
            Math.max(
                deepest, song.performance().mix(part, s).map(mix -> mix.get("duck")).orElse(0.0));
      }
      if (deepest > 0) {
        ducking.add(new Ducking(section(s), deepest, 0.015, 0.15, 1));
      }
    }
    return ducking;
  }

  List<Echo> echoes() {
    List<Echo> echoes = new ArrayList<>();
    for (Truth.Echo delay : song.truth().echoes()) {
      List<PlayedNote> sources =
          song.performance().notes().stream()
              .filter(n -> n.part().name().equals(delay.part()))
              .filter(n -> delay.span().contains(n.startSeconds() + 1e-6))
              .filter(n -> !delay.thrown() || n.thrown())
              .toList();
      if (!sources.isEmpty()) {
        echoes.add(delay(delay, sources));
      }
    }
    for (Truth.Placement place : song.truth().placements()) {
      if (place.doubled() > 0) {
        echoes.add(
            copy(
                Echo.Kind.DOUBLE,
                place.span(),
                0.014,
                0.006,
                7,
                -place.doubled(),
                place.doubled()));
      }
    }
    for (Truth.Planted planted : song.truth().planted()) {
      if (planted.techniqueId().equals("resung-echo")) {
        echoes.add(copy(Echo.Kind.RESUNG, planted.span(), barSeconds, 0.024, 12, 0, 0.55));
      }
    }
    echoes.sort(Comparator.comparingDouble(echo -> echo.span().startSeconds()));
    return echoes;
  }

  private static Echo delay(Truth.Echo delay, List<PlayedNote> sources) {
    double last = sources.get(sources.size() - 1).endSeconds() + 2 * delay.lagSeconds();
    List<Echo.Repeat> repeats = new ArrayList<>();
    for (int i = 1; i <= 3; i++) {
      repeats.add(new Echo.Repeat(-i * delay.fallDecibels(), 0.35, -1));
    }
    return new Echo(
        Echo.Kind.DELAY,
        new Span(sources.get(0).startSeconds(), last),
        delay.lagSeconds(),
        0,
        0,
        Optional.empty(),
        0.35,
        repeats,
        1);
  }

  private static Echo copy(
      Echo.Kind kind,
      Span span,
      double lag,
      double lagWander,
      double centsWander,
      double from,
      double to) {
    return new Echo(
        kind,
        span,
        lag,
        lagWander,
        centsWander,
        Optional.empty(),
        from,
        List.of(new Echo.Repeat(-1, to, 0)),
        1);
  }

  private Span section(int index) {
    return new Span(
        song.performance().sectionStartSeconds(index), song.performance().sectionEndSeconds(index));
  }
}
