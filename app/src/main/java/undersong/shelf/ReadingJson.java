package undersong.shelf;

import com.fasterxml.jackson.annotation.JsonAutoDetect;
import com.fasterxml.jackson.annotation.JsonTypeInfo;
import com.fasterxml.jackson.annotation.PropertyAccessor;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.jsontype.NamedType;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.fasterxml.jackson.databind.util.RawValue;
import com.fasterxml.jackson.datatype.jdk8.Jdk8Module;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import undersong.reading.Correction;
import undersong.reading.Derived;
import undersong.reading.Facet;
import undersong.reading.FacetValue;
import undersong.reading.Provenance;
import undersong.reading.Reading;

/**
 * Readings, corrections and provenance as JSON text and back, without loss.
 *
 * <p>A correction is written as {@code {"kind": "ChordOver", ...}}; the kinds are taken from the
 * permitted subclasses of {@link Correction}, so that a new kind cannot be forgotten here. Logs
 * outlive programs: a kind or a component that is renamed needs a migration.
 */
public final class ReadingJson {
  private static final ObjectMapper MAPPER = mapper();

  private ReadingJson() {}

  public static String print(Reading reading) {
    return print(reading, ReadingJson::write);
  }

  /**
   * @param each how a facet's value is written, for who has it written already
   */
  static String print(Reading reading, Function<FacetValue, String> each) {
    ObjectNode root = MAPPER.createObjectNode();
    root.put("durationSeconds", reading.durationSeconds());
    ObjectNode facets = root.putObject("facets");
    for (Facet<?> facet : Facet.IN_ORDER) {
      reading
          .find(facet)
          .ifPresent(value -> facets.putRawValue(facet.name(), new RawValue(each.apply(value))));
    }
    root.set("unplaced", printTrees(reading.unplaced()));
    return write(root);
  }

  /** Throws {@link IllegalArgumentException} where the text is no reading of this version. */
  public static Reading parseReading(String json) {
    JsonNode root = read(json);
    List<Correction> unplaced = new ArrayList<>();
    for (JsonNode correction : root.path("unplaced")) {
      unplaced.add(convert(correction, Correction.class));
    }
    Reading reading = Reading.empty(root.path("durationSeconds").asDouble());
    for (Facet<?> facet : Facet.IN_ORDER) {
      JsonNode value = root.path("facets").path(facet.name());
      if (!value.isMissingNode()) {
        reading = with(reading, facet, value, unplaced);
      }
    }
    return reading;
  }

  public static String print(Correction correction) {
    return write(MAPPER.valueToTree(correction));
  }

  public static Correction parseCorrection(String json) {
    return convert(read(json), Correction.class);
  }

  static String print(Provenance provenance) {
    return write(MAPPER.valueToTree(provenance));
  }

  static Provenance parseProvenance(String json) {
    return convert(read(json), Provenance.class);
  }

  private static <V extends FacetValue> Reading with(
      Reading reading, Facet<V> facet, JsonNode value, List<Correction> unplaced) {
    if (facet == Facet.MELODY && value instanceof ObjectNode melody && !melody.has("unsure")) {
      // Stored before the pitch in rests was kept; charts and memories are not heard anew.
      melody.putArray("unsure");
    }
    List<Correction> own = unplaced.stream().filter(c -> c.facet() == facet).toList();
    return reading.with(facet, new Derived<>(convert(value, facet.valueType()), own));
  }

  private static JsonNode printTrees(List<Correction> corrections) {
    var array = MAPPER.createArrayNode();
    corrections.forEach(correction -> array.add(MAPPER.<JsonNode>valueToTree(correction)));
    return array;
  }

  static String write(Object plain) {
    try {
      return MAPPER.writeValueAsString(plain);
    } catch (JsonProcessingException bug) {
      throw new IllegalStateException("Plain values could not be written.", bug);
    }
  }

  private static JsonNode read(String json) {
    try {
      return MAPPER.readTree(json);
    } catch (JsonProcessingException broken) {
      throw new IllegalArgumentException("Stored text is not JSON: " + excerpt(json), broken);
    }
  }

  private static <T> T convert(JsonNode tree, Class<T> type) {
    try {
      return MAPPER.treeToValue(tree, type);
    } catch (JsonProcessingException misfit) {
      throw new IllegalArgumentException(
          "Stored %s has another shape than this version writes: %s"
              .formatted(type.getSimpleName(), excerpt(tree.toString())),
          misfit);
    }
  }

  private static String excerpt(String text) {
    return text.length() <= 200 ? text : text.substring(0, 200) + " ...";
  }

  private static ObjectMapper mapper() {
    ObjectMapper mapper =
        new ObjectMapper()
            .registerModule(new Jdk8Module())
            .registerModule(MusicJson.module())
            .setVisibility(PropertyAccessor.IS_GETTER, JsonAutoDetect.Visibility.NONE)
            .enable(DeserializationFeature.FAIL_ON_NULL_FOR_PRIMITIVES)
            .enable(DeserializationFeature.FAIL_ON_MISSING_CREATOR_PROPERTIES)
            .addMixIn(Correction.class, Kinds.class);
    for (Class<?> kind : Correction.class.getPermittedSubclasses()) {
      mapper.registerSubtypes(new NamedType(kind, kind.getSimpleName()));
    }
    return mapper;
  }

  @JsonTypeInfo(use = JsonTypeInfo.Id.NAME, property = "kind")
  private interface Kinds {}
}
