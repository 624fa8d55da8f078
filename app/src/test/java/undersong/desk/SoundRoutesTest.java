package undersong.desk;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.net.http.HttpResponse;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.ShortBuffer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import undersong.study.StandInStudy;

class SoundRoutesTest {
  private static final int LENGTH = 44 + 4 * 24 * 44_100;

  @TempDir Path folder;
  private TestDesk desk;
  private byte[] file;
  private String song;

  @BeforeEach
  void open() throws Exception {
    desk = new TestDesk(folder, StandInStudy.in(folder));
    Path path = TestDesk.song(folder, "low tide.wav");
    file = Files.readAllBytes(path);
    song = "/api/songs/" + desk.study.study(path).song().id();
  }

  @AfterEach
  void close() {
    desk.close();
  }

  @Test
  void theWholeIsTheRecordingSampleBySample() throws Exception {
    HttpResponse<byte[]> whole = desk.bytes(song + "/sound");
    assertThat(whole.statusCode()).isEqualTo(200);
    assertThat(whole.headers().firstValue("Accept-Ranges")).contains("bytes");
    assertThat(whole.headers().firstValue("Content-Type")).contains("audio/wav");
    assertThat(Arrays.copyOf(whole.body(), 44)).isEqualTo(Arrays.copyOf(file, 44));
    assertSameSound(whole.body(), 44, 44);
  }

  @Test
  void aRangeIsThatPartOfIt() throws Exception {
    HttpResponse<byte[]> part = desk.bytes(song + "/sound", "Range", "bytes=44-4043");
    assertThat(part.statusCode()).isEqualTo(206);
    assertThat(part.headers().firstValue("Content-Range")).contains("bytes 44-4043/" + LENGTH);
    assertThat(part.body()).hasSize(4000);
    assertSameSound(part.body(), 0, 44);
    HttpResponse<byte[]> end = desk.bytes(song + "/sound", "Range", "bytes=-400");
    assertThat(end.statusCode()).isEqualTo(206);
    assertThat(end.body()).hasSize(400);
    assertSameSound(end.body(), 0, LENGTH - 400);
    HttpResponse<byte[]> rest = desk.bytes(song + "/sound", "Range", "bytes=4000000-");
    assertThat(rest.body()).hasSize(LENGTH - 4_000_000);
    assertSameSound(rest.body(), 0, 4_000_000);
  }

  /** To one step of 16 bits: full scale is 32768 to the decoder and 32767 to the writer. */
  private void assertSameSound(byte[] answer, int from, int fromInFile) {
    ShortBuffer heard = samples(answer, from);
    ShortBuffer played = samples(file, fromInFile);
    int furthest = 0;
    while (heard.hasRemaining()) {
      furthest = Math.max(furthest, Math.abs(heard.get() - played.get()));
    }
    assertThat(furthest).isLessThanOrEqualTo(1);
  }

  private static ShortBuffer samples(byte[] bytes, int from) {
    return ByteBuffer.wrap(bytes, from, bytes.length - from)
        .slice()
        .order(ByteOrder.LITTLE_ENDIAN)
        .asShortBuffer();
  }

  @Test
  void pastTheEndIsSaidAtOnce() throws Exception {
    HttpResponse<String> beyond = desk.get(song + "/sound", "Range", "bytes=" + LENGTH + "-");
    assertThat(beyond.statusCode()).isEqualTo(416);
    assertThat(beyond.headers().firstValue("Content-Range")).contains("bytes */" + LENGTH);
    assertThat(beyond.headers().firstValue("Cache-Control")).contains("no-store");
  }

  @Test
  void severalRangesAndJunkGetTheWhole() throws Exception {
    for (String range : new String[] {"bytes=0-1,4-5", "junk", "bytes=9-3"}) {
      HttpResponse<byte[]> whole = desk.bytes(song + "/sound", "Range", range);
      assertThat(whole.statusCode()).isEqualTo(200);
      assertThat(whole.body()).hasSize(LENGTH);
    }
  }

  @Test
  void peaksAreThoseOfTheSine() throws Exception {
    JsonNode peaks = desk.json(song + "/peaks?fromSeconds=1&toSeconds=2&columns=10");
    assertThat(peaks.path("highest")).hasSize(10);
    for (int column = 0; column < 10; column++) {
      assertThat(peaks.path("highest").get(column).asDouble()).isBetween(0.495, 0.505);
      assertThat(peaks.path("lowest").get(column).asDouble()).isBetween(-0.505, -0.495);
    }
    assertThat(peaks.path("toSeconds").asDouble()).isEqualTo(2);
  }

