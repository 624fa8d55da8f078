package undersong.shelf;

import java.time.Instant;
import undersong.technique.Finding;
import undersong.technique.Technique;
import undersong.time.Span;

/**
 * What a listener said of a finding.
 *
 * @param span of the finding when it was said; the verdict holds for whatever is found of the
 *     technique in most of it
 * @param words the listener's own; "" where yes or no is all
 */
public record Verdict(
    long id,
    Technique technique,
    Span span,
    String author,
    Instant saidAt,
    Answer answer,
    String words) {
  /** Yes, no, or neither. */
  public enum Answer {
    YES,
    NO,
    /** Own words only: nothing is taught by them. */
    WORDS
  }

  public Verdict {
    if (answer == Answer.WORDS && words.isBlank()) {
      throw new IllegalArgumentException("A verdict needs yes, no, or words; it has none of them.");
    }
  }

  /** Whether this was said of the finding. */
  public boolean isOn(Finding finding) {
    double shorter = Math.min(span.lengthSeconds(), finding.span().lengthSeconds());
    return technique == finding.technique() && span.overlapSeconds(finding.span()) >= 0.5 * shorter;
  }
}
