package undersong.bench.decode;

import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import undersong.bench.metrics.NoteMetrics;
import undersong.bench.metrics.SungNote;
import undersong.bench.render.Truth;
import undersong.estimate.line.MovingNotes;
import undersong.feature.Features;
import undersong.reading.Reading;
import undersong.time.Span;

/**
 * Writes what {@code training/lines.py} fits to. First come the names of the evidence. Then for
 * each copy a row with set, recording, -1, the number of notes of its true lines and the seconds it
 * lasts; and a row for each note heard of the accompaniment, with 1 where it is one of these (onset
 * and pitch, as the bench judges) or 0, and the evidence.
 */
public final class LineRows {
  private LineRows() {}

  /**
   * @param arguments cache and soundfont, as the bench has them; file to write; the sets
   */
  public static void main(String[] arguments) throws IOException {
    try (PrintStream out = new PrintStream(arguments[2], StandardCharsets.UTF_8)) {
      out.println("#" + String.join(",", MovingNotes.EVIDENCE));
      TuningSong.eachCopy(
          Path.of(arguments[0]),
          Path.of(arguments[1]),
          List.of(arguments).subList(3, arguments.length),
          (set, truth, id, studied, features) ->
              write(set + "," + id, truth, features, studied.stored().reading(), out));
    }
  }

  private static void write(
      String name, Truth truth, Features features, Reading reading, PrintStream out) {
    List<SungNote> lines =
        truth.staging().lines().stream().flatMap(line -> line.notes().stream()).toList();
    out.printf(Locale.ROOT, "%s,-1,%d,%.2f%n", name, lines.size(), truth.durationSeconds());
    List<MovingNotes.Weighed> weighed = MovingNotes.weighed(features, reading);
    List<SungNote> heard = weighed.stream().map(LineRows::sung).toList();
    boolean[] ofLine = new boolean[heard.size()];
    Arrays.stream(NoteMetrics.match(lines, heard, NoteMetrics.Demand.ONSET_PITCH))
        .filter(note -> note >= 0)
        .forEach(note -> ofLine[note] = true);
    for (int i = 0; i < ofLine.length; i++) {
      StringBuilder row = new StringBuilder(name).append(ofLine[i] ? ",1" : ",0");
      weighed.get(i).evidence().forEach(e -> row.append(String.format(Locale.ROOT, ",%.4f", e)));
      out.println(row);
    }
  }

  private static SungNote sung(MovingNotes.Weighed weighed) {
    Span span = weighed.note().span();
    return new SungNote(span.startSeconds(), span.endSeconds(), weighed.note().midiPitch());
  }
}
