package undersong.cli;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import undersong.reading.Bar;
import undersong.reading.Beats;
import undersong.reading.Candidate;
import undersong.reading.ChordSpan;
import undersong.reading.Facet;
import undersong.reading.KeyRegion;
import undersong.reading.Keys;
import undersong.reading.Meter;
import undersong.reading.Reading;
import undersong.reading.Reverb;
import undersong.reading.Roles;
import undersong.reading.Section;
import undersong.shelf.Song;
import undersong.theory.LeadSheet;

/**
 * A reading as a musician reads it: the song in two lines, its form in one, then section by section
 * the bars, four to a row, each with its chords, Roman numerals and bass in syllables. No line is
 * wider than {@value #COLUMNS} columns unless one single bar is.
 */
final class ReadingPrinter {
  static final int COLUMNS = 100;
  private static final int MARGIN = 6;
  private static final int[] BARS_IN_A_ROW = {4, 2, 1};

  private final Song song;
  private final Reading reading;
  private final StringBuilder page = new StringBuilder();

  private ReadingPrinter(Song song, Reading reading) {
    this.song = song;
    this.reading = reading;
  }

  /** The whole page, ending in a line break. */
  static String print(Song song, Reading reading) {
    ReadingPrinter printer = new ReadingPrinter(song, reading);
    printer.head();
    printer.form();
    printer.sections();
    printer.legend();
    return printer.page.toString();
  }

  private void head() {
    line(
        Stream.of(
                Optional.of(song.title()),
                song.artist(),
                song.year().map(String::valueOf),
                Optional.of(Words.time(reading.durationSeconds())))
            .flatMap(Optional::stream)
            .collect(Collectors.joining(" · ")));
    Beats beats = reading.get(Facet.BEATS);
    Meter meter = reading.get(Facet.METER);
    Keys keys = reading.get(Facet.KEYS);
    List<String> facts = new ArrayList<>();
    facts.add(tempo(beats));
    if (!meter.bars().isEmpty()) {
      facts.add(
          meter.mainSignature()
              + open(meter.probability(), meter.otherSignatures(), Object::toString));
    }
    facts.add(
        keys.regions().isEmpty()
            ? "no key"
            : keys.regions().stream()
                .map(region -> region.key().toString())
                .distinct()
                .collect(Collectors.joining(", then ")));
    facts.add(Words.tuning(reading.get(Facet.TUNING)));
    facts.add(
        String.format(Locale.ROOT, "%.1f LUFS", reading.get(Facet.DYNAMICS).integratedLufs()));
    room().ifPresent(facts::add);
    wrapped("", facts, " · ");
  }

  /** The room of most of the song, where its decay is told. */
  private Optional<String> room() {
    List<Reverb> told =
        reading.get(Facet.ECHOES).reverbs().stream()
            .filter(room -> room.meanDecaySeconds() > 0)
            .sorted(Comparator.comparingDouble(Reverb::meanDecaySeconds))
            .toList();
    if (told.isEmpty()) {
      return Optional.empty();
    }
    Reverb middle = told.get(told.size() / 2);
    String words = String.format(Locale.ROOT, "room falls in %.1f s", middle.meanDecaySeconds());
    return Optional.of(words + open(middle.probability(), List.of(), Object::toString));
  }

  private static String tempo(Beats beats) {
    if (beats.grid().isEmpty()) {
      return "no pulse";
    }
    String swing =
        beats.tatumsPerBeat() == 3
            ? "in threes"
            : beats.swingRatio() >= 1.2
                ? String.format(Locale.ROOT, "swung %.1f : 1", beats.swingRatio())
                : "even";
    return String.format(Locale.ROOT, "%.0f bpm", beats.grid().medianBpm())
        + open(beats.probability(), beats.otherTempi(), bpm -> Math.round(bpm) + " bpm")
        + ", "
        + swing;
  }

  /** "?" and the runner-up where an answer is open; nothing where it is sure. */
  private static <V> String open(
      double probability, List<Candidate<V>> others, Function<V, String> words) {
    if (probability >= BarCells.OPEN_BELOW) {
      return "";
    }
    String other =
        others.isEmpty()
            ? ""
            : ", else "
                + words.apply(others.get(0).value())
                + " "
                + Words.percent(others.get(0).probability());
    return "? (" + Words.percent(probability) + other + ")";
  }

