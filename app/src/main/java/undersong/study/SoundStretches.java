package undersong.study;

import java.util.ArrayList;
import java.util.List;
import undersong.reading.Echo;
import undersong.reading.Echoes;
import undersong.reading.Layer;
import undersong.reading.PlacedEvent;
import undersong.reading.Reverb;
import undersong.reading.Space;
import undersong.reading.Texture;

/** Space, texture and echoes in words, stretch by stretch. */
final class SoundStretches {
  private SoundStretches() {}

  static List<Stretch> of(Space space) {
    return space.events().stream()
        .map(event -> new Stretch(event.span(), event.source().words() + " " + place(event)))
        .toList();
  }

  static List<Stretch> of(Texture texture) {
    List<Stretch> stretches = new ArrayList<>();
    for (Layer layer : texture.layers()) {
      stretches.add(new Stretch(layer.span(), layer.kind().words()));
    }
    texture.gestures().forEach(g -> stretches.add(new Stretch(g.span(), lower(g.kind().name()))));
    texture
        .ducking()
        .forEach(d -> stretches.add(new Stretch(d.span(), "ducks %.0f dB".formatted(d.depthDb()))));
    return stretches;
  }

  static List<Stretch> of(Echoes echoes) {
    List<Stretch> stretches = new ArrayList<>();
    echoes.echoes().forEach(echo -> stretches.add(new Stretch(echo.span(), words(echo))));
    echoes.reverbs().forEach(room -> stretches.add(new Stretch(room.span(), words(room))));
    return stretches;
  }

  private static String words(Reverb room) {
    double decay = room.meanDecaySeconds();
    String falls = decay == 0 ? "" : ", falls in %.1f s".formatted(decay);
    return "room %+.0f dB%s".formatted(room.wetToDryDb(), falls);
  }

  private static String words(Echo echo) {
    String note = echo.noteValue().map(value -> ", " + value).orElse("");
    return "%s %.0f ms%s".formatted(lower(echo.kind().name()), 1000 * echo.lagSeconds(), note);
  }

  private static String place(PlacedEvent event) {
    double placement = event.placement();
    if (Math.abs(placement) < 0.05) {
      return "in the middle";
    }
    return "%.0f %% %s".formatted(100 * Math.abs(placement), placement < 0 ? "left" : "right");
  }

  private static String lower(String name) {
    return name.toLowerCase(java.util.Locale.ROOT);
  }
}
