package undersong.bench.decode;

import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import undersong.bench.metrics.SungNote;
import undersong.bench.metrics.Timed;
import undersong.bench.render.Staging;
import undersong.bench.render.Truth;
import undersong.estimate.repeat.WeighedNotes;
import undersong.feature.Features;
import undersong.reading.Bar;
import undersong.reading.Derived;
import undersong.reading.Facet;
import undersong.reading.Form;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;
import undersong.reading.Section;
import undersong.time.Span;

/**
 * Writes what {@code training/repeats.py} fits to. First come the names of the evidence. Then for
 * each copy, once with its sections as they were heard and once with the true ones: a row with set,
 * recording, "heard" or "true", -1, the number of notes that are truly new and the seconds it
 * lasts; and a row for each note of a section that returns, with 1 or 0 for new or not and the
 * evidence.
 */
public final class RepeatRows {
  /** An octave off counts as much as an onset this much off. */
  private static final double OCTAVE_SECONDS = 0.012;

  private final PrintStream out;

  private RepeatRows(PrintStream out) {
    this.out = out;
  }

  /**
   * @param arguments cache and soundfont, as the bench has them; file to write; the sets
   */
  public static void main(String[] arguments) throws IOException {
    try (PrintStream out = new PrintStream(arguments[2], StandardCharsets.UTF_8)) {
      out.println("#" + String.join(",", WeighedNotes.EVIDENCE));
      RepeatRows rows = new RepeatRows(out);
      TuningSong.eachCopy(
          Path.of(arguments[0]),
          Path.of(arguments[1]),
          List.of(arguments).subList(3, arguments.length),
          (set, truth, id, studied, features) -> {
            Reading reading = studied.stored().reading();
            if (!truth.sections().isEmpty() && !reading.get(Facet.METER).bars().isEmpty()) {
              rows.write(set + "," + id + ",heard", truth, features, reading);
              rows.write(set + "," + id + ",true", truth, features, trulyCut(truth, reading));
            }
          });
    }
  }

  private void write(String name, Truth truth, Features features, Reading reading) {
    List<SungNote> added =
        truth.staging().additions().stream().map(Staging.Addition::note).toList();
    out.printf(Locale.ROOT, "%s,-1,%d,%.2f%n", name, added.size(), truth.durationSeconds());
    List<WeighedNotes.Weighed> weighed = WeighedNotes.of(features, reading);
    boolean[] isNew = matched(added, weighed.stream().map(WeighedNotes.Weighed::note).toList());
    for (int i = 0; i < isNew.length; i++) {
      StringBuilder row = new StringBuilder(name).append(isNew[i] ? ",1" : ",0");
      weighed.get(i).evidence().forEach(e -> row.append(String.format(Locale.ROOT, ",%.4f", e)));
      out.println(row);
    }
  }

  /** The reading with the true sections, from bar line to bar line. */
  private static Reading trulyCut(Truth truth, Reading reading) {
    List<Bar> bars = reading.get(Facet.METER).bars();
    List<Section> sections = new ArrayList<>();
    Map<String, Integer> occurrences = new HashMap<>();
    for (Timed<String> section : truth.sections()) {
      int first = nearest(bars, section.startSeconds());
      int end = nearest(bars, section.endSeconds());
      if (end > first) {
        String letter = section.value();
        sections.add(
            new Section(
                new Span(
                    bars.get(first).span().startSeconds(), bars.get(end - 1).span().endSeconds()),
                bars.get(first).number(),
                bars.get(end - 1).number(),
                letter,
                occurrences.merge(letter, 1, Integer::sum),
                0,
                1));
      }
    }
    return reading.with(Facet.FORM, Derived.of(new Form(sections)));
  }

  /** Index of the bar that begins nearest; one past the last where the end of it is nearer. */
  private static int nearest(List<Bar> bars, double seconds) {
    int nearest = 0;
    for (int bar = 0; bar < bars.size(); bar++) {
      nearest =
          away(bars.get(bar).span().startSeconds(), seconds)
                  < away(bars.get(nearest).span().startSeconds(), seconds)
              ? bar
              : nearest;
    }
    Span last = bars.get(bars.size() - 1).span();
    return away(last.endSeconds(), seconds) < away(bars.get(nearest).span().startSeconds(), seconds)
        ? bars.size()
        : nearest;
  }

  private static double away(double seconds, double other) {
    return Math.abs(seconds - other);
  }

  /**
   * Which notes are truly new, as the bench judges; of several for one that with its onset, and of
   * those that with its octave.
   */
  private static boolean[] matched(List<SungNote> added, List<NoteEvent> notes) {
    record Pair(int added, int note, double apart) {}
    List<Pair> pairs = new ArrayList<>();
    for (int a = 0; a < added.size(); a++) {
      for (int n = 0; n < notes.size(); n++) {
        Span span = notes.get(n).span();
        if (added.get(a).pitchClass() == notes.get(n).pitchClass()
            && added.get(a).startSeconds() < span.endSeconds()
            && span.startSeconds() < added.get(a).endSeconds()) {
          double octaves = away(added.get(a).midiPitch(), notes.get(n).midiPitch()) / 12;
          double onset = away(added.get(a).startSeconds(), span.startSeconds());
          pairs.add(new Pair(a, n, onset + OCTAVE_SECONDS * octaves));
        }
      }
    }
    pairs.sort(Comparator.comparingDouble(Pair::apart));
    boolean[] taken = new boolean[added.size()];
    boolean[] isNew = new boolean[notes.size()];
    for (Pair pair : pairs) {
      if (!taken[pair.added()] && !isNew[pair.note()]) {
        taken[pair.added()] = true;
        isNew[pair.note()] = true;
      }
    }
    return isNew;
  }
}
