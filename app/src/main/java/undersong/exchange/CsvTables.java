package undersong.exchange;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import undersong.reading.Bass;
import undersong.reading.Beats;
import undersong.reading.ChordSpan;
import undersong.reading.Chords;
import undersong.reading.Facet;
import undersong.reading.Form;
import undersong.reading.Harmony;
import undersong.reading.HarmonyEvent;
import undersong.reading.KeyRegion;
import undersong.reading.Keys;
import undersong.reading.Melody;
import undersong.reading.Meter;
import undersong.reading.NoteEvent;
import undersong.reading.PartName;
import undersong.reading.Reading;
import undersong.reading.Section;
import undersong.reading.SectionRole;
import undersong.theory.ChordSymbol;
import undersong.theory.HarteSyntax;
import undersong.theory.Key;
import undersong.theory.LeadSheet;
import undersong.theory.NumeralSettings;
import undersong.theory.Numerals;
import undersong.theory.SpelledPitch;
import undersong.theory.Spelling;
import undersong.theory.SyllableSettings;
import undersong.theory.Syllables;

/**
 * Tables of a reading as CSV (RFC 4180, with line feeds), a header line first. Times in seconds; a
 * facet that was not derived gives a header alone.
 */
public final class CsvTables {
  private final Reading reading;
  private final NumeralSettings numerals;
  private final SyllableSettings syllables;

  public CsvTables(Reading reading, NumeralSettings numerals, SyllableSettings syllables) {
    this.reading = reading;
    this.numerals = numerals;
    this.syllables = syllables;
  }

  /** Beat by beat: time, bar and number in the bar, blank where there is no bar. */
  public String beats() {
    List<String> rows = rows("time", "bar", "beat");
    Optional<Beats> beats = reading.find(Facet.BEATS);
    BarCounts counts = BarCounts.of(reading);
    for (int beat = 0; beat < beats.map(b -> b.grid().size()).orElse(0); beat++) {
      rows.add(
          row(
              seconds(beats.get().grid().secondsAt(beat)),
              counts.barOf(beat).map(bar -> String.valueOf(bar.number())).orElse(""),
              counts.numberInBar(beat).map(String::valueOf).orElse("")));
    }
    return joined(rows);
  }

  /** Chord by chord, seen from its key where one is known. */
  public String chords() {
    List<String> rows =
        rows(
            "start",
            "end",
            "bar",
            "harte",
            "symbol",
            "key",
            "numeral",
            "borrowed",
            "arrival_beats",
            "probability");
    List<ChordSpan> spans = reading.find(Facet.CHORDS).map(Chords::spans).orElse(List.of());
    for (ChordSpan chord : spans) {
      Optional<HarmonyEvent> seen = harmonyAt(chord.span().middleSeconds());
      rows.add(
          row(
              seconds(chord.span().startSeconds()),
              seconds(chord.span().endSeconds()),
              bar(chord.span().startSeconds()),
              HarteSyntax.print(chord.symbol()),
              LeadSheet.print(chord.symbol()),
              seen.map(event -> event.key().toString()).orElse(""),
              seen.flatMap(
                      event -> event.numeral().map(n -> Numerals.print(n, event.key(), numerals)))
                  .orElse(""),
              seen.map(event -> event.borrowed() ? "yes" : "no").orElse(""),
              seen.map(event -> number(event.arrivalBeats())).orElse(""),
              number(chord.probability())));
    }
    return joined(rows);
  }

  /** Section by section: bars, sameness letter and what it is called. */
  public String sections() {
    List<String> rows =
        rows("start", "end", "first_bar", "last_bar", "letter", "role", "probability");
    List<SectionRole> roles = SectionNames.roles(reading);
    List<Section> sections = reading.find(Facet.FORM).map(Form::sections).orElse(List.of());
    for (int i = 0; i < sections.size(); i++) {
      Section section = sections.get(i);
      rows.add(
          row(
              seconds(section.span().startSeconds()),
              seconds(section.span().endSeconds()),
              String.valueOf(section.firstBar()),
              String.valueOf(section.lastBar()),
              section.letter(),
              roles.get(i).words(),
              number(section.probability())));
    }
    return joined(rows);
  }

