package undersong.reading;

import java.util.List;
import java.util.Optional;

/** Chords in order, without gaps or overlaps, from the start of the recording to its end. */
public record Chords(List<ChordSpan> spans) implements FacetValue {
  public Chords {
    spans = List.copyOf(spans);
    for (int i = 1; i < spans.size(); i++) {
      double gap = spans.get(i).span().startSeconds() - spans.get(i - 1).span().endSeconds();
      if (Math.abs(gap) > 1e-6) {
        throw new IllegalArgumentException(
            "Chord at %s s must begin where the one before it ends (%s s)."
                .formatted(
                    spans.get(i).span().startSeconds(), spans.get(i - 1).span().endSeconds()));
      }
    }
  }

  public Optional<ChordSpan> chordAt(double seconds) {
    return spans.stream().filter(chord -> chord.span().contains(seconds)).findFirst();
  }

  @Override
  public Object essence() {
    return spans.stream().map(ChordSpan::essence).toList();
  }
}
