package undersong.exchange;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import undersong.reading.Correction;
import undersong.reading.SectionRole;
import undersong.reading.TimeSignature;
import undersong.theory.ChordSymbol;
import undersong.theory.HarteSyntax;
import undersong.theory.Key;
import undersong.time.Span;

/**
 * Reads a JAMS file as one batch of corrections: what it says is what the listener says. The whole
 * file is read, or none of it.
 *
 * <p>Chords {@code X} say nothing and are passed over; between the notes of a part nothing sounds.
 * Tempo and contours follow from beats and notes and are not read.
 */
public final class JamsReader {
  private static final ObjectMapper JSON = new ObjectMapper();
  private static final double SHORTEST_REST_SECONDS = 0.05;

  private final List<Correction> corrections = new ArrayList<>();
  private final List<String> leftOut = new ArrayList<>();
  private double tuningSemitones;

  private JamsReader() {}

  /**
   * What a file says.
   *
   * @param corrections in the order of the file, annotation by annotation
   * @param leftOut what was not read, in words
   */
  public record Said(List<Correction> corrections, List<String> leftOut) {
    public Said {
      corrections = List.copyOf(corrections);
      leftOut = List.copyOf(leftOut);
    }
  }

  /** Reads the text of a JAMS file; throws, naming place, value and rule, if it is none. */
  public static Said read(String text) {
    JsonNode root;
    try {
      root = JSON.readTree(text);
    } catch (JsonProcessingException cause) {
      throw new IllegalArgumentException(
          "This is not JSON (line %d); a JAMS file is."
              .formatted(cause.getLocation() == null ? 1 : cause.getLocation().getLineNr()),
          cause);
    }
    if (root == null || !root.path("annotations").isArray()) {
      throw new IllegalArgumentException(
          "A JAMS file must hold a list \"annotations\"; maybe this is another kind of JSON.");
    }
    JamsReader reader = new JamsReader();
    reader.readAll(root);
    return new Said(reader.corrections, reader.leftOut);
  }

  /**
   * What a file says of itself.
   *
   * @param facts blank where it does not say
   * @param durationSeconds 0 where it does not say
   */
  public record About(SongFacts facts, double durationSeconds) {}

  /** Reads the head of a JAMS file; throws as {@link #read} does where it is none. */
  public static About about(String text) {
    read(text);
    try {
      JsonNode root = JSON.readTree(text);
      JsonNode file = root.path("file_metadata");
      return new About(
          new SongFacts(
              file.path("title").asText(""),
              file.path("artist").asText(""),
              file.path("release").asText(""),
              root.path("sandbox").path("contentHash").asText("")),
          file.path("duration").asDouble(0));
    } catch (JsonProcessingException impossible) {
      throw new AssertionError("It was read a moment ago.", impossible);
    }
  }

  private void readAll(JsonNode root) {
    JsonNode tuning = root.path("sandbox").path("tuningCents");
    if (tuning.isNumber()) {
      tuningSemitones = tuning.asDouble() / 100;
      corrections.add(new Correction.TuningIs(tuning.asDouble()));
    }
    int place = 0;
    for (JsonNode annotation : root.path("annotations")) {
      String namespace = annotation.path("namespace").asText();
      String where = "annotation %d (%s)".formatted(place, namespace);
      switch (namespace) {
        case "beat" -> beats(annotation, where);
        case "key_mode" -> keys(annotation, where);
        case "chord", "chord_harte" -> chords(annotation, where);
        case "segment_open" -> sections(annotation, where);
        case "note_midi" -> notes(annotation, where);
        default -> leftOut.add(where);
      }
      place++;
    }
  }

  private record Row(double time, double duration, JsonNode value) {
    Span span(String where) {
      if (!(time >= 0 && duration > 0)) {
        throw new IllegalArgumentException(
            "In %s a row at %s s lasts %s s; it must start at or after 0 and last."
                .formatted(where, time, duration));
      }
      return new Span(time, time + duration);
    }
  }

  private static List<Row> rows(JsonNode annotation, String where) {
    List<Row> rows = new ArrayList<>();
    for (JsonNode row : annotation.path("data")) {
      if (!row.path("time").isNumber() || !row.path("duration").isNumber()) {
        throw new IllegalArgumentException(
            "In %s row %d needs the numbers \"time\" and \"duration\"."
                .formatted(where, rows.size()));
      }
      rows.add(
          new Row(row.get("time").asDouble(), row.get("duration").asDouble(), row.path("value")));
    }
    return rows;
  }

