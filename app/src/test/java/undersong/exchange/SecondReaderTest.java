package undersong.exchange;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import undersong.lesson.sketch.SketchMaker;
import undersong.notation.NotationSettings;
import undersong.notation.Notator;
import undersong.notation.NoteValue;
import undersong.notation.WrittenBar;
import undersong.notation.WrittenNote;
import undersong.notation.WrittenPart;
import undersong.notation.WrittenScore;
import undersong.render.DemoSong;
import undersong.render.DemoSongs;
import undersong.technique.Technique;
import undersong.theory.NumeralSettings;
import undersong.theory.SyllableSettings;
import undersong.theory.TransposingInstrument;

/**
 * What a reader of MusicXML nobody here wrote (the npm package verovio, by Node) understands of the
 * scores that are written: staves, bars, notes, their pitches and lengths. It counts time from note
 * values, dots, tuplets and meters, not from the durations that stand beside them; and the signs it
 * draws must be enough to play the right pitches.
 */
class SecondReaderTest {
  private static final Path READER = Path.of("../desk/test/readMusicXml.mjs");
  private static final double SMALLEST = 0.5 / NoteValue.TICKS_PER_QUARTER;

  @BeforeAll
  static void needsTheReader() throws IOException, InterruptedException {
    assumeTrue(
        Files.isDirectory(Path.of("../desk/node_modules/verovio")),
        "Left out: the second reader of MusicXML is an npm package (run npm ci in desk).");
    assumeTrue(
        nodeAnswers(),
        "Left out: the second reader of MusicXML needs Node 20 or newer on the path.");
  }

  @Test
  void everySongIsUnderstoodAsWritten(@TempDir Path folder) throws Exception {
    Map<String, WrittenScore> scores = new LinkedHashMap<>();
    for (DemoSong song : DemoSongs.all()) {
      WrittenScore score = Notator.write(song.truth().reading(), NotationSettings.DEFAULTS);
      scores.put(song.id(), score);
      scores.put(song.id() + "-bars-5-to-12", score.bars(5, 12));
    }
    assertUnderstood(scores, 0, folder);
  }

  /** Distances of the instruments: common practice of orchestration, from memory. */
  @Test
  void aTransposingInstrumentSoundsAsHeard(@TempDir Path folder) throws Exception {
    Map<TransposingInstrument, Integer> down =
        Map.of(
            TransposingInstrument.B_FLAT, -2,
            TransposingInstrument.B_FLAT_LOW, -14,
            TransposingInstrument.E_FLAT, -9,
            TransposingInstrument.E_FLAT_LOW, -21,
            TransposingInstrument.F, -7);
    for (Map.Entry<TransposingInstrument, Integer> one : down.entrySet()) {
      NotationSettings settings =
          new NotationSettings(NumeralSettings.DEFAULTS, SyllableSettings.DEFAULTS, one.getKey());
      WrittenScore score = Notator.write(DemoSongs.all().get(0).truth().reading(), settings);
      assertUnderstood(Map.of(one.getKey().name(), score), one.getValue(), folder);
    }
  }

  @Test
  void everyKindOfSketchIsUnderstoodAsWritten(@TempDir Path folder) throws Exception {
    Map<String, WrittenScore> scores = new LinkedHashMap<>();
    for (Technique technique : SketchMaker.known()) {
      var sketch = SketchMaker.make(technique, 77, Optional.empty());
      scores.put(technique.id(), Notator.write(sketch.reading(), NotationSettings.DEFAULTS));
    }
    assertUnderstood(scores, 0, folder);
  }

  @Test
  void theComparisonWouldNoticeAWrongNote(@TempDir Path folder) throws Exception {
    WrittenScore score =
        Notator.write(DemoSongs.all().get(0).truth().reading(), NotationSettings.DEFAULTS);
    Path file = folder.resolve("wrong.musicxml");
    Files.writeString(
        file,
        MusicXmlWriter.print(score, SongFacts.UNKNOWN)
            .replaceFirst("<octave>4</octave>", "<octave>5</octave>"));
    JsonNode told = read(List.of(file)).get(0);
    assertThat(understood(told.get(0))).isNotEqualTo(written(score.parts().get(0), 0));
  }

