package undersong.reading;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import undersong.time.Span;

/** Holds a voice against the lead: its interval note by note, and what it does phrase by phrase. */
final class BesideLead {
  /** A longer rest is a breath. */
  private static final double BREATH_SECONDS = 0.7;

  /** A note goes with the lead where the lead sounds through this share of it. */
  private static final double TOGETHER = 0.3;

  /** A phrase is an ad-lib where fewer of its notes than this go with the lead. */
  private static final double WITH_LEAD = 0.4;

  /** A phrase doubles the lead where this share of its notes does. */
  private static final double DOUBLED = 0.7;

  private final List<NoteEvent> lead;

  BesideLead(Melody melody) {
    this.lead = melody.notes();
  }

  List<Voice.Sung> sung(List<NoteEvent> notes) {
    List<Voice.Sung> sung = new ArrayList<>();
    int first = 0;
    for (NoteEvent note : notes) {
      while (first < lead.size()
          && lead.get(first).span().endSeconds() <= note.span().startSeconds()) {
        first++;
      }
      sung.add(new Voice.Sung(note, interval(note, first)));
    }
    return sung;
  }

  private Optional<Integer> interval(NoteEvent note, int first) {
    double together = TOGETHER * note.span().lengthSeconds();
    Optional<Integer> interval = Optional.empty();
    for (int i = first;
        i < lead.size() && lead.get(i).span().startSeconds() < note.span().endSeconds();
        i++) {
      double common = lead.get(i).span().overlapSeconds(note.span());
      if (common >= together) {
        together = common;
        interval = Optional.of((int) Math.round(note.midiPitch() - lead.get(i).midiPitch()));
      }
    }
    return interval;
  }

  static List<Voice.Phrase> phrases(List<Voice.Sung> sung) {
    List<Voice.Phrase> phrases = new ArrayList<>();
    int begin = 0;
    for (int i = 1; i <= sung.size(); i++) {
      if (i == sung.size()
          || sung.get(i).event().span().startSeconds() - sung.get(i - 1).event().span().endSeconds()
              > BREATH_SECONDS) {
        phrases.add(phrase(sung.subList(begin, i)));
        begin = i;
      }
    }
    return phrases;
  }

  private static Voice.Phrase phrase(List<Voice.Sung> sung) {
    List<Integer> intervals =
        sung.stream().map(Voice.Sung::semitonesAboveLead).flatMap(Optional::stream).toList();
    double probability =
        sung.stream().mapToDouble(note -> note.event().probability()).average().orElse(0);
    Span span =
        new Span(
            sung.get(0).event().span().startSeconds(),
            sung.get(sung.size() - 1).event().span().endSeconds());
    if (intervals.size() < WITH_LEAD * sung.size()) {
      return new Voice.Phrase(span, VoiceKind.AD_LIB, Optional.empty(), probability);
    }
    return new Voice.Phrase(span, kind(intervals), commonest(intervals), probability);
  }

  private static VoiceKind kind(List<Integer> intervals) {
    double unison = intervals.stream().filter(i -> i == 0).count();
    double octave = intervals.stream().filter(i -> i != 0 && i % 12 == 0).count();
    if (unison >= DOUBLED * intervals.size()) {
      return VoiceKind.UNISON_DOUBLE;
    }
    return unison + octave >= DOUBLED * intervals.size()
        ? VoiceKind.OCTAVE_DOUBLE
        : VoiceKind.HARMONY;
  }

  private static Optional<Integer> commonest(List<Integer> intervals) {
    Map<Integer, Integer> counts = new HashMap<>();
    intervals.forEach(interval -> counts.merge(interval, 1, Integer::sum));
    return counts.entrySet().stream()
        .max(
            Map.Entry.<Integer, Integer>comparingByValue()
                .thenComparing(Map.Entry.comparingByKey(Comparator.reverseOrder())))
        .map(Map.Entry::getKey);
  }
}