  private void beats(JsonNode annotation, String where) {
    for (Row row : rows(annotation, where)) {
      if (!(row.time() >= 0)) {
        throw new IllegalArgumentException(
            "In %s a beat at %s s lies before the start.".formatted(where, row.time()));
      }
      corrections.add(new Correction.BeatAt(row.time()));
      if (row.value().asInt() == 1) {
        corrections.add(new Correction.DownbeatAt(row.time()));
      }
    }
    JsonNode signatures = annotation.path("sandbox").path("signatures");
    double end = annotation.path("duration").asDouble();
    for (int i = 0; i < signatures.size(); i++) {
      double from = signatures.get(i).path("time").asDouble();
      double to = i + 1 < signatures.size() ? signatures.get(i + 1).path("time").asDouble() : end;
      if (to > from) {
        TimeSignature signature = TimeSignature.parse(signatures.get(i).path("signature").asText());
        corrections.add(new Correction.MeterOver(new Span(from, to), signature));
      }
    }
  }

  private void keys(JsonNode annotation, String where) {
    JsonNode forms = annotation.path("sandbox").path("minorForm");
    int place = 0;
    for (Row row : rows(annotation, where)) {
      Optional<Key> key = key(row.value().asText(), forms.path(place).asText("natural"));
      if (key.isPresent()) {
        corrections.add(new Correction.KeyOver(row.span(where), key.get()));
      } else {
        leftOut.add("%s: key \"%s\"".formatted(where, row.value().asText()));
      }
      place++;
    }
  }

  /** Empty for N, for a tonic without mode and for modes that are not told apart here. */
  private static Optional<Key> key(String value, String minorForm) {
    String words =
        value
            .replace(":", " ")
            .replace("ionian", "major")
            .replace("aeolian", "minor")
            .replaceFirst(
                " minor$", " " + (minorForm.equals("null") ? "natural" : minorForm) + " minor");
    try {
      return Optional.of(Key.parse(words));
    } catch (IllegalArgumentException unknown) {
      return Optional.empty();
    }
  }

  private void chords(JsonNode annotation, String where) {
    for (Row row : rows(annotation, where)) {
      ChordSymbol chord = HarteSyntax.parse(row.value().asText());
      if (!chord.equals(ChordSymbol.UNKNOWN)) {
        corrections.add(new Correction.ChordOver(row.span(where), chord));
      }
    }
  }

  private void sections(JsonNode annotation, String where) {
    JsonNode letters = annotation.path("sandbox").path("letter");
    int place = 0;
    for (Row row : rows(annotation, where)) {
      Span span = row.span(where);
      if (row.time() > 0) {
        corrections.add(new Correction.BoundaryAt(row.time()));
      }
      if (letters.path(place).isTextual()) {
        corrections.add(new Correction.SamenessOver(span, letters.get(place).asText()));
      }
      role(row.value().asText())
          .ifPresent(role -> corrections.add(new Correction.NameOver(span, role)));
      place++;
    }
  }

  private static Optional<SectionRole> role(String word) {
    for (SectionRole role : SectionRole.values()) {
      if (role.words().equals(word.toLowerCase(Locale.ROOT))) {
        return Optional.of(role);
      }
    }
    return Optional.empty();
  }

  private void notes(JsonNode annotation, String where) {
    String name = annotation.path("sandbox").path("part").asText();
    Optional<SaidPart> part = SaidPart.named(name);
    if (part.isEmpty()) {
      leftOut.add("%s: part \"%s\"".formatted(where, name));
      return;
    }
    double soundedUntil = annotation.path("time").asDouble();
    for (Row row : rows(annotation, where)) {
      Span span = row.span(where);
      double midiPitch = row.value().asDouble() - tuningSemitones;
      if (!row.value().isNumber() || !(midiPitch >= 0 && midiPitch <= 127)) {
        throw new IllegalArgumentException(
            "In %s a note at %s s has the value %s; it must be a MIDI number 0 to 127."
                .formatted(where, row.time(), row.value()));
      }
      rest(part.get(), soundedUntil, span.startSeconds());
      corrections.add(part.get().note().apply(span, midiPitch));
      soundedUntil = Math.max(soundedUntil, span.endSeconds());
    }
    double end = annotation.path("time").asDouble() + annotation.path("duration").asDouble();
    rest(part.get(), soundedUntil, end);
  }

  private void rest(SaidPart part, double from, double to) {
    if (to - from >= SHORTEST_REST_SECONDS) {
      corrections.add(part.rest().apply(new Span(from, to)));
    }
  }
}
