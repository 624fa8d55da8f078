package undersong.search;

import java.util.ArrayList;
import java.util.List;
import undersong.technique.Technique;
import undersong.time.Span;

/** Where techniques were found in a song, by place, in some twenty bytes each. */
public final class TechniquePlaces {
  public static final TechniquePlaces NONE = new TechniquePlaces(List.of(), List.of());

  private final Technique[] techniques;
  private final double[] ends;

  /**
   * @param spans of the techniques, in the same order
   */
  public TechniquePlaces(List<Technique> techniques, List<Span> spans) {
    this.techniques = techniques.toArray(new Technique[0]);
    this.ends = new double[2 * this.techniques.length];
    for (int i = 0; i < this.techniques.length; i++) {
      ends[2 * i] = spans.get(i).startSeconds();
      ends[2 * i + 1] = spans.get(i).endSeconds();
    }
  }

  public boolean has(Technique technique) {
    for (Technique one : techniques) {
      if (one == technique) {
        return true;
      }
    }
    return false;
  }

  public List<Span> of(Technique technique) {
    List<Span> spans = new ArrayList<>();
    for (int i = 0; i < techniques.length; i++) {
      if (techniques[i] == technique) {
        spans.add(new Span(ends[2 * i], ends[2 * i + 1]));
      }
    }
    return spans;
  }
}
