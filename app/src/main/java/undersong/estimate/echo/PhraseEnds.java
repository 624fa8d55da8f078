package undersong.estimate.echo;

import java.util.ArrayList;
import java.util.List;
import undersong.reading.NoteEvent;

/** The last notes before the lead rests: there a delay is heard by itself. */
final class PhraseEnds {
  static final double REST_SECONDS = 0.6;

  private PhraseEnds() {}

  static List<NoteEvent> of(List<NoteEvent> lead) {
    List<NoteEvent> ends = new ArrayList<>();
    for (int i = 0; i < lead.size(); i++) {
      double next =
          i + 1 < lead.size() ? lead.get(i + 1).span().startSeconds() : Double.POSITIVE_INFINITY;
      if (next - lead.get(i).span().endSeconds() > REST_SECONDS) {
        ends.add(lead.get(i));
      }
    }
    return ends;
  }

  /** Notes from rest to rest. */
  static List<List<NoteEvent>> phrases(List<NoteEvent> lead) {
    List<List<NoteEvent>> phrases = new ArrayList<>();
    int first = 0;
    for (int i = 1; i <= lead.size(); i++) {
      if (i == lead.size()
          || lead.get(i).span().startSeconds() - lead.get(i - 1).span().endSeconds()
              > REST_SECONDS) {
        phrases.add(lead.subList(first, i));
        first = i;
      }
    }
    return phrases;
  }
}
