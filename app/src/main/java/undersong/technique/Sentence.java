package undersong.technique;

import java.util.List;

/**
 * A sentence before it is put into words: a key of the texts and what fills its places.
 *
 * @param arguments numbers, sentences, or text that needs no translation (a chord, a note name)
 */
public record Sentence(String key, List<Object> arguments) {
  public Sentence {
    arguments = List.copyOf(arguments);
    for (Object argument : arguments) {
      if (!(argument instanceof Number
          || argument instanceof String
          || argument instanceof Sentence)) {
        throw new IllegalArgumentException(
            "Sentence %s is filled with a %s; only numbers, text and sentences are understood."
                .formatted(key, argument.getClass().getSimpleName()));
      }
    }
  }

  public static Sentence of(String key, Object... arguments) {
    return new Sentence(key, List.of(arguments));
  }
}
