package undersong.bench.lesson;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import undersong.bench.data.Harvest;
import undersong.bench.data.LeadSheetReader;
import undersong.bench.data.LeadSheetReader.LeadSheet;
import undersong.bench.data.LeadSheetReader.Pitch;
import undersong.bench.data.LiederReader;
import undersong.bench.data.NumeralSong;
import undersong.bench.data.OpenData;
import undersong.bench.metrics.KeyLabel;
import undersong.notation.NotationSettings;
import undersong.notation.Notator;
import undersong.notation.WrittenBar;
import undersong.notation.WrittenNote;
import undersong.notation.WrittenScore;
import undersong.reading.Bar;
import undersong.reading.Bass;
import undersong.reading.Beats;
import undersong.reading.Derived;
import undersong.reading.Facet;
import undersong.reading.KeyRegion;
import undersong.reading.Keys;
import undersong.reading.Melody;
import undersong.reading.Meter;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;
import undersong.reading.TimeSignature;
import undersong.theory.Key;
import undersong.theory.Mode;
import undersong.theory.NoteName;
import undersong.time.BeatGrid;
import undersong.time.Span;

/**
 * Scores nobody here wrote (OpenEWLD lead sheets, songs of the Lieder corpus) are performed by a
 * hand that is not a machine, and written down again: what part of the notes gets its value, its
 * bar and its name back. Beats and bars are given; the hearing of them is measured elsewhere.
 */
public final class NotationMeasure {
  private static final Path PAGE = Path.of("bench/LESSON.md");
  private static final double[] HANDS_SECONDS = {0, 0.015, 0.03};

  private NotationMeasure() {}

  private static final class Counts {
    int notes;
    int values;
    int bars;
    int names;
    int songs;
  }

  /**
   * @param heard rows of {@link HeardNotation}
   */
  public static void measure(String heard, String date, String commit)
      throws IOException, InterruptedException {
    StringBuilder page = new StringBuilder();
    page.append(
        """
        # Written down again

        Made by `./measure lesson` (%s, commit %s). Tunes of scores nobody here wrote (ids name the data set) are performed: onsets wander by the
        standard deviation given, notes are held for 75 to 100 %% of their value, the pace drifts by 3 %%. Given beats, bars and key as printed (for the Lieder the keys
        their analysts named), the
        program writes them down. *Value*: the note begins on its place to within a 64th and lasts as printed (a rest of an eighth or less
        after a note counts as held, printed or not). *Bar*: it stands in its bar. *Name*: letter and accidental as printed. Scores in
        meters the program does not write (2/2, 3/8 ...) and pick-ups of unknown length are left out and counted.

        | data | hand, ms | songs | notes | value right (aim 0.90) | bar right (0.97) | name right (0.98) |
        | --- | --- | --- | --- | --- | --- | --- |
        """
            .formatted(date, commit));
    int left = 0;
    for (String set : List.of("openewld", "when-in-rome-lieder")) {
      Harvest<LeadSheet> harvest =
          LeadSheetReader.readAll(
              OpenData.folder(set), set.equals("openewld") ? "openewld" : "lieder");
      Map<String, List<NumeralSong.Numeral>> analyses = new HashMap<>();
      if (set.equals("when-in-rome-lieder")) {
        for (NumeralSong song : LiederReader.readAll(OpenData.folder(set)).read()) {
          analyses.put(song.chart().id().replace("lied-", "lieder-"), song.numerals());
        }
      }
      for (double hand : HANDS_SECONDS) {
        Counts tally = new Counts();
        for (LeadSheet sheet : harvest.read()) {
          Optional<TimeSignature> signature = signature(sheet.meter());
          if (signature.isEmpty() || sheet.notes().size() < 12) {
            left += hand == 0 ? 1 : 0;
            continue;
          }
          perform(
              sheet, signature.get(), hand, analyses.getOrDefault(sheet.id(), List.of()), tally);
        }
        page.append(
            String.format(
                Locale.ROOT,
                "| %s | %.0f | %d | %d | %.3f | %.3f | %.3f |%n",
                set,
                1000 * hand,
                tally.songs,
                tally.notes,
                (double) tally.values / tally.notes,
                (double) tally.bars / tally.notes,
                (double) tally.names / tally.notes));
      }
    }
    page.append("\nLeft out: ").append(left).append(" scores.\n");
    page.append(
        """

        ## From the sound

        The tunes of rendered songs, `tune` to develop on, the others to report; the recording is studied as any. *Begun right*: onset within 50 ms and pitch within
        50 cents of a note that was played; *held right*: its end too, within 50 ms or a fifth of its length (both as in `RESULTS.md`). *Value*: where it begins in its
        beat and how long it lasts, on paper, as the nearest sixteenth or triplet of the true beats says. *Bar*: it stands in a bar that begins where the true one does.
        What writing costs is seen in the notes held right; the rest is lost in hearing: notes missed, one cut in two, two told as one.

        """);
    page.append(HeardNotation.HEAD).append(heard);
    page.append(LessonSpeed.measured());
    Files.writeString(PAGE, page.toString().replace("\r", ""));
    System.out.println(page);
  }

  private static Optional<TimeSignature> signature(String text) {
    try {
      return Optional.of(TimeSignature.parse(text));
    } catch (IllegalArgumentException unwritten) {
      return Optional.empty();
    }
  }

