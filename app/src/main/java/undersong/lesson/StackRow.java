package undersong.lesson;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import undersong.exchange.SectionNames;
import undersong.reading.Bar;
import undersong.reading.ChordSpan;
import undersong.reading.Facet;
import undersong.reading.Form;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;
import undersong.reading.Repeat;
import undersong.reading.Repeats;
import undersong.reading.Section;
import undersong.technique.BarRange;
import undersong.time.Span;

/**
 * The bars of one copy of a section, and what of them stands as in the earlier copy it is held
 * against: all that the reading does not name as different, in bars that both have.
 *
 * @param title of the section
 * @param bars that are shown
 * @param repeat empty for the first copy
 */
record StackRow(Section section, String title, List<Bar> bars, Optional<Repeat> repeat) {
  private static final int MOST_ROWS = 4;

  /** A difference within so many seconds of an onset is about that note. */
  private static final double SAME_MOMENT_SECONDS = 0.03;

  StackRow {
    bars = List.copyOf(bars);
  }

  /**
   * The bars of an example in every copy of the section where it begins: the first copies, and the
   * one that is spoken of. None where it lies in no section.
   */
  static List<StackRow> copies(BarRange example, Reading reading) {
    List<Section> sections = reading.find(Facet.FORM).map(Form::sections).orElse(List.of());
    Optional<Section> home =
        sections.stream()
            .filter(one -> one.firstBar() <= example.first() && example.first() <= one.lastBar())
            .findFirst();
    if (home.isEmpty()) {
      return List.of();
    }
    int offset = example.first() - home.get().firstBar();
    int howMany = Math.min(example.last(), home.get().lastBar()) - example.first() + 1;
    List<String> titles = SectionNames.titles(reading);
    List<StackRow> rows = new ArrayList<>();
    for (int i = 0; i < sections.size(); i++) {
      if (sections.get(i).letter().equals(home.get().letter())) {
        StackRow row = of(reading, sections.get(i), titles.get(i), offset, howMany);
        if (!row.bars().isEmpty()) {
          rows.add(row);
        }
      }
    }
    List<StackRow> shown = new ArrayList<>(rows.subList(0, Math.min(MOST_ROWS, rows.size())));
    rows.stream()
        .filter(row -> row.section().equals(home.get()) && !shown.contains(row))
        .forEach(own -> shown.set(shown.size() - 1, own));
    return shown;
  }

  /**
   * @param offset bars from the beginning of the section
   * @param howMany bars, at most
   */
  private static StackRow of(
      Reading reading, Section section, String title, int offset, int howMany) {
    int first = section.firstBar() + offset;
    int last = Math.min(section.lastBar(), first + howMany - 1);
    return new StackRow(
        section,
        title,
        reading.get(Facet.METER).bars().stream()
            .filter(bar -> bar.number() >= first && bar.number() <= last)
            .toList(),
        reading.find(Facet.REPEATS).map(Repeats::repeats).orElse(List.of()).stream()
            .filter(one -> one.letter().equals(section.letter()))
            .filter(one -> one.occurrence() == section.occurrence())
            .findFirst());
  }

  Span span() {
    return new Span(
        bars.get(0).span().startSeconds(), bars.get(bars.size() - 1).span().endSeconds());
  }

  boolean same(ChordSpan chord) {
    return compared(chord.span())
        && repeat.orElseThrow().chords().stream().noneMatch(c -> covers(c.span(), chord.span()));
  }

  /**
   * @param part {@code bass} or {@code melody}
   */
  boolean same(NoteEvent note, String part) {
    return compared(note.span())
        && notes(part).stream()
            .filter(change -> change.fate() != Repeat.NoteFate.REMOVED)
            .noneMatch(
                change ->
                    Math.abs(change.span().startSeconds() - note.span().startSeconds())
                        < SAME_MOMENT_SECONDS);
  }

  /** Notes of the earlier copy that are missing here, where they would sound. */
  List<NoteEvent> gone(String part) {
    return notes(part).stream()
        .filter(change -> change.fate() == Repeat.NoteFate.REMOVED)
        .map(Repeat.NoteChange::event)
        .filter(note -> span().contains(note.span().startSeconds()))
        .toList();
  }

  /** How many notes of a part are there, gone or moved in these bars. */
  long differences(String part) {
    return notes(part).stream().filter(note -> numbers().contains(note.bar())).count();
  }

  /** Chords that are others than in the earlier copy. */
  List<Repeat.ChordChange> otherChords() {
    return repeat.map(Repeat::chords).orElse(List.of()).stream()
        .filter(change -> numbers().contains(change.bar()))
        .toList();
  }

  private List<Repeat.NoteChange> notes(String part) {
    return repeat.map(Repeat::notes).orElse(List.of()).stream()
        .filter(change -> change.part().equals(part))
        .toList();
  }

  private Set<Integer> numbers() {
    return bars.stream().map(Bar::number).collect(Collectors.toSet());
  }

  private boolean compared(Span span) {
    if (repeat.isEmpty()) {
      return false;
    }
    Set<Integer> shared =
        repeat.get().bars().stream()
            .filter(bar -> !bar.earlier().isEmpty())
            .map(Repeat.AlignedBar::bar)
            .collect(Collectors.toSet());
    return bars.stream().anyMatch(b -> shared.contains(b.number()) && b.span().overlaps(span));
  }

  /** Whether a difference is about a chord: they share half of the shorter. */
  private static boolean covers(Span difference, Span chord) {
    double shorter = Math.min(difference.lengthSeconds(), chord.lengthSeconds());
    return difference.overlapSeconds(chord) > 0.5 * shorter;
  }
}