  private void form() {
    List<Section> sections = reading.get(Facet.FORM).sections();
    if (sections.isEmpty()) {
      return;
    }
    List<String> words = new ArrayList<>();
    for (int i = 0; i < sections.size(); i++) {
      Section section = sections.get(i);
      words.add(
          name(i).toLowerCase(Locale.ROOT)
              + " "
              + section.letter()
              + (section.probability() < BarCells.OPEN_BELOW ? "?" : "")
              + " "
              + (section.lastBar() - section.firstBar() + 1));
    }
    wrapped("Form: ", words, " | ");
  }

  private void sections() {
    List<BarCell> cells = BarCells.of(reading);
    List<Section> sections = reading.get(Facet.FORM).sections();
    if (cells.isEmpty()) {
      line("");
      withoutBars();
      return;
    }
    if (sections.isEmpty()) {
      line("");
      rows(cells);
      return;
    }
    for (int i = 0; i < sections.size(); i++) {
      Section section = sections.get(i);
      boolean first = i == 0;
      boolean last = i == sections.size() - 1;
      List<BarCell> own =
          cells.stream()
              .filter(cell -> first || cell.number() >= section.firstBar())
              .filter(cell -> last || cell.number() <= section.lastBar())
              .toList();
      line("");
      heading(i, section);
      rows(own);
      openChords(own);
    }
  }

  private void heading(int index, Section section) {
    List<String> words = new ArrayList<>();
    words.add(Words.sentence(name(index)) + " " + section.letter());
    if (section.occurrence() > 1) {
      words.add(Words.ordinal(section.occurrence()) + " time");
    }
    int up = section.transposedSemitones();
    if (up != 0) {
      words.add(
          (up > 0 ? "up " : "down ")
              + Math.abs(up)
              + (Math.abs(up) == 1 ? " semitone" : " semitones"));
    }
    words.add("bars " + section.firstBar() + "-" + section.lastBar());
    words.add(keysIn(section));
    words.add(room(section));
    wrapped(
        String.format(Locale.ROOT, "%-6s", Words.time(section.span().startSeconds())),
        words.stream().filter(text -> !text.isEmpty()).toList(),
        " · ");
  }

  /** What the section is called; where it stands and what it does, if these differ. */
  private String name(int index) {
    List<Roles.NamedSection> roles = reading.get(Facet.ROLES).sections();
    if (index >= roles.size()) {
      return "section";
    }
    Roles.NamedSection role = roles.get(index);
    String open = role.probability() < BarCells.OPEN_BELOW ? "?" : "";
    return role.place() == role.function()
        ? role.place().words() + open
        : role.place().words() + " (works as " + role.function().words() + ")" + open;
  }

  /** How the room changes here. */
  private String room(Section section) {
    return reading.get(Facet.ECHOES).reverbs().stream()
        .filter(room -> room.span().contains(section.span().middleSeconds()))
        .filter(room -> room.changeDb() != 0)
        .map(
            room ->
                String.format(
                    Locale.ROOT,
                    "%.0f dB %s",
                    Math.abs(room.changeDb()),
                    room.changeDb() > 0 ? "wetter" : "drier"))
        .findFirst()
        .orElse("");
  }

  private String keysIn(Section section) {
    List<String> words = new ArrayList<>();
    for (KeyRegion region : reading.get(Facet.KEYS).regions()) {
      if (region.span().overlapSeconds(section.span()) < 0.5) {
        continue;
      }
      String open = open(region.probability(), region.runnersUp(), Object::toString);
      boolean fromTheStart = region.span().startSeconds() <= section.span().startSeconds() + 0.5;
      String from =
          fromTheStart
              ? ""
              : reading
                  .get(Facet.METER)
                  .barAt(region.span().startSeconds() + 0.1)
                  .map(bar -> " from bar " + bar.number())
                  .orElse("");
      words.add(region.key() + open + from);
    }
    return String.join(", ", words);
  }

  private void rows(List<BarCell> cells) {
    int inARow = BARS_IN_A_ROW[BARS_IN_A_ROW.length - 1];
    for (int candidate : BARS_IN_A_ROW) {
      int width = cellColumns(candidate);
      if (cells.stream().allMatch(cell -> cell.fitsIn(width - 1))) {
        inARow = candidate;
        break;
      }
    }
    for (int from = 0; from < cells.size(); from += inARow) {
      row(cells.subList(from, Math.min(cells.size(), from + inARow)), cellColumns(inARow));
    }
  }

