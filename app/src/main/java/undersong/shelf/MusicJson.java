package undersong.shelf;

import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.databind.DeserializationContext;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.SerializerProvider;
import com.fasterxml.jackson.databind.deser.std.StdDeserializer;
import com.fasterxml.jackson.databind.module.SimpleModule;
import com.fasterxml.jackson.databind.ser.std.StdSerializer;
import java.io.IOException;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Function;
import undersong.reading.TimeSignature;
import undersong.theory.ChordQuality;
import undersong.theory.ChordSymbol;
import undersong.theory.NoteName;
import undersong.theory.ScaleDegree;
import undersong.time.BeatGrid;
import undersong.time.Span;

/**
 * The small values of music as short JSON: spans as {@code [start, end]}, notes, degrees and meters
 * as the text musicians write, beats as an array of seconds.
 */
final class MusicJson {
  private MusicJson() {}

  static SimpleModule module() {
    SimpleModule module = new SimpleModule();
    asText(module, NoteName.class, NoteName::parse);
    asText(module, ScaleDegree.class, ScaleDegree::parse);
    asText(module, TimeSignature.class, TimeSignature::parse);
    asTree(
        module,
        Span.class,
        (span, json) ->
            json.writeArray(new double[] {span.startSeconds(), span.endSeconds()}, 0, 2),
        tree -> new Span(tree.path(0).asDouble(-1), tree.path(1).asDouble(-1)));
    asTree(
        module,
        BeatGrid.class,
        (grid, json) -> json.writeArray(grid.toArray(), 0, grid.size()),
        MusicJson::beatGrid);
    asTree(module, ChordSymbol.class, MusicJson::write, MusicJson::chordSymbol);
    return module;
  }

  private static BeatGrid beatGrid(JsonNode tree) {
    double[] seconds = new double[tree.size()];
    for (int i = 0; i < seconds.length; i++) {
      seconds[i] = tree.get(i).asDouble(-1);
    }
    return BeatGrid.of(seconds);
  }

  private static void write(ChordSymbol symbol, JsonGenerator json) throws IOException {
    if (symbol instanceof ChordSymbol.Chord chord) {
      json.writeStartObject();
      json.writeStringField("root", chord.root().toString());
      json.writeStringField("quality", chord.quality().name());
      writeSemitones("added", chord.addedSemitones(), json);
      writeSemitones("omitted", chord.omittedSemitones(), json);
      json.writeStringField("bass", chord.bass().toString());
      json.writeEndObject();
    } else {
      json.writeString(symbol.toString());
    }
  }

  private static void writeSemitones(String name, Set<Integer> degrees, JsonGenerator json)
      throws IOException {
    json.writeArrayFieldStart(name);
    for (int semitones : degrees) {
      json.writeNumber(semitones);
    }
    json.writeEndArray();
  }

  private static Set<Integer> semitones(JsonNode array) {
    Set<Integer> degrees = new TreeSet<>();
    array.forEach(semitones -> degrees.add(semitones.asInt()));
    return degrees;
  }

  private static ChordSymbol chordSymbol(JsonNode tree) {
    if (tree.isObject()) {
      return new ChordSymbol.Chord(
          NoteName.parse(tree.path("root").asText()),
          ChordQuality.valueOf(tree.path("quality").asText()),
          semitones(tree.path("added")),
          semitones(tree.path("omitted")),
          NoteName.parse(tree.path("bass").asText()));
    }
    return switch (tree.asText()) {
      case "N" -> ChordSymbol.NONE;
      case "X" -> ChordSymbol.UNKNOWN;
      default ->
          throw new IllegalArgumentException(
              "Chord %s must be N, X or an object with root, quality, added and bass."
                  .formatted(tree));
    };
  }

  private static <T> void asText(SimpleModule module, Class<T> type, Function<String, T> parse) {
    asTree(
        module,
        type,
        (value, json) -> json.writeString(value.toString()),
        tree -> parse.apply(tree.asText()));
  }

  private static <T> void asTree(
      SimpleModule module, Class<T> type, Writer<T> writer, Function<JsonNode, T> reader) {
    module.addSerializer(type, new TreeSerializer<>(type, writer));
    module.addDeserializer(type, new TreeDeserializer<>(type, reader));
  }

  private interface Writer<T> {
    void write(T value, JsonGenerator json) throws IOException;
  }

  private static final class TreeSerializer<T> extends StdSerializer<T> {
    private final transient Writer<T> writer;

    TreeSerializer(Class<T> type, Writer<T> writer) {
      super(type);
      this.writer = writer;
    }

    @Override
    public void serialize(T value, JsonGenerator json, SerializerProvider provider)
        throws IOException {
      writer.write(value, json);
    }
  }

  private static final class TreeDeserializer<T> extends StdDeserializer<T> {
    private final transient Function<JsonNode, T> reader;

    TreeDeserializer(Class<T> type, Function<JsonNode, T> reader) {
      super(type);
      this.reader = reader;
    }

    @Override
    public T deserialize(JsonParser json, DeserializationContext context) throws IOException {
      JsonNode tree = json.readValueAsTree();
      try {
        return reader.apply(tree);
      } catch (IllegalArgumentException broken) {
        throw context.weirdStringException(
            tree.toString(), handledType(), String.valueOf(broken.getMessage()));
      }
    }
  }
}
