package undersong.lesson.drill;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;

/** Exercises as JSON, as the page that plays them reads them. */
public final class DrillJson {
  private static final JsonNodeFactory JSON = JsonNodeFactory.instance;

  private DrillJson() {}

  public static ArrayNode print(List<Drill> drills) {
    ArrayNode list = JSON.arrayNode();
    drills.forEach(drill -> list.add(print(drill)));
    return list;
  }

  private static ObjectNode print(Drill drill) {
    ObjectNode node =
        JSON.objectNode()
            .put("kind", drill.kind().id())
            .put("title", drill.kind().title())
            .put("levels", drill.kind().levels())
            .put("level", drill.level())
            .put("prompt", drill.prompt())
            .put("answer", drill.answer())
            .put("explanation", drill.explanation());
    drill.sung().ifPresent(pitchClass -> node.put("sung", pitchClass));
    ArrayNode choices = node.putArray("choices");
    drill.choices().forEach(choices::add);
    ArrayNode tones = node.putArray("tones");
    for (Tone tone : drill.tones()) {
      ObjectNode one = tones.addObject();
      one.put("part", tone.part())
          .put("at", rounded(tone.atSeconds()))
          .put("for", rounded(tone.lengthSeconds()))
          .put("midi", tone.midi());
      if (tone.pan() != 0) {
        one.put("pan", tone.pan());
      }
      if (tone.level() != 1) {
        one.put("level", tone.level());
      }
    }
    return node;
  }

  private static double rounded(double seconds) {
    return Math.round(seconds * 1000) / 1000.0;
  }
}
