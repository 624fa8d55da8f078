package undersong.desk;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import java.util.Locale;
import undersong.reading.Correction;
import undersong.shelf.ReadingJson;
import undersong.theory.ChordSymbol;
import undersong.theory.HarteSyntax;
import undersong.theory.Key;
import undersong.theory.SpelledPitch;
import undersong.theory.TypedChord;
import undersong.time.Span;
import undersong.work.Trouble;

/**
 * Corrections as requests and answers hold them: as the shelf stores them, but with chords, keys,
 * roles and pitches as people write them. A kind that is new to the readings is understood without
 * a word here.
 */
final class CorrectionJson {
  private static final ObjectMapper MAPPER = new ObjectMapper();

  /** Fields that name one of a few: sub bass for SUB_BASS. */
  private static final List<String> CHOICES = List.of("role", "source", "layer", "echo");

  private static final Span ANYWHERE = new Span(0, 1);

  private CorrectionJson() {}

  static ObjectNode print(Correction correction) {
    ObjectNode node = stored(correction);
    if (correction instanceof Correction.ChordOver over) {
      node.put("chord", HarteSyntax.print(over.chord()));
    } else if (correction instanceof Correction.KeyOver over) {
      node.put("key", over.key().toString());
    }
    for (String choice : CHOICES) {
      if (node.path(choice).isTextual()) {
        String word = node.get(choice).asText();
        node.put(choice, word.toLowerCase(Locale.ROOT).replace('_', ' '));
      }
    }
    return node;
  }

  /** Throws {@link Trouble.WrongUsage}, naming what makes no sense. */
  static Correction parse(JsonNode given) {
    if (!(given instanceof ObjectNode object) || !object.path("kind").isTextual()) {
      throw new Trouble.WrongUsage(
          "A correction must be an object with a \"kind\", such as ChordOver; this one is %s."
              .formatted(excerpt(String.valueOf(given))));
    }
    ObjectNode plain = object.deepCopy();
    try {
      if (plain.path("chord").isTextual()) {
        plain.set("chord", stored(TypedChord.parse(plain.get("chord").asText())));
      }
      if (plain.path("key").isTextual()) {
        plain.set("key", stored(Key.parse(plain.get("key").asText().strip())));
      }
      if (plain.path("pitch").isTextual()) {
        plain.put("midiPitch", SpelledPitch.parse(plain.remove("pitch").asText()).midi());
      }
      for (String choice : CHOICES) {
        if (plain.path(choice).isTextual()) {
          String word = plain.get(choice).asText().strip();
          plain.put(choice, word.toUpperCase(Locale.ROOT).replace(' ', '_').replace('-', '_'));
        }
      }
      return ReadingJson.parseCorrection(MAPPER.writeValueAsString(plain));
    } catch (IllegalArgumentException | JsonProcessingException misfit) {
      throw new Trouble.WrongUsage(
          "The correction %s cannot be understood: %s"
              .formatted(excerpt(given.toString()), innermost(misfit)));
    }
  }

  private static JsonNode stored(ChordSymbol chord) {
    return stored(new Correction.ChordOver(ANYWHERE, chord)).get("chord");
  }

  private static JsonNode stored(Key key) {
    return stored(new Correction.KeyOver(ANYWHERE, key)).get("key");
  }

  private static ObjectNode stored(Correction correction) {
    try {
      return (ObjectNode) MAPPER.readTree(ReadingJson.print(correction));
    } catch (JsonProcessingException bug) {
      throw new IllegalStateException("What the shelf writes is no JSON.", bug);
    }
  }

  /** What a value itself said is worth more than that it could not be made. */
  private static String innermost(Throwable misfit) {
    Throwable cause = misfit;
    while (cause.getCause() != null && cause.getCause() != cause) {
      cause = cause.getCause();
    }
    String message =
        cause instanceof JsonProcessingException json
            ? json.getOriginalMessage()
            : String.valueOf(cause.getMessage());
    // The rest names classes, which help nobody who types.
    return message.replaceAll("\\(class [^)]*\\)", "").replaceAll("undersong\\.[a-z.]*", "");
  }

  private static String excerpt(String text) {
    return text.length() <= 200 ? text : text.substring(0, 200) + " ...";
  }
}
