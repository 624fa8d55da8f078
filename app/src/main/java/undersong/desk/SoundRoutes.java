package undersong.desk;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.Path;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import javax.imageio.ImageIO;
import undersong.render.PlainTones;
import undersong.render.focus.Focus;
import undersong.study.SongSound;
import undersong.study.SpanPicture;
import undersong.study.Study;
import undersong.technique.Technique;
import undersong.time.Span;
import undersong.work.Cancellation;

/** What can be played, and pictures of it. */
final class SoundRoutes {
  private static final double LONGEST_RENDERING_SECONDS = 600;
  private static final int MOST_COLUMNS = 4000;

  /** Songs are known by their sound: what is played and drawn of one never changes. */
  private static final String FOR_GOOD = "private, max-age=86400, immutable";

  private final Study study;

  SoundRoutes(Study study) {
    this.study = study;
  }

  void addTo(RoutesConfig routes) {
    routes.get(
        "/api/songs/{song}/sound",
        request -> {
          request.header("Cache-Control", FOR_GOOD);
          send(request, study.sound().file(Requests.song(request)));
        });
    routes.get("/api/songs/{song}/peaks", this::peaks);
    routes.get("/api/songs/{song}/picture", this::picture);
    routes.get("/api/songs/{song}/focus/{focus}", this::focus);
    routes.get("/api/songs/{song}/check", this::check);
    routes.get("/api/songs/{song}/plain", this::plain);
    routes.get("/api/songs/{song}/part-over", this::partOver);
    routes.get("/api/songs/{song}/hearings/{hearing}/tones", this::heard);
  }

  private void peaks(Context request) {
    int columns = Requests.count(request, "columns", 1000, MOST_COLUMNS);
    SongSound.Peaks peaks =
        study.sound().peaks(Requests.song(request), Requests.span(request), columns);
    ObjectNode body =
        Json.object()
            .put("fromSeconds", Json.rounded(peaks.span().startSeconds()))
            .put("toSeconds", Json.rounded(peaks.span().endSeconds()));
    add(peaks.lowest(), body.putArray("lowest"));
    add(peaks.highest(), body.putArray("highest"));
    request.header("Cache-Control", FOR_GOOD);
    Json.send(request, body);
  }

  private static void add(List<Float> values, ArrayNode array) {
    values.forEach(value -> array.add(Json.share(value)));
  }

  private void picture(Context request) throws IOException {
    int columns = Requests.count(request, "columns", 800, MOST_COLUMNS / 2);
    SpanPicture picture =
        study.sound().picture(Requests.song(request), Requests.span(request), columns);
    BufferedImage image =
        new BufferedImage(picture.columns(), picture.rows(), BufferedImage.TYPE_BYTE_GRAY);
    image.getRaster().setDataElements(0, 0, picture.columns(), picture.rows(), picture.points());
    ByteArrayOutputStream png = new ByteArrayOutputStream();
    ImageIO.write(image, "png", png);
    request.header("X-Lowest-Midi", Double.toString(picture.lowestMidi()));
    request.header("X-Rows-Per-Semitone", Integer.toString(picture.rowsPerSemitone()));
    request.header("X-To-Seconds", Double.toString(picture.span().endSeconds()));
    request.header("Cache-Control", FOR_GOOD);
    request.contentType("image/png").result(png.toByteArray());
  }

  private void focus(Context request) throws IOException {
    Focus focus = Requests.oneOf(Focus.values(), request.pathParam("focus"), "focus");
    Span span = Requests.span(request, LONGEST_RENDERING_SECONDS);
    request.header("Cache-Control", FOR_GOOD);
    send(request, study.sound().focus(Requests.song(request), focus, span, new Cancellation()));
  }

  private void check(Context request) throws IOException {
    String asked = request.queryParam("layers");
    Set<PlainTones.Layer> layers = EnumSet.noneOf(PlainTones.Layer.class);
    if (asked == null) {
      layers = EnumSet.allOf(PlainTones.Layer.class);
    } else {
      for (String layer : asked.split(",", -1)) {
        layers.add(Requests.oneOf(PlainTones.Layer.values(), layer, "layer"));
      }
    }
    Span span = Requests.span(request, LONGEST_RENDERING_SECONDS);
    send(request, study.sound().check(Requests.song(request), layers, span, new Cancellation()));
  }

  private void plain(Context request) throws IOException {
    Technique technique = Requests.technique(Requests.needed(request, "technique"));
    double at = Requests.seconds(request, "atSeconds", 0);
    Span span = Requests.span(request, LONGEST_RENDERING_SECONDS);
    send(
        request,
        study.sound().plain(Requests.song(request), technique, at, span, new Cancellation()));
  }

  private void heard(Context request) throws IOException {
    Span span = Requests.span(request, LONGEST_RENDERING_SECONDS);
    send(
        request,
        study
            .sound()
            .heard(
                Requests.song(request),
                Requests.number(request, "hearing"),
                span,
                new Cancellation()));
  }

  private void partOver(Context request) throws IOException {
    Span span = Requests.span(request, LONGEST_RENDERING_SECONDS);
    send(
        request,
        study
            .sound()
            .partOver(
                Requests.song(request),
                Requests.needed(request, "letter"),
                Requests.count(request, "occurrence", 2, 1000),
                Requests.needed(request, "part"),
                span,
                new Cancellation()));
  }

  /** Sends a WAV file or the part of it that is asked for. */
  private static void send(Context request, Path file) throws IOException {
    FileChannel channel = FileChannel.open(file);
    long length = channel.size();
    request.header("Accept-Ranges", "bytes").contentType("audio/wav");
    ByteRange range = new ByteRange(0, length - 1);
    var asked = ByteRange.parse(request.header("Range"), length);
    if (asked.isPresent()) {
      range = asked.get();
      if (!range.satisfiable()) {
        channel.close();
        request.header("Content-Range", "bytes */" + length);
        throw new Requests.BeyondTheEnd(range.first(), length);
      }
      request.status(206);
      request.header(
          "Content-Range", "bytes %d-%d/%d".formatted(range.first(), range.last(), length));
    }
    request.header("Content-Length", Long.toString(range.length()));
    request.result(new FileSlice(channel, range));
  }
}
