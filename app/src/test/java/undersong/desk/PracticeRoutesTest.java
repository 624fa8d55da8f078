package undersong.desk;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.ByteArrayInputStream;
import java.nio.file.Path;
import javax.sound.midi.MidiSystem;
import javax.sound.sampled.AudioSystem;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import undersong.study.StandInStudy;

class PracticeRoutesTest {
  @TempDir Path folder;
  private TestDesk desk;
  private long song;

  @BeforeEach
  void open() throws Exception {
    desk = new TestDesk(folder, StandInStudy.in(folder));
    song = desk.study.study(TestDesk.song(folder, "low tide.wav")).song().id();
  }

  @AfterEach
  void close() {
    desk.close();
  }

  @Test
  void exercisesComeWithTheirAnswersInOneOrder() throws Exception {
    String drills = "/api/songs/" + song + "/drills";
    JsonNode body = desk.json(drills + "?kinds=quality,loop&each=3&seed=5");
    assertThat(body.path("drills")).hasSize(2 * 3 * 3);
    assertThat(body.path("kinds")).hasSize(10);
    assertThat(desk.json(drills + "?kinds=quality,loop&each=3&seed=5")).isEqualTo(body);
    assertThat(desk.json(drills + "?kinds=quality,loop&each=3&seed=6")).isNotEqualTo(body);
    String key = desk.get(drills + "/answers?kinds=quality,loop&each=3&seed=5").body();
    for (JsonNode drill : body.path("drills")) {
      String right = drill.path("choices").get(drill.path("answer").asInt()).asText();
      assertThat(key).contains(". " + right + ". " + drill.path("explanation").asText());
    }
    assertThat(key.lines().filter(line -> line.matches(" +3\\. .*"))).hasSize(2 * 3);
    assertThat(desk.get(drills + "?kinds=juggling").statusCode()).isEqualTo(400);
    assertThat(desk.get(drills + "?each=51").statusCode()).isEqualTo(400);
    assertThat(desk.get(drills + "?seed=x").statusCode()).isEqualTo(400);
    assertThat(desk.get("/api/songs/99/drills").statusCode()).isEqualTo(404);
  }

  /** The files open in readers of the Java platform. */
  @Test
  void aSketchIsToldAndHandedOut() throws Exception {
    String sketch = "/api/sketches/borrowed-chord";
    JsonNode body = desk.json(sketch + "?seed=4&song=" + song);
    assertThat(body.path("numerals").size()).isBetween(8, 16);
    assertThat(body.path("inCommon").path("notes").asInt()).isLessThanOrEqualTo(6);
    assertThat(body.path("endSeconds").asDouble())
        .isGreaterThan(body.path("startSeconds").asDouble());
    assertThat(desk.json("/api/sketches").path("techniques").size()).isGreaterThan(30);
    double bpm = body.path("bpm").asDouble();
    byte[] midi = desk.bytes(sketch + "/sketch.mid?seed=4&song=" + song).body();
    long microseconds =
        MidiSystem.getSequence(new ByteArrayInputStream(midi)).getMicrosecondLength();
    double playedSeconds = body.path("numerals").size() * 240 / bpm;
    assertThat(microseconds / 1e6).isBetween(playedSeconds * 0.8, playedSeconds + 3);
    byte[] wav = desk.bytes(sketch + "/sketch.wav?seed=4&song=" + song).body();
    assertThat(
            AudioSystem.getAudioInputStream(new ByteArrayInputStream(wav)).getFrameLength()
                / 44_100.0)
        .isBetween(playedSeconds, playedSeconds + 5);
    assertThat(desk.get(sketch + "/sketch.musicxml?seed=4").body()).contains("<score-partwise");
    assertThat(desk.get(sketch + "/sketch.txt?seed=4").body()).contains("Your turn");
    assertThat(desk.get(sketch + "/sketch.pdf").statusCode()).isEqualTo(404);
    assertThat(desk.get("/api/sketches/none").statusCode()).isEqualTo(404);
    assertThat(desk.get("/api/sketches/climax-at-end").statusCode()).isEqualTo(400);
    assertThat(desk.get(sketch + "?song=99").statusCode()).isEqualTo(404);
  }
}
