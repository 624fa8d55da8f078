package undersong.lesson;

import static undersong.lesson.Svg.WIDTH;
import static undersong.lesson.Svg.line;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import undersong.notation.NotationSettings;
import undersong.reading.Bar;
import undersong.reading.Bass;
import undersong.reading.ChordSpan;
import undersong.reading.Chords;
import undersong.reading.Facet;
import undersong.reading.Harmony;
import undersong.reading.HarmonyEvent;
import undersong.reading.Melody;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;
import undersong.technique.BarRange;
import undersong.theory.ChordSymbol;
import undersong.theory.ChordSymbol.Chord;
import undersong.theory.LeadSheet;
import undersong.theory.Numerals;
import undersong.theory.Spelling;
import undersong.time.Span;
import undersong.time.TimeCode;

/**
 * The bars of an example under the same bars of every copy of their section: chords where they
 * arrive, tune and bass as contours. What a copy does differently stands in full ink, what it
 * shares recedes; a circle is a note that is gone.
 */
final class StackPicture {
  private static final int ROW_HEIGHT = 124;
  private static final int CHORD = 30;

  /** Room for a letter of a chord symbol. */
  private static final double LETTER_WIDTH = 8.5;

  private static final int NUMERAL = 43;
  private static final Strip TUNE = new Strip("melody", 52, 76);
  private static final Strip BASS = new Strip("bass", 84, 100);

  /** A chord is drawn as still sounding where it began earlier by so much. */
  private static final double HELD_SECONDS = 0.03;

  private final Reading reading;
  private final NotationSettings settings;
  private final List<StackRow> rows;
  private final int bars;
  private final double barWidth;

  /** Where the contour of a part runs within a row. */
  private record Strip(String part, int top, int bottom) {}

  private StackPicture(Reading reading, NotationSettings settings, List<StackRow> rows) {
    this.reading = reading;
    this.settings = settings;
    this.rows = rows;
    this.bars = rows.stream().mapToInt(row -> row.bars().size()).max().orElseThrow();
    this.barWidth = (WIDTH - 2.0) / bars;
  }

  /** Empty where the bars lie in no section. */
  static String of(BarRange example, Reading reading, NotationSettings settings) {
    List<StackRow> rows = StackRow.copies(example, reading);
    return rows.isEmpty() ? "" : new StackPicture(reading, settings, rows).draw();
  }

  private String draw() {
    StringBuilder shapes = new StringBuilder();
    List<String> words = new ArrayList<>();
    for (int i = 0; i < rows.size(); i++) {
      StackRow row = rows.get(i);
      shapes.append(line("<g transform=\"translate(1 %d)\">", i * ROW_HEIGHT));
      shapes.append(
          line(
              "<text class=\"row\" x=\"0\" y=\"11\">%s, %s</text>",
              Markup.escaped(row.title()), TimeCode.minutes(row.span().startSeconds())));
      grid(shapes, row);
      chords(shapes, row);
      contour(shapes, row, TUNE, melody());
      contour(shapes, row, BASS, bass());
      shapes.append("</g>");
      words.add(words(row));
    }
    return Svg.picture(
        "stack",
        rows.size() * ROW_HEIGHT,
        "The same bars of each copy under each other. " + String.join(" ", words),
        shapes.toString());
  }

  private void grid(StringBuilder shapes, StackRow row) {
    for (int i = 0; i <= row.bars().size(); i++) {
      shapes.append(line("<path d=\"M%.1f 16 V%d\"/>", i * barWidth, BASS.bottom() + 4));
      if (i < row.bars().size()) {
        shapes.append(
            line(
                "<text class=\"number\" x=\"%.1f\" y=\"%d\">%d</text>",
                i * barWidth + 3, BASS.bottom() + 13, row.bars().get(i).number()));
      }
    }
  }

  private void chords(StringBuilder shapes, StackRow row) {
    double end = row.span().endSeconds();
    for (ChordSpan chord : reading.find(Facet.CHORDS).map(Chords::spans).orElse(List.of())) {
      double start = chord.span().startSeconds();
      if (!(chord.symbol() instanceof Chord named)
          || !chord.span().overlaps(row.span())
          || start > end - HELD_SECONDS) {
        continue;
      }
      boolean held = start < row.span().startSeconds() - HELD_SECONDS;
      Optional<HarmonyEvent> event = eventAt(chord.span().middleSeconds());
      String symbol = LeadSheet.say(onPaper(named, event));
      String label = Markup.escaped(symbol);
      // A symbol at the end of a row is moved in to stay whole.
      double x = held ? 2 : Math.min(x(row, start) + 2, WIDTH - 2 - LETTER_WIDTH * symbol.length());
      String kind = held || row.same(chord) ? " class=\"same\"" : "";
      shapes
          .append(line("<g%s><text class=\"symbol\" x=\"%.1f\" y=\"%d\">", kind, x, CHORD))
          .append(held ? "(" + label + ")" : label)
          .append("</text>");
      if (!held) {
        event
            .flatMap(e -> e.numeral().map(n -> Numerals.print(n, e.key(), settings.numerals())))
            .ifPresent(
                numeral ->
                    shapes.append(
                        line(
                            "<text x=\"%.1f\" y=\"%d\">%s</text>",
                            x, NUMERAL, Markup.escaped(numeral))));
      }
      shapes.append("</g>");
    }
  }

