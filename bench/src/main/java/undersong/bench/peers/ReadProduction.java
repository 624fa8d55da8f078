package undersong.bench.peers;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import undersong.bench.metrics.EchoMetrics;
import undersong.bench.metrics.RoomMetrics;
import undersong.bench.metrics.SpaceMetrics;
import undersong.bench.metrics.SungNote;
import undersong.bench.metrics.Timed;
import undersong.reading.Bar;
import undersong.reading.Echo;
import undersong.reading.Facet;
import undersong.reading.Gesture;
import undersong.reading.Layer;
import undersong.reading.LineKind;
import undersong.reading.NoteEvent;
import undersong.reading.PlacedEvent;
import undersong.reading.Reading;
import undersong.reading.Repeat;
import undersong.reading.Reverb;
import undersong.reading.Space;
import undersong.reading.Texture;
import undersong.time.Span;

/** What a reading says of the production, in the shape in which it is scored. */
final class ReadProduction {
  private final Reading reading;

  private ReadProduction(Reading reading) {
    this.reading = reading;
  }

  static Produced of(Reading reading) {
    return new ReadProduction(reading).produced();
  }

  private Produced produced() {
    Texture texture = reading.get(Facet.TEXTURE);
    List<Reverb> reverbs = reading.get(Facet.ECHOES).reverbs();
    return new Produced(
        reading.get(Facet.VOICES).voices().stream()
            .flatMap(v -> v.events().stream())
            .map(ReadProduction::note)
            .toList(),
        reading.get(Facet.LINES).lines().stream()
            .filter(l -> !l.kind().equals(Optional.of(LineKind.CHORD_VOICE)))
            .flatMap(l -> l.notes().stream())
            .map(ReadProduction::note)
            .toList(),
        reading.get(Facet.SPACE).events().stream().map(ReadProduction::placed).toList(),
        reading.get(Facet.ECHOES).echoes().stream().map(ReadProduction::copy).toList(),
        texture.layers().stream().flatMap(l -> layer(l).stream()).toList(),
        additions(),
        widths(),
        texture.gestures().stream()
            .filter(g -> g.kind() == Gesture.Kind.OPENING || g.kind() == Gesture.Kind.CLOSING)
            .map(g -> timed(g.span(), g.kind() == Gesture.Kind.OPENING ? "opens" : "closes"))
            .toList(),
        texture.ducking().stream().map(d -> timed(d.span(), d.depthDb())).toList(),
        reverbs.stream().map(ReadProduction::room).toList(),
        reverbs.stream()
            .filter(r -> r.changeDb() != 0)
            .map(r -> new RoomMetrics.Change(r.span().startSeconds(), r.changeDb()))
            .toList());
  }

  private static <T> Timed<T> timed(Span span, T value) {
    return new Timed<>(span.startSeconds(), span.endSeconds(), value);
  }

  private static SungNote note(NoteEvent n) {
    return new SungNote(n.span().startSeconds(), n.span().endSeconds(), n.midiPitch());
  }

  /** A stated pitch holds half a semitone to either side. */
  private static SpaceMetrics.Placed placed(PlacedEvent e) {
    boolean pitched = e.midiPitch().isPresent();
    double pitch = e.midiPitch().orElse(0);
    return new SpaceMetrics.Placed(
        e.span().startSeconds(),
        e.span().endSeconds(),
        pitched ? hertz(pitch - 0.5) : e.bottomHz(),
        pitched ? hertz(pitch + 0.5) : e.topHz(),
        e.placement());
  }

  private static double hertz(double midiPitch) {
    return 440 * Math.pow(2, (midiPitch - 69) / 12);
  }

  private static EchoMetrics.Copy copy(Echo e) {
    EchoMetrics.Kind kind =
        switch (e.kind()) {
          case DELAY -> EchoMetrics.Kind.DELAY;
          case RESUNG -> EchoMetrics.Kind.AGAIN;
          case DOUBLE -> EchoMetrics.Kind.DOUBLE;
        };
    return new EchoMetrics.Copy(
        kind, e.span().startSeconds(), e.span().endSeconds(), e.lagSeconds());
  }

  private static RoomMetrics.Room room(Reverb r) {
    return new RoomMetrics.Room(
        r.span().startSeconds(), r.span().endSeconds(), r.decaySeconds(), r.wetToDryDb());
  }

  private static List<Timed<String>> layer(Layer layer) {
    String name =
        switch (layer.kind()) {
          case KICK, SNARE, CYMBAL -> "drums";
          case BASS -> "bass";
          case LEAD -> "lead";
          default -> "";
        };
    return name.isEmpty() ? List.of() : List.of(timed(layer.span(), name));
  }

  private List<SungNote> additions() {
    List<SungNote> added = new ArrayList<>();
    for (Repeat repeat : reading.get(Facet.REPEATS).repeats()) {
      for (Repeat.NoteChange change : repeat.notes()) {
        if (change.fate() != Repeat.NoteFate.REMOVED) {
          added.add(note(change.event()));
        }
      }
    }
    return added;
  }

  private List<Timed<Double>> widths() {
    Space space = reading.get(Facet.SPACE);
    List<Bar> bars = reading.get(Facet.METER).bars();
    List<Timed<Double>> widths = new ArrayList<>();
    for (int b = 0; b < Math.min(bars.size(), space.bars().size()); b++) {
      widths.add(timed(bars.get(b).span(), space.bars().get(b).sideToMidDb()));
    }
    return widths;
  }
}