  /** A4 is 440 Hz (ISO 16) and MIDI number 69. */
  @Test
  void thePictureShowsTheNoteWhereItLies() throws Exception {
    HttpResponse<byte[]> picture =
        desk.bytes(song + "/picture?fromSeconds=4&toSeconds=6&columns=40");
    BufferedImage image = ImageIO.read(new ByteArrayInputStream(picture.body()));
    double lowest = Double.parseDouble(picture.headers().firstValue("X-Lowest-Midi").orElseThrow());
    int rows = Integer.parseInt(picture.headers().firstValue("X-Rows-Per-Semitone").orElseThrow());
    assertThat(image.getWidth()).isEqualTo(40);
    for (int column = 0; column < 40; column++) {
      int brightest = 0;
      for (int row = 0; row < image.getHeight(); row++) {
        if (level(image, column, row) > level(image, column, brightest)) {
          brightest = row;
        }
      }
      double midi = lowest + (double) (image.getHeight() - 1 - brightest) / rows;
      assertThat(midi).isEqualTo(69);
      // Half of full scale on one of two channels: 12 dB below a full-scale sine in both.
      assertThat(level(image, column, brightest)).isBetween(221, 225);
    }
  }

  private static int level(BufferedImage image, int column, int row) {
    return image.getRaster().getSample(column, row, 0);
  }

  @Test
  void focusAndCheckBeginWhereTheyAreAsked() throws Exception {
    byte[] left = desk.bytes(song + "/focus/left?fromSeconds=2&toSeconds=3").body();
    assertThat(left).hasSize(44 + 4 * 44_100);
    byte[] check = desk.bytes(song + "/check?fromSeconds=2&toSeconds=3&layers=bass").body();
    assertThat(check).hasSize(44 + 4 * 44_100);
    assertThat(desk.get(song + "/focus/none").statusCode()).isEqualTo(400);
    assertThat(desk.get(song + "/check?layers=drums").body()).contains("bass, chords, melody");
    assertThat(desk.get(song + "/check?fromSeconds=0&toSeconds=700").statusCode()).isEqualTo(400);
  }

  /** What somebody heard sounds as it would if it were said; a key has no sound. */
  @Test
  void whatAListenerHeardSoundsAsIfItWereSaid() throws Exception {
    String span = "fromSeconds=2&toSeconds=4";
    String chord = "{\"kind\": \"ChordOver\", \"span\": [2, 4], \"chord\": \"F#m\"}";
    desk.post(song + "/hearings", "{\"heard\": %s}".formatted(chord));
    desk.post(
        song + "/hearings",
        "{\"heard\": {\"kind\": \"KeyOver\", \"span\": [2, 4], \"key\": \"F# minor\"}}");
    var hearings = desk.json(song + "/hearings").path("hearings");
    String tones = song + "/hearings/" + hearings.get(0).path("id").asLong() + "/tones?" + span;
    String check = song + "/check?layers=bass,chords,melody&" + span;
    byte[] heard = desk.bytes(tones).body();
    assertThat(heard.length).isEqualTo(44 + 2 * 44_100 * 4);
    assertThat(heard).isNotEqualTo(desk.bytes(check).body());
    desk.post(song + "/corrections", "{\"corrections\": [%s]}".formatted(chord));
    assertThat(desk.bytes(check).body()).isEqualTo(heard);
    String key = song + "/hearings/" + hearings.get(1).path("id").asLong() + "/tones?" + span;
    assertThat(desk.get(key).statusCode()).isEqualTo(404);
    assertThat(desk.get(song + "/hearings/99/tones?" + span).statusCode()).isEqualTo(404);
  }

  @Test
  void spansThatMakeNoSenseAreRefused() throws Exception {
    for (String span :
        new String[] {
          "fromSeconds=-1",
          "fromSeconds=5&toSeconds=5",
          "fromSeconds=x",
          "columns=0",
          "columns=99999",
          "fromSeconds=NaN",
          "fromSeconds=25"
        }) {
      assertThat(desk.get(song + "/peaks?" + span).statusCode()).as(span).isEqualTo(400);
    }
  }
}