  private Optional<HarmonyEvent> eventAt(double seconds) {
    return reading.find(Facet.HARMONY).map(Harmony::events).orElse(List.of()).stream()
        .filter(event -> event.span().contains(seconds))
        .findFirst();
  }

  /** Spelled in its key, for whom the lesson is written. */
  private ChordSymbol onPaper(Chord chord, Optional<HarmonyEvent> event) {
    return event
        .<ChordSymbol>map(
            e -> settings.instrument().written(Spelling.chord(chord, e.key()), e.key()))
        .orElse(chord);
  }

  private void contour(StringBuilder shapes, StackRow row, Strip strip, List<NoteEvent> all) {
    double low = all.stream().filter(this::shown).mapToDouble(NoteEvent::midiPitch).min().orElse(0);
    double high =
        all.stream().filter(this::shown).mapToDouble(NoteEvent::midiPitch).max().orElse(0);
    for (NoteEvent note : all) {
      if (note.span().overlaps(row.span())) {
        double from = x(row, Math.max(row.span().startSeconds(), note.span().startSeconds()));
        double to = x(row, Math.min(row.span().endSeconds(), note.span().endSeconds()));
        shapes.append(
            line(
                "<path class=\"%s\" d=\"M%.1f %.1f H%.1f\"/>",
                row.same(note, strip.part()) ? "note same" : "note",
                from,
                y(strip, note, low, high),
                Math.max(from + 2, to - 1)));
      }
    }
    for (NoteEvent note : row.gone(strip.part())) {
      shapes.append(
          line(
              "<circle class=\"gone\" cx=\"%.1f\" cy=\"%.1f\" r=\"2.4\"/>",
              x(row, note.span().startSeconds()) + 2.4, y(strip, note, low, high)));
    }
  }

  private static double y(Strip strip, NoteEvent note, double low, double high) {
    double share = high > low ? (note.midiPitch() - low) / (high - low) : 0.5;
    return strip.bottom() - Math.max(0, Math.min(1, share)) * (strip.bottom() - strip.top());
  }

  private boolean shown(NoteEvent note) {
    return rows.stream().anyMatch(row -> note.span().overlaps(row.span()));
  }

  /** Bars are as wide as each other, so that copies played at another pace still align. */
  private double x(StackRow row, double seconds) {
    List<Bar> shown = row.bars();
    for (int i = 0; i < shown.size(); i++) {
      Bar bar = shown.get(i);
      if (seconds < bar.span().endSeconds() || i == shown.size() - 1) {
        double share = (seconds - bar.span().startSeconds()) / bar.span().lengthSeconds();
        return (i + Math.max(0, Math.min(1, share))) * barWidth;
      }
    }
    throw new IllegalStateException("a row without bars");
  }

  private String words(StackRow row) {
    String name = "%s from %s".formatted(row.title(), TimeCode.minutes(row.span().startSeconds()));
    if (row.repeat().isEmpty()) {
      return name + ".";
    }
    List<String> said = new ArrayList<>();
    row.otherChords()
        .forEach(
            one ->
                said.add(
                    "%s instead of %s in bar %d"
                        .formatted(
                            name(one.after(), one.span()),
                            name(one.before(), one.span()),
                            one.bar())));
    for (Strip strip : List.of(TUNE, BASS)) {
      long notes = row.differences(strip.part());
      if (notes > 0) {
        said.add(
            "%d notes of the %s differ".formatted(notes, strip.equals(TUNE) ? "tune" : "bass"));
      }
    }
    return name + ": " + (said.isEmpty() ? "as before." : String.join(", ", said) + ".");
  }

  private String name(ChordSymbol symbol, Span span) {
    return LeadSheet.say(
        symbol instanceof Chord named ? onPaper(named, eventAt(span.middleSeconds())) : symbol);
  }

  private List<NoteEvent> melody() {
    return reading.find(Facet.MELODY).map(Melody::notes).orElse(List.of());
  }

  private List<NoteEvent> bass() {
    return reading.find(Facet.BASS).map(Bass::notes).orElse(List.of());
  }
}