  private record Sounding(int bar, long startTick, long ticks, int midi) {}

  private static void assertUnderstood(Map<String, WrittenScore> scores, int up, Path folder)
      throws Exception {
    List<Path> files = new ArrayList<>();
    for (Map.Entry<String, WrittenScore> one : scores.entrySet()) {
      Path file = folder.resolve(one.getKey() + ".musicxml");
      Files.writeString(file, MusicXmlWriter.print(one.getValue(), SongFacts.UNKNOWN));
      files.add(file);
    }
    JsonNode told = read(files);
    assertThat(told.size()).isEqualTo(scores.size());
    int place = 0;
    for (Map.Entry<String, WrittenScore> one : scores.entrySet()) {
      JsonNode staves = told.get(place++);
      List<WrittenPart> parts = one.getValue().parts();
      assertThat(staves.size()).as("staves of %s", one.getKey()).isEqualTo(parts.size());
      for (int i = 0; i < parts.size(); i++) {
        String name = parts.get(i).name() + " of " + one.getKey();
        List<Integer> bars = new ArrayList<>();
        staves.get(i).get("bars").forEach(bar -> bars.add(bar.asInt()));
        assertThat(bars)
            .as("bars of %s", name)
            .isEqualTo(parts.get(i).bars().stream().map(WrittenBar::number).toList());
        assertThat(understood(staves.get(i))).as(name).isEqualTo(written(parts.get(i), up));
      }
    }
  }

  private static List<Sounding> understood(JsonNode staff) {
    List<Sounding> notes = new ArrayList<>();
    for (JsonNode note : staff.get("notes")) {
      assertThat(note.get(4).asInt())
          .as("drawn in bar %s", note.get(0))
          .isEqualTo(note.get(3).asInt());
      notes.add(
          new Sounding(
              note.get(0).asInt(),
              ticks(note.get(1).asDouble()),
              ticks(note.get(2).asDouble()),
              note.get(3).asInt()));
    }
    return notes;
  }

  private static long ticks(double quarters) {
    long ticks = Math.round(quarters * NoteValue.TICKS_PER_QUARTER);
    assertThat(Math.abs(quarters - (double) ticks / NoteValue.TICKS_PER_QUARTER))
        .isLessThan(SMALLEST);
    return ticks;
  }

  /** Notes with what is tied to them, from the beginning of the first bar. */
  private static List<Sounding> written(WrittenPart part, int up) {
    List<Sounding> notes = new ArrayList<>();
    long at = 0;
    boolean held = false;
    for (WrittenBar bar : part.bars()) {
      for (WrittenNote note : bar.notes()) {
        long start = at + note.startTicks();
        if (!note.isRest() && held) {
          Sounding last = notes.remove(notes.size() - 1);
          notes.add(
              new Sounding(last.bar(), last.startTick(), last.ticks() + note.ticks(), last.midi()));
        } else if (!note.isRest()) {
          int midi = note.pitch().orElseThrow().midi() + up;
          notes.add(new Sounding(bar.number(), start, note.ticks(), midi));
        }
        held = note.tiedOn();
      }
      at += bar.ticks();
    }
    return notes;
  }

  private static boolean nodeAnswers() throws InterruptedException {
    try {
      Process node = new ProcessBuilder("node", "--version").redirectErrorStream(true).start();
      String version =
          new String(node.getInputStream().readAllBytes(), StandardCharsets.UTF_8).strip();
      return node.waitFor() == 0 && Integer.parseInt(version.split("[v.]")[1]) >= 20;
    } catch (IOException missing) {
      return false;
    }
  }

  private static JsonNode read(List<Path> files) throws IOException, InterruptedException {
    List<String> command = new ArrayList<>(List.of("node", READER.toString()));
    files.forEach(file -> command.add(file.toString()));
    Process node =
        new ProcessBuilder(command).redirectError(ProcessBuilder.Redirect.DISCARD).start();
    byte[] told = node.getInputStream().readAllBytes();
    assertThat(node.waitFor(60, TimeUnit.SECONDS)).isTrue();
    assertThat(node.exitValue()).as("the reader's exit").isZero();
    return new ObjectMapper().readTree(told);
  }
}
