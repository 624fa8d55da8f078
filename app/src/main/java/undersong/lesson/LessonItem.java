package undersong.lesson;

import java.util.Optional;
import undersong.technique.BarRange;
import undersong.technique.Technique;
import undersong.time.Span;

/**
 * One thing the lesson speaks of.
 *
 * @param technique that was found; empty for the teacher's own remark
 * @param span where it is heard
 * @param heading in the teacher's words, or the technique's name
 * @param words the teacher's, in Markdown; "" for none. Never changed by the program.
 * @param example bars written out and played; empty for none
 * @param excerpt whether the page carries this span of the recording itself
 * @param asTold what the program said of it when it was chosen; "" for a remark
 */
public record LessonItem(
    Optional<Technique> technique,
    Span span,
    String heading,
    String words,
    Optional<BarRange> example,
    boolean excerpt,
    String asTold) {
  private static final int LONGEST_WORDS = 20_000;
  private static final int MOST_BARS = 16;

  public LessonItem {
    if (heading.isBlank() || heading.length() > 200) {
      throw new IllegalArgumentException(
          "A heading needs 1 to 200 characters, not %d.".formatted(heading.strip().length()));
    }
    if (words.length() > LONGEST_WORDS) {
      throw new IllegalArgumentException(
          "The words under \"%s\" have %d characters; at most %d are kept."
              .formatted(heading, words.length(), LONGEST_WORDS));
    }
    example.ifPresent(
        bars -> {
          if (bars.bars() > MOST_BARS) {
            throw new IllegalArgumentException(
                "The example under \"%s\" has %d bars; an example quotes at most %d."
                    .formatted(heading, bars.bars(), MOST_BARS));
          }
        });
  }

  public LessonItem withWords(String other) {
    return new LessonItem(technique, span, heading, other, example, excerpt, asTold);
  }

  public LessonItem withHeading(String other) {
    return new LessonItem(technique, span, other, words, example, excerpt, asTold);
  }

  public LessonItem withExcerpt(boolean carried) {
    return new LessonItem(technique, span, heading, words, example, carried, asTold);
  }
}