  private static int cellColumns(int barsInARow) {
    return (COLUMNS - MARGIN - 1) / barsInARow - 1;
  }

  private void row(List<BarCell> cells, int columns) {
    for (int kind = 0; kind < 3; kind++) {
      StringBuilder text = new StringBuilder();
      text.append(
          kind == 0
              ? String.format(Locale.ROOT, "%4d  ", cells.get(0).number())
              : " ".repeat(MARGIN));
      boolean empty = true;
      for (BarCell cell : cells) {
        String content = cell.lines(columns - 1).get(kind);
        empty &= content.isEmpty();
        text.append(kind == 0 ? '|' : ' ')
            .append(content)
            .append(" ".repeat(Math.max(0, columns - content.length())));
      }
      if (!empty || kind == 0) {
        line(text.append(kind == 0 ? "|" : "").toString().stripTrailing());
      }
    }
  }

  private void openChords(List<BarCell> cells) {
    int first = cells.isEmpty() ? 0 : cells.get(0).number();
    int last = cells.isEmpty() ? -1 : cells.get(cells.size() - 1).number();
    List<String> words = new ArrayList<>();
    for (ChordSpan chord : reading.get(Facet.CHORDS).spans()) {
      Optional<Bar> bar = reading.get(Facet.METER).barAt(chord.span().startSeconds() + 0.01);
      boolean here = bar.isPresent() && bar.get().number() >= first && bar.get().number() <= last;
      if (here && (BarCells.isOpen(chord) || chord.besides().isPresent())) {
        words.add("bar " + bar.get().number() + " " + alternatives(chord));
      }
    }
    if (!words.isEmpty()) {
      wrapped(" ".repeat(MARGIN) + "open: ", words, "; ");
    }
  }

  private static String alternatives(ChordSpan chord) {
    String besides = chord.besides().map(symbol -> " beside " + LeadSheet.say(symbol)).orElse("");
    if (!BarCells.isOpen(chord)) {
      return LeadSheet.say(chord.symbol()) + besides;
    }
    String other =
        chord.runnersUp().isEmpty()
            ? ""
            : ", else "
                + LeadSheet.say(chord.runnersUp().get(0).value())
                + " "
                + Words.percent(chord.runnersUp().get(0).probability());
    return LeadSheet.say(chord.symbol())
        + " "
        + Words.percent(chord.probability())
        + other
        + besides;
  }

  /** Without a pulse there are no bars: chords by the clock. */
  private void withoutBars() {
    for (ChordSpan chord : reading.get(Facet.CHORDS).spans()) {
      line(
          String.format(
                  Locale.ROOT,
                  "%-6s%-12s %s",
                  Words.time(chord.span().startSeconds()),
                  LeadSheet.say(chord.symbol()) + (BarCells.isOpen(chord) ? "?" : ""),
                  BarCells.eventOf(chord, reading).map(BarCells::numeral).orElse(""))
              .stripTrailing());
    }
  }

  private void legend() {
    line("");
    if (!reading.unplaced().isEmpty()) {
      wrapped(
          "Said, but it fits nothing here: ",
          reading.unplaced().stream().map(Object::toString).toList(),
          "; ");
    }
    line("Three lines a bar: chords where they arrive, numerals against the major scale, bass in");
    line(
        "la-based syllables. -½ half a beat early, +½ late; ? under 50 % sure; % as the bar"
            + " before;");
    line("(G) still sounding.");
  }

  private void wrapped(String start, List<String> items, String between) {
    StringBuilder text = new StringBuilder(start);
    for (int i = 0; i < items.size(); i++) {
      String item = items.get(i) + (i < items.size() - 1 ? between.stripTrailing() : "");
      if (text.length() > start.length() && text.length() + item.length() > COLUMNS) {
        line(text.toString().stripTrailing());
        text = new StringBuilder(" ".repeat(start.length()));
      }
      text.append(item).append(" ");
    }
    line(text.toString().stripTrailing());
  }

  private void line(String text) {
    page.append(text).append('\n');
  }
}
