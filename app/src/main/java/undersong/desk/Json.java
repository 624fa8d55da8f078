package undersong.desk;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.http.Context;
import java.nio.charset.StandardCharsets;
import java.util.Collection;
import java.util.function.Function;
import undersong.time.Span;
import undersong.work.Trouble;

/** Bodies of requests and answers. */
final class Json {
  private static final ObjectMapper MAPPER = new ObjectMapper();

  private Json() {}

  static ObjectNode object() {
    return JsonNodeFactory.instance.objectNode();
  }

  static <T> ArrayNode array(Collection<T> items, Function<T, ? extends JsonNode> each) {
    ArrayNode array = JsonNodeFactory.instance.arrayNode(items.size());
    items.forEach(item -> array.add(each.apply(item)));
    return array;
  }

  /** An object that begins with where its thing sounds. */
  static ObjectNode over(Span span) {
    return object()
        .put("startSeconds", rounded(span.startSeconds()))
        .put("endSeconds", rounded(span.endSeconds()));
  }

  /** To a tenth of a millisecond, which nobody hears and everybody can read. */
  static double rounded(double seconds) {
    return Math.round(seconds * 1e4) / 1e4;
  }

  /** To a thousandth. */
  static double share(double probability) {
    return Math.round(probability * 1e3) / 1e3;
  }

  static String print(JsonNode node) {
    try {
      return MAPPER.writeValueAsString(node);
    } catch (JsonProcessingException bug) {
      throw new IllegalStateException("A tree of plain values could not be written.", bug);
    }
  }

  /** Text that this program wrote. */
  static ObjectNode parse(String text) {
    try {
      return (ObjectNode) MAPPER.readTree(text);
    } catch (JsonProcessingException bug) {
      throw new IllegalStateException("What was stored is no JSON.", bug);
    }
  }

  static void send(Context answer, JsonNode node) {
    answer.contentType("application/json").result(print(node).getBytes(StandardCharsets.UTF_8));
  }

  /** The body as an object; throws {@link Trouble.WrongUsage} where it is none. */
  static ObjectNode body(Context request) {
    try {
      if (MAPPER.readTree(request.bodyAsBytes()) instanceof ObjectNode object) {
        return object;
      }
    } catch (java.io.IOException broken) {
      throw new Trouble.WrongUsage("The body is not JSON: " + broken.getMessage());
    }
    throw new Trouble.WrongUsage("The body must be a JSON object, in braces.");
  }
}
