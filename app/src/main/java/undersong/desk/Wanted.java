package undersong.desk;

import io.javalin.http.Context;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import undersong.work.Trouble;

/**
 * What a reader wants of a song's page.
 *
 * @param parts by name; empty for all of them
 * @param held part to the tag of what the reader has of it
 */
record Wanted(Optional<Set<String>> parts, Map<String, String> held) {
  static final String HELD_HEADER = "X-Undersong-Held";
  static final Wanted ALL = new Wanted(Optional.empty(), Map.of());

  Wanted {
    parts = parts.map(Set::copyOf);
    held = Map.copyOf(held);
  }

  /**
   * As the query's {@code parts} and the header say, both lists with commas.
   *
   * @throws Trouble.WrongUsage where a part is named that no page has
   */
  static Wanted of(Context request) {
    Optional<Set<String>> parts =
        Optional.ofNullable(request.queryParam("parts"))
            .map(names -> Arrays.stream(names.split(",", -1)).collect(Collectors.toSet()));
    for (String name : parts.orElse(Set.of())) {
      if (!PageParts.NAMES.contains(name)) {
        throw new Trouble.WrongUsage(
            "There is no part \"%s\" of a page; there are %s."
                .formatted(name, String.join(", ", PageParts.NAMES)));
      }
    }
    Map<String, String> held = new LinkedHashMap<>();
    String header = request.header(HELD_HEADER);
    if (header != null && !header.isBlank()) {
      for (String one : header.split(",", -1)) {
        String[] nameAndTag = one.strip().split("=", 2);
        if (nameAndTag.length < 2) {
          throw new Trouble.WrongUsage(
              "%s holds \"%s\"; it must list NAME=TAG, with commas between."
                  .formatted(HELD_HEADER, one.strip()));
        }
        held.put(nameAndTag[0], nameAndTag[1]);
      }
    }
    return new Wanted(parts, held);
  }

  boolean wants(String part) {
    return parts.map(names -> names.contains(part)).orElse(true);
  }

  boolean holds(String part, String tag) {
    return tag.equals(held.get(part));
  }
}