  /** Key by key. */
  public String keys() {
    List<String> rows = rows("start", "end", "key", "probability");
    for (KeyRegion region : reading.find(Facet.KEYS).map(Keys::regions).orElse(List.of())) {
      rows.add(
          row(
              seconds(region.span().startSeconds()),
              seconds(region.span().endSeconds()),
              region.key().toString(),
              number(region.probability())));
    }
    return joined(rows);
  }

  /** Notes of bass, melody, voices and lines with name and syllable in the key that sounds. */
  public String notes() {
    List<String> rows =
        rows("part", "start", "end", "midi_pitch", "name", "syllable", "probability");
    addNotes(rows, PartName.BASS, reading.find(Facet.BASS).map(Bass::notes).orElse(List.of()));
    addNotes(
        rows, PartName.MELODY, reading.find(Facet.MELODY).map(Melody::notes).orElse(List.of()));
    reading
        .find(Facet.VOICES)
        .ifPresent(heard -> heard.voices().forEach(v -> addNotes(rows, v.name(), v.events())));
    reading
        .find(Facet.LINES)
        .ifPresent(
            heard -> heard.lines().forEach(line -> addNotes(rows, line.name(), line.notes())));
    return joined(rows);
  }

  private void addNotes(List<String> rows, String part, List<NoteEvent> notes) {
    for (NoteEvent note : notes) {
      double middle = note.span().middleSeconds();
      Optional<Key> key = reading.find(Facet.KEYS).flatMap(keys -> keys.keyAt(middle));
      ChordSymbol chord =
          reading
              .find(Facet.CHORDS)
              .flatMap(chords -> chords.chordAt(middle))
              .map(ChordSpan::symbol)
              .orElse(ChordSymbol.UNKNOWN);
      Optional<SpelledPitch> pitch =
          key.map(k -> Spelling.pitch((int) Math.round(note.midiPitch()), k, chord));
      rows.add(
          row(
              part,
              seconds(note.span().startSeconds()),
              seconds(note.span().endSeconds()),
              number(note.midiPitch()),
              pitch.map(SpelledPitch::toString).orElse(""),
              pitch.map(p -> Syllables.print(p.name(), key.get(), syllables)).orElse(""),
              number(note.probability())));
    }
  }

  private Optional<HarmonyEvent> harmonyAt(double atSeconds) {
    return reading.find(Facet.HARMONY).map(Harmony::events).orElse(List.of()).stream()
        .filter(event -> event.span().contains(atSeconds))
        .findFirst();
  }

  private String bar(double atSeconds) {
    return reading
        .find(Facet.METER)
        .flatMap((Meter meter) -> meter.barAt(atSeconds))
        .map(bar -> String.valueOf(bar.number()))
        .orElse("");
  }

  private static List<String> rows(String... header) {
    List<String> rows = new ArrayList<>();
    rows.add(row(header));
    return rows;
  }

  private static String row(String... cells) {
    List<String> quoted = new ArrayList<>();
    for (String cell : cells) {
      boolean plain = cell.chars().noneMatch(c -> c == ',' || c == '"' || c == '\n' || c == '\r');
      quoted.add(plain ? cell : '"' + cell.replace("\"", "\"\"") + '"');
    }
    return String.join(",", quoted);
  }

  private static String joined(List<String> rows) {
    return String.join("\n", rows) + "\n";
  }

  private static String seconds(double seconds) {
    return String.format(Locale.ROOT, "%.3f", seconds);
  }

  private static String number(double number) {
    return String.format(Locale.ROOT, "%.3f", number);
  }
}
