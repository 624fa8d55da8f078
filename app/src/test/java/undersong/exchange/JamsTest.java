package undersong.exchange;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Predicate;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import undersong.reading.ChordSpan;
import undersong.reading.Correction;
import undersong.reading.Derived;
import undersong.reading.Facet;
import undersong.reading.KeyRegion;
import undersong.reading.Line;
import undersong.reading.Lines;
import undersong.reading.Melody;
import undersong.reading.Meter;
import undersong.reading.NoteEvent;
import undersong.reading.PitchStretch;
import undersong.reading.Reading;
import undersong.reading.SectionRole;
import undersong.reading.TimeSignature;
import undersong.reading.Voice;
import undersong.reading.VoiceKind;
import undersong.reading.Voices;
import undersong.time.Span;

class JamsTest {
  private static final SongFacts FACTS = new SongFacts("The Kiln", "", "2031", "ab12");
  private static final Reading READING = SampleReadings.of(TimeSignature.FOUR_FOUR, 2, 11);
  private static final double MICRO = 1e-6;

  /** The rules of JAMS's schema 0.3 for the namespaces used; from memory. */
  @Test
  void keepsTheRulesOfThePublishedSchema() throws IOException {
    JsonNode root = new ObjectMapper().readTree(JamsWriter.print(READING, FACTS));
    assertThat(names(root)).containsExactlyInAnyOrder("annotations", "file_metadata", "sandbox");
    JsonNode file = root.get("file_metadata");
    assertThat(names(file))
        .containsExactlyInAnyOrder(
            "title", "artist", "release", "duration", "identifiers", "jams_version");
    assertThat(file.get("duration").asDouble()).isPositive();
    for (JsonNode annotation : root.get("annotations")) {
      assertThat(names(annotation))
          .containsExactlyInAnyOrder(
              "namespace", "annotation_metadata", "data", "sandbox", "time", "duration");
      assertThat(names(annotation.get("annotation_metadata")))
          .contains("curator", "annotator", "version", "corpus", "annotation_tools")
          .contains("annotation_rules", "validation", "data_source");
      String namespace = annotation.get("namespace").asText();
      if (namespace.equals("pitch_contour")) {
        checkColumns(annotation.get("data"));
      } else {
        for (JsonNode row : annotation.get("data")) {
          checkRow(row, rule(namespace));
        }
      }
    }
  }

  private static void checkRow(JsonNode row, Predicate<JsonNode> value) {
    assertThat(names(row)).containsExactlyInAnyOrder("time", "duration", "value", "confidence");
    assertThat(row.get("time").asDouble()).isNotNegative();
    assertThat(row.get("duration").asDouble()).isNotNegative();
    assertThat(row.get("confidence").asDouble()).isBetween(0.0, 1.0);
    assertThat(value.test(row.get("value"))).as(row.toString()).isTrue();
  }

  private static void checkColumns(JsonNode columns) {
    int rows = columns.get("time").size();
    assertThat(rows).isPositive();
    for (String column : List.of("duration", "value", "confidence")) {
      assertThat(columns.get(column)).as(column).hasSize(rows);
    }
    for (JsonNode value : columns.get("value")) {
      assertThat(value.get("index").isInt()).isTrue();
      assertThat(value.get("frequency").asDouble()).isPositive();
      assertThat(value.get("voiced").isBoolean()).isTrue();
    }
  }

  private static Predicate<JsonNode> rule(String namespace) {
    String degree = "(b*|#*)([1-9]|1[0-3])";
    String list = "\\(\\*?" + degree + "(,\\*?" + degree + ")*\\)";
    String shorthand =
        "(maj|min|dim|aug|1|5|sus2|sus4|maj6|min6|7|maj7|min7|dim7|hdim7|minmaj7|aug7"
            + "|9|maj9|min9|11|maj11|min11|13|maj13|min13)";
    String chord =
        "N|X|[A-G](b*|#*)(:(" + shorthand + "(" + list + ")?|" + list + "))?(/" + degree + ")?";
    String key =
        "N|[A-G][b#]?(:(major|minor|ionian|dorian|phrygian|lydian|mixolydian|aeolian|locrian))?";
    return switch (namespace) {
      case "beat" -> value -> value.isNumber() || value.isNull();
      case "tempo", "note_midi" -> JsonNode::isNumber;
      case "chord" -> value -> value.asText().matches(chord);
      case "key_mode" -> value -> value.asText().matches(key);
      case "segment_open" -> JsonNode::isTextual;
      default -> throw new AssertionError(namespace);
    };
  }

  @Test
  void writesOneAnnotationForEachNamespaceAndPart() throws IOException {
    List<String> kinds = new ArrayList<>();
    for (JsonNode annotation :
        new ObjectMapper().readTree(JamsWriter.print(READING, FACTS)).get("annotations")) {
      String part = annotation.get("sandbox").path("part").asText();
      kinds.add(annotation.get("namespace").asText() + (part.isEmpty() ? "" : " " + part));
    }
    assertThat(kinds)
        .containsExactlyInAnyOrder(
            "beat",
            "tempo",
            "key_mode",
            "chord",
            "segment_open",
            "note_midi bass",
            "note_midi melody",
            "pitch_contour melody");
  }