  private static void perform(
      LeadSheet sheet,
      TimeSignature signature,
      double hand,
      List<NumeralSong.Numeral> analysis,
      Counts tally) {
    Random random = new Random(sheet.id().hashCode());
    double quartersPerBeat = signature.compound() ? 1.5 : 1;
    double beatSeconds = 60 / (80.0 + random.nextInt(50));
    List<Pitch> notes = sheet.notes();
    double last = notes.stream().mapToDouble(n -> n.startQuarter() + n.quarters()).max().orElse(0);
    int bars = (int) Math.ceil(last / quartersPerBeat / signature.beats()) + 1;
    double[] beats = new double[bars * signature.beats() + 1];
    double at = 0;
    for (int i = 0; i < beats.length; i++) {
      beats[i] = at;
      at += beatSeconds * (1 + 0.03 * Math.sin(i / 9.0));
    }
    BeatGrid grid = BeatGrid.of(beats);
    List<NoteEvent> played = new ArrayList<>();
    double free = 0;
    for (Pitch note : notes) {
      double from = grid.secondsAtPosition(note.startQuarter() / quartersPerBeat);
      double to = grid.secondsAtPosition((note.startQuarter() + note.quarters()) / quartersPerBeat);
      double start = Math.max(free, Math.max(0, from + hand * random.nextGaussian()));
      double end = Math.max(start + 0.03, from + (to - from) * (0.75 + 0.25 * random.nextDouble()));
      played.add(new NoteEvent(new Span(start, end), midi(note), 1));
      free = start + 0.02;
    }
    Reading reading = reading(grid, bars, signature, keys(sheet, analysis, grid), played);
    WrittenScore score = Notator.write(reading, NotationSettings.DEFAULTS);
    tally.songs++;
    tally.notes += notes.size();
    count(score, sheet, signature, tally);
  }

  private static void count(
      WrittenScore score, LeadSheet sheet, TimeSignature signature, Counts tally) {
    int barTicks = signature.beats() * WrittenBar.beatTicks(signature);
    int[] starts = new int[sheet.notes().size()];
    int[] lengths = new int[sheet.notes().size()];
    String[] names = new String[sheet.notes().size()];
    java.util.Arrays.fill(starts, -1);
    for (WrittenBar bar : score.parts().get(0).bars()) {
      for (WrittenNote note : bar.notes()) {
        if (note.isRest()) {
          continue;
        }
        int tick = (bar.number() - 1) * barTicks + note.startTicks();
        if (note.begins()) {
          starts[note.heard()] = tick;
          names[note.heard()] = note.pitch().orElseThrow().name().toString();
        }
        lengths[note.heard()] += note.ticks();
      }
    }
    for (int i = 0; i < starts.length; i++) {
      Pitch printed = sheet.notes().get(i);
      long wanted = Math.round(printed.startQuarter() * 24);
      long length = Math.round(printed.quarters() * 24);
      long next =
          i + 1 < starts.length ? Math.round(sheet.notes().get(i + 1).startQuarter() * 24) : -1;
      boolean touches = next >= 0 && next - wanted - length <= 12;
      boolean begins = starts[i] >= 0 && Math.abs(starts[i] - wanted) <= 1;
      boolean lasts =
          Math.abs(lengths[i] - length) <= 1
              || (touches && Math.abs(lengths[i] - (next - wanted)) <= 1);
      tally.values += begins && lasts ? 1 : 0;
      tally.bars += starts[i] >= 0 && starts[i] / barTicks == wanted / barTicks ? 1 : 0;
      tally.names += printed.name().equals(names[i]) ? 1 : 0;
    }
  }

  private static Reading reading(
      BeatGrid grid, int bars, TimeSignature signature, Keys keys, List<NoteEvent> notes) {
    List<Bar> measures = new ArrayList<>();
    for (int i = 0; i < bars; i++) {
      int first = i * signature.beats();
      Span span = new Span(grid.secondsAt(first), grid.secondsAt(first + signature.beats()));
      measures.add(new Bar(i + 1, first, signature.beats(), signature, span));
    }
    double duration = grid.secondsAt(grid.size() - 1) + 1;
    return Reading.empty(duration)
        .with(Facet.BEATS, Derived.of(new Beats(grid, 2, 1, 1, List.of())))
        .with(Facet.METER, Derived.of(new Meter(measures, 1, List.of())))
        .with(Facet.BASS, Derived.of(new Bass(List.of())))
        .with(Facet.MELODY, Derived.of(new Melody(notes)))
        .with(Facet.KEYS, Derived.of(keys));
  }

  /** The keys an analyst named, where there are any; else the one of the signature throughout. */
  private static Keys keys(LeadSheet sheet, List<NumeralSong.Numeral> analysis, BeatGrid grid) {
    double end = grid.secondsAt(grid.size() - 1) + 1;
    List<KeyRegion> regions = new ArrayList<>();
    for (NumeralSong.Numeral numeral : analysis) {
      double from = grid.secondsAtPosition(numeral.startBeat());
      double to = Math.min(end, grid.secondsAtPosition(numeral.endBeat()));
      if (to > from && from < end) {
        regions.add(new KeyRegion(new Span(from, to), key(sheet, numeral.key()), 1, List.of()));
      }
    }
    return regions.isEmpty()
        ? new Keys(List.of(new KeyRegion(new Span(0, end), key(sheet), 1, List.of())))
        : new Keys(regions);
  }

  private static Key key(LeadSheet sheet, KeyLabel label) {
    boolean minor = label.mode().contains("minor");
    NoteName tonic = NoteName.ofPitchClass(label.tonic(), sheet.fifths() + (minor ? 3 : 0));
    return new Key(tonic, minor ? Mode.HARMONIC_MINOR : Mode.MAJOR);
  }

  private static Key key(LeadSheet sheet) {
    boolean minor = sheet.mode().equals("minor");
    return new Key(
        new NoteName(sheet.fifths() + (minor ? 3 : 0)), minor ? Mode.HARMONIC_MINOR : Mode.MAJOR);
  }

  private static double midi(Pitch note) {
    return undersong.theory.SpelledPitch.parse(note.name() + note.octave()).midi();
  }
}
