package undersong.desk;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.fasterxml.jackson.databind.util.RawValue;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Supplier;
import java.util.zip.CRC32;

/**
 * The parts of a song's page by name, each made only where it is wanted. A reader is told a tag of
 * each, by which it can say next time what it holds already: most parts of a page of a megabyte
 * stay the same when a word is said.
 */
final class PageParts {
  /** All that a page has, in its order. */
  static final List<String> NAMES =
      List.of(
          "song",
          "settings",
          "facts",
          "beats",
          "bars",
          "sections",
          "keys",
          "chords",
          "bass",
          "melody",
          "voices",
          "lines",
          "takeovers",
          "motifs",
          "ranges",
          "repeats",
          "bands",
          "space",
          "texture",
          "echoes",
          "remarks",
          "hearings",
          "findings",
          "verdicts",
          "earlierWords",
          "steps",
          "canUndo",
          "canRedo",
          "unplaced");

  private final Map<String, Supplier<Printed>> makers = new LinkedHashMap<>();

  /** A part as it is sent, with the tag by which it is known again. */
  record Printed(String text, String tag) {
    static Printed of(JsonNode part) {
      String text = Json.print(part);
      CRC32 sum = new CRC32();
      sum.update(text.getBytes(StandardCharsets.UTF_8));
      return new Printed(text, "%x-%x".formatted(text.length(), sum.getValue()));
    }
  }

  void put(String name, Supplier<? extends JsonNode> maker) {
    putPrinted(name, () -> Printed.of(maker.get()));
  }

  /**
   * Adds all of other parts, which are printed once.
   *
   * @param known what is printed of them so far; added to
   */
  void putAll(PageParts others, Map<String, Printed> known) {
    others.makers.forEach(
        (name, maker) ->
            putPrinted(name, () -> known.computeIfAbsent(name, unknown -> maker.get())));
  }

  private void putPrinted(String name, Supplier<Printed> maker) {
    if (!NAMES.contains(name)) {
      throw new IllegalArgumentException("The page's part " + name + " is not among " + NAMES);
    }
    makers.put(name, maker);
  }

  /** Adds the wanted parts to a page, and the tags of all of them, sent or held. */
  void addTo(ObjectNode page, Wanted wanted) {
    ObjectNode tags = Json.object();
    makers.forEach(
        (name, maker) -> {
          if (!wanted.wants(name)) {
            return;
          }
          Printed part = maker.get();
          tags.put(name, part.tag());
          if (!wanted.holds(name, part.tag())) {
            // It is printed already, to be compared.
            page.putRawValue(name, new RawValue(part.text()));
          }
        });
    page.set("tags", tags);
  }
}