  @Test
  void countsBeatsAndNamesKeysAsJamsDoes() throws IOException {
    JsonNode root = new ObjectMapper().readTree(JamsWriter.print(READING, FACTS));
    JsonNode beats = annotation(root, "beat").get("data");
    List<Integer> numbers = new ArrayList<>();
    for (int i = 0; i < 7; i++) {
      numbers.add(beats.get(i).get("value").asInt());
    }
    assertThat(numbers).containsExactly(3, 4, 1, 2, 3, 4, 1);
    JsonNode keys = annotation(root, "key_mode");
    assertThat(keys.get("data").get(0).get("value").asText()).isEqualTo("A:minor");
    assertThat(keys.get("data").get(1).get("value").asText()).isEqualTo("D:dorian");
    assertThat(keys.get("sandbox").get("minorForm").toString()).isEqualTo("[\"harmonic\",null]");
    // The first bass note is F2 = 41; the recording is 14 cents flat.
    assertThat(annotation(root, "note_midi").get("data").get(0).get("value").asDouble())
        .isCloseTo(41 - 0.14, within(MICRO));
  }

  private static JsonNode annotation(JsonNode root, String namespace) {
    for (JsonNode annotation : root.get("annotations")) {
      if (annotation.get("namespace").asText().equals(namespace)) {
        return annotation;
      }
    }
    throw new AssertionError(namespace);
  }

  @Test
  void readsBackWhatItWrites() {
    JamsReader.Said said = JamsReader.read(JamsWriter.print(READING, FACTS));
    double[] beats = READING.get(Facet.BEATS).grid().toArray();
    var saidBeats = of(said, Correction.BeatAt.class);
    assertThat(saidBeats).hasSameSizeAs(beats);
    for (int i = 0; i < beats.length; i++) {
      assertThat(saidBeats.get(i).seconds()).isCloseTo(beats[i], within(MICRO));
    }
    Meter meter = READING.get(Facet.METER);
    assertThat(of(said, Correction.DownbeatAt.class)).hasSize(meter.bars().size() + 1);
    assertThat(of(said, Correction.MeterOver.class))
        .extracting(Correction.MeterOver::signature)
        .containsExactly(TimeSignature.FOUR_FOUR);
    assertThat(of(said, Correction.KeyOver.class))
        .extracting(Correction.KeyOver::key)
        .isEqualTo(READING.get(Facet.KEYS).regions().stream().map(KeyRegion::key).toList());
    assertThat(of(said, Correction.ChordOver.class))
        .extracting(Correction.ChordOver::chord)
        .isEqualTo(READING.get(Facet.CHORDS).spans().stream().map(ChordSpan::symbol).toList());
    assertThat(of(said, Correction.BoundaryAt.class)).hasSize(4);
    assertThat(of(said, Correction.SamenessOver.class))
        .extracting(Correction.SamenessOver::letter)
        .containsExactly("A", "B", "A", "B");
    assertThat(of(said, Correction.NameOver.class))
        .extracting(Correction.NameOver::role)
        .containsExactly(
            SectionRole.VERSE, SectionRole.CHORUS, SectionRole.VERSE, SectionRole.CHORUS);
    assertThat(of(said, Correction.TuningIs.class)).containsExactly(new Correction.TuningIs(-14));
    List<NoteEvent> melody = READING.get(Facet.MELODY).notes();
    var saidMelody = of(said, Correction.MelodyNoteOver.class);
    assertThat(saidMelody).hasSameSizeAs(melody);
    for (int i = 0; i < melody.size(); i++) {
      assertThat(saidMelody.get(i).midiPitch()).isCloseTo(melody.get(i).midiPitch(), within(MICRO));
      assertThat(saidMelody.get(i).span().endSeconds())
          .isCloseTo(melody.get(i).span().endSeconds(), within(3 * MICRO));
    }
    assertThat(of(said, Correction.NoMelodyOver.class)).isNotEmpty();
    assertThat(said.leftOut()).hasSize(2).allMatch(words -> words.matches(".*(tempo|contour).*"));
  }

  /** The part names are those of the design's contract: voice-2 ..., line-1 ... */
  @Test
  void writesVoicesAndLinesAsPartsThatCanBeReadBack() {
    NoteEvent high = new NoteEvent(new Span(2, 3), 71.5, 0.8);
    NoteEvent ringing = new NoteEvent(new Span(4, 7), 55, 0.6);
    NoteEvent over = new NoteEvent(new Span(5, 6), 59, 0.6);
    Voice voice =
        new Voice(
            "voice-2",
            List.of(new Voice.Sung(high, Optional.of(4))),
            List.of(),
            List.of(new Voice.Phrase(high.span(), VoiceKind.HARMONY, Optional.of(4), 0.8)));
    Line line = new Line("line-1", List.of(ringing, over), Optional.empty(), Optional.empty(), 0.6);
    Reading reading =
        Reading.empty(10)
            .with(Facet.VOICES, Derived.of(new Voices(List.of(voice))))
            .with(Facet.LINES, Derived.of(new Lines(List.of(line), List.of())));
    assertThat(JamsReader.read(JamsWriter.print(reading, SongFacts.UNKNOWN)).corrections())
        .containsExactly(
            new Correction.NoVoiceOver("voice-2", new Span(0, 2)),
            new Correction.VoiceNoteOver("voice-2", new Span(2, 3), 71.5),
            new Correction.NoVoiceOver("voice-2", new Span(3, 10)),
            new Correction.NoLineOver("line-1", new Span(0, 4)),
            new Correction.LineNoteOver("line-1", new Span(4, 7), 55),
            new Correction.LineNoteOver("line-1", new Span(5, 6), 59),
            new Correction.NoLineOver("line-1", new Span(7, 10)));
  }

