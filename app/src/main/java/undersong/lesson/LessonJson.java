package undersong.lesson;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import undersong.notation.NotationSettings;
import undersong.technique.BarRange;
import undersong.technique.Technique;
import undersong.theory.NumeralSettings;
import undersong.theory.SyllableSettings;
import undersong.theory.TransposingInstrument;
import undersong.time.Span;

/** A lesson as JSON, as it is kept and as the desk sends it. */
public final class LessonJson {
  private static final ObjectMapper JSON = new ObjectMapper();

  private LessonJson() {}

  public static ObjectNode print(Lesson lesson) {
    ObjectNode node = JSON.createObjectNode();
    node.put("title", lesson.title()).put("revision", lesson.revision());
    node.put("minorSyllables", word(lesson.settings().syllables().minor()))
        .put("modeSyllables", word(lesson.settings().syllables().modes()))
        .put("minorReference", word(lesson.settings().numerals().minorReference()))
        .put("inversions", word(lesson.settings().numerals().inversions()))
        .put("instrument", word(lesson.settings().instrument()))
        .put("level", lesson.level());
    ArrayNode items = node.putArray("items");
    for (LessonItem item : lesson.items()) {
      items.add(print(item));
    }
    return node;
  }

  public static ObjectNode print(LessonItem item) {
    ObjectNode node = JSON.createObjectNode();
    item.technique().ifPresent(technique -> node.put("technique", technique.id()));
    node.put("start", item.span().startSeconds())
        .put("end", item.span().endSeconds())
        .put("heading", item.heading())
        .put("words", item.words())
        .put("excerpt", item.excerpt())
        .put("asTold", item.asTold());
    item.example().ifPresent(bars -> node.putArray("bars").add(bars.first()).add(bars.last()));
    return node;
  }

  public static String text(Lesson lesson) {
    return print(lesson).toString();
  }

  /**
   * Reads what {@link #print} wrote; settings that are missing are the usual ones. Throws {@link
   * IllegalArgumentException} naming what is wrong.
   */
  public static Lesson read(String text, long songId) {
    try {
      return read(JSON.readTree(text), songId);
    } catch (JsonProcessingException broken) {
      throw new IllegalArgumentException(
          "A lesson must be JSON (%s).".formatted(broken.getOriginalMessage()), broken);
    }
  }

  public static Lesson read(JsonNode node, long songId) {
    NotationSettings settings =
        new NotationSettings(
            new NumeralSettings(
                one(node, "minorReference", NumeralSettings.DEFAULTS.minorReference()),
                one(node, "inversions", NumeralSettings.DEFAULTS.inversions())),
            new SyllableSettings(
                one(node, "minorSyllables", SyllableSettings.DEFAULTS.minor()),
                one(node, "modeSyllables", SyllableSettings.DEFAULTS.modes())),
            one(node, "instrument", TransposingInstrument.CONCERT));
    List<LessonItem> items = new ArrayList<>();
    for (JsonNode item : node.path("items")) {
      items.add(item(item));
    }
    return new Lesson(
        songId,
        node.path("title").asText(""),
        node.path("revision").asInt(0),
        settings,
        node.path("level").asInt(1),
        items);
  }

  private static LessonItem item(JsonNode node) {
    String id = node.path("technique").asText("");
    JsonNode bars = node.path("bars");
    return new LessonItem(
        id.isEmpty() ? Optional.empty() : Optional.of(Technique.named(id)),
        new Span(node.path("start").asDouble(-1), node.path("end").asDouble(-1)),
        node.path("heading").asText(""),
        node.path("words").asText(""),
        bars.size() == 2
            ? Optional.of(new BarRange(bars.get(0).asInt(), bars.get(1).asInt()))
            : Optional.empty(),
        node.path("excerpt").asBoolean(false),
        node.path("asTold").asText(""));
  }

  private static String word(Enum<?> value) {
    return value.name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  private static <E extends Enum<E>> E one(JsonNode node, String name, E usual) {
    String word = node.path(name).asText("");
    if (word.isEmpty()) {
      return usual;
    }
    return Arrays.stream(usual.getDeclaringClass().getEnumConstants())
        .filter(value -> word(value).equals(word))
        .findFirst()
        .orElseThrow(
            () ->
                new IllegalArgumentException(
                    "%s \"%s\" must be one of %s."
                        .formatted(
                            name,
                            word,
                            Arrays.stream(usual.getDeclaringClass().getEnumConstants())
                                .map(LessonJson::word)
                                .toList())));
  }
}
