package undersong.estimate.motif;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import undersong.reading.Form;
import undersong.reading.Motifs.Contour;
import undersong.reading.Motifs.PartRange;
import undersong.reading.NoteEvent;
import undersong.reading.Section;

/** How high a part lies in each section, and the shape its phrases have there most often. */
final class Ranges {
  private static final double BREATH_SECONDS = 0.5;
  private static final int FEWEST_NOTES = 3;

  /** A phrase whose corners lie nearer than this moves nowhere. */
  private static final double LEVEL_SEMITONES = 2.5;

  private Ranges() {}

  static List<PartRange> of(String part, List<NoteEvent> notes, Form form) {
    List<PartRange> ranges = new ArrayList<>();
    for (Section section : form.sections()) {
      List<NoteEvent> inside =
          notes.stream()
              .filter(note -> section.span().contains(note.span().middleSeconds()))
              .toList();
      if (inside.size() >= FEWEST_NOTES) {
        double[] pitches = inside.stream().mapToDouble(NoteEvent::midiPitch).sorted().toArray();
        ranges.add(
            new PartRange(
                section.span(),
                part,
                pitches[0],
                pitches[pitches.length / 2],
                pitches[pitches.length - 1],
                commonest(inside)));
      }
    }
    return ranges;
  }

  private static Contour commonest(List<NoteEvent> notes) {
    Map<Contour, Double> seconds = new EnumMap<>(Contour.class);
    int begin = 0;
    for (int i = 1; i <= notes.size(); i++) {
      if (i == notes.size()
          || notes.get(i).span().startSeconds() - notes.get(i - 1).span().endSeconds()
              > BREATH_SECONDS) {
        List<NoteEvent> phrase = notes.subList(begin, i);
        if (phrase.size() >= FEWEST_NOTES) {
          double length =
              phrase.get(phrase.size() - 1).span().endSeconds()
                  - phrase.get(0).span().startSeconds();
          seconds.merge(contour(phrase), length, Double::sum);
        }
        begin = i;
      }
    }
    return seconds.entrySet().stream()
        .max(Map.Entry.comparingByValue())
        .map(Map.Entry::getKey)
        .orElse(Contour.LEVEL);
  }

  /** From beginning, middle and end, each the mean of a third of the phrase. */
  static Contour contour(List<NoteEvent> phrase) {
    double[] pitches = phrase.stream().mapToDouble(NoteEvent::midiPitch).toArray();
    int third = Math.max(1, pitches.length / 3);
    double start = mean(pitches, 0, third);
    double middle = mean(pitches, third, Math.max(third + 1, pitches.length - third));
    double end = mean(pitches, pitches.length - third, pitches.length);
    if (middle - Math.max(start, end) >= LEVEL_SEMITONES / 2
        && Math.abs(end - start) < 2 * LEVEL_SEMITONES) {
      return Contour.ARCH;
    }
    if (Math.min(start, end) - middle >= LEVEL_SEMITONES / 2
        && Math.abs(end - start) < 2 * LEVEL_SEMITONES) {
      return Contour.BOWL;
    }
    if (Math.abs(end - start) >= LEVEL_SEMITONES) {
      return end > start ? Contour.RISING : Contour.FALLING;
    }
    double spread = Arrays.stream(pitches).max().orElse(0) - Arrays.stream(pitches).min().orElse(0);
    return spread > 2 * LEVEL_SEMITONES ? Contour.WAVE : Contour.LEVEL;
  }

  private static double mean(double[] values, int from, int to) {
    return Arrays.stream(values, from, Math.min(values.length, to)).average().orElse(values[0]);
  }
}