  private static <C extends Correction> List<C> of(JamsReader.Said said, Class<C> kind) {
    return said.corrections().stream().filter(kind::isInstance).map(kind::cast).toList();
  }

  @Test
  void tellsCompoundMeterFromItsSandbox() {
    Reading compound = SampleReadings.of(new TimeSignature(2, true), 0, 3);
    var said = JamsReader.read(JamsWriter.print(compound, SongFacts.UNKNOWN));
    assertThat(of(said, Correction.MeterOver.class).get(0).signature()).hasToString("6/8");
  }

  @Test
  void writesThePitchCurveAsHeard() throws IOException {
    List<NoteEvent> notes = READING.get(Facet.MELODY).notes();
    double start = notes.get(0).span().startSeconds();
    PitchStretch glide = new PitchStretch(start, 0.02, List.of(69.0, 69.5, 81.0));
    PitchStretch rest = new PitchStretch(start + 0.06, 0.02, List.of(57.0));
    Melody melody = new Melody(notes, List.of(glide), List.of(rest));
    Reading reading = READING.with(Facet.MELODY, Derived.of(melody));
    JsonNode root = new ObjectMapper().readTree(JamsWriter.print(reading, FACTS));
    JsonNode columns = annotation(root, "pitch_contour").get("data");
    checkColumns(columns);
    assertThat(columns.get("time")).hasSize(4);
    assertThat(columns.get("value").get(0).get("frequency").asDouble()).isEqualTo(440);
    assertThat(columns.get("value").get(2).get("frequency").asDouble()).isEqualTo(880);
    assertThat(columns.get("confidence").get(0).asDouble()).isEqualTo(0.5);
    assertThat(columns.get("value").get(2).get("voiced").asBoolean()).isTrue();
    assertThat(columns.get("value").get(3).get("voiced").asBoolean()).isFalse();
    assertThat(columns.get("value").get(3).get("frequency").asDouble()).isEqualTo(220);
  }

  @Test
  void writesAReadingThatHoldsNothing() {
    var said = JamsReader.read(JamsWriter.print(Reading.empty(3), SongFacts.UNKNOWN));
    assertThat(said.corrections()).isEmpty();
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "",
        "[]",
        "{",
        "{\"annotations\": 3}",
        "{\"annotations\": [{\"namespace\": \"beat\", \"data\": [{\"time\": \"x\"}]}]}",
        "{\"annotations\": [{\"namespace\": \"beat\", \"data\": [{\"time\": -1, \"duration\":"
            + " 0}]}]}",
        "{\"annotations\": [{\"namespace\": \"chord\", \"data\":"
            + " [{\"time\": 0, \"duration\": 1, \"value\": \"Cm\"}]}]}",
        "{\"annotations\": [{\"namespace\": \"chord\", \"data\":"
            + " [{\"time\": 0, \"duration\": 0, \"value\": \"C:min\"}]}]}",
        "{\"annotations\": [{\"namespace\": \"note_midi\", \"sandbox\": {\"part\": \"bass\"},"
            + " \"data\": [{\"time\": 0, \"duration\": 1, \"value\": 400}]}]}"
      })
  void refusesWhatIsNoJams(String text) {
    assertThatThrownBy(() -> JamsReader.read(text)).isInstanceOf(IllegalArgumentException.class);
  }

  @Test
  void readsFilesOfOthersWithoutSandboxes() {
    String text =
        """
        {"file_metadata": {}, "annotations": [
          {"namespace": "chord_harte", "data": [
            {"time": 0, "duration": 2, "value": "C:maj", "confidence": null},
            {"time": 2, "duration": 2, "value": "X", "confidence": null}]},
          {"namespace": "key_mode", "data": [
            {"time": 0, "duration": 4, "value": "C:aeolian", "confidence": 1}]},
          {"namespace": "segment_open", "data": [
            {"time": 0, "duration": 4, "value": "Chorus", "confidence": 1}]},
          {"namespace": "lyrics", "data": []}]}
        """;
    var said = JamsReader.read(text);
    assertThat(said.corrections()).hasSize(3);
    assertThat(of(said, Correction.KeyOver.class).get(0).key()).hasToString("C natural minor");
    assertThat(said.leftOut()).containsExactly("annotation 3 (lyrics)");
  }

  private static List<String> names(JsonNode object) {
    List<String> names = new ArrayList<>();
    object.fieldNames().forEachRemaining(names::add);
    return names;
  }
}
