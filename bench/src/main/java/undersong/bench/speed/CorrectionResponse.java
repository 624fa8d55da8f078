package undersong.bench.speed;

import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import undersong.reading.Correction;
import undersong.reading.Facet;
import undersong.reading.Reading;
import undersong.reading.SectionRole;
import undersong.reading.TimeSignature;
import undersong.study.Study;
import undersong.theory.ChordQuality;
import undersong.theory.ChordSymbol;
import undersong.theory.Key;
import undersong.theory.Mode;
import undersong.theory.NoteName;
import undersong.time.Span;

/**
 * How long a correction takes to be answered: derived, stored and compared with before. Random
 * corrections of every kind are said on one recording, each taken back before the next; prints the
 * median and the 95th percentile per group of kinds in milliseconds, by the clock and by the time
 * the processor spent on it, against the goals of 150 ms for chords, keys, notes and names and 400
 * ms for beats, meter and boundaries. What is found in the corrected reading is timed by itself,
 * against the goal of 60 ms.
 */
public final class CorrectionResponse {
  private static final int WARM_UP = 30;
  private static final double SONG_SECONDS = 240;
  private static final String FINDINGS = "findings, found and kept after each";

  private CorrectionResponse() {}

  /**
   * @param arguments number of corrections, and a recording; without one, the demo songs end to
   *     end, four minutes of them
   */
  public static void main(String[] arguments) throws IOException {
    int corrections = arguments.length > 0 ? Integer.parseInt(arguments[0]) : 300;
    Path folder = Files.createTempDirectory("response");
    Path file =
        arguments.length > 1
            ? Path.of(arguments[1])
            : Medley.write(folder.resolve("demo.wav"), SONG_SECONDS);
    try (Study study = Study.on(folder.resolve("shelf.db"))) {
      var studied = study.study(file);
      long song = studied.song().id();
      Random random = new Random(7);
      ThreadMXBean processor = ManagementFactory.getThreadMXBean();
      Map<String, List<Took>> answers = new TreeMap<>();
      for (int i = -WARM_UP; i < corrections; i++) {
        Correction said = random(random, studied.stored().reading());
        long start = System.nanoTime();
        long startBusy = processor.getCurrentThreadCpuTime();
        study.correct(song, said);
        Took took = since(start, startBusy, processor);
        long startFinding = System.nanoTime();
        long startFindingBusy = processor.getCurrentThreadCpuTime();
        study.findings(song);
        Took tookFinding = since(startFinding, startFindingBusy, processor);
        study.undo(song);
        if (i >= 0) {
          answers.computeIfAbsent(FINDINGS, g -> new ArrayList<>()).add(tookFinding);
          String kind = group(said) + ": " + said.getClass().getSimpleName();
          answers.computeIfAbsent(group(said), g -> new ArrayList<>()).add(took);
          answers.computeIfAbsent(kind, g -> new ArrayList<>()).add(took);
        }
      }
      System.out.printf(
          Locale.ROOT, "%s, %.0f s%n", file.getFileName(), studied.song().durationSeconds());
      System.out.printf(
          "facet milliseconds: %s%n", studied.stored().provenance().facetMilliseconds());
      answers.forEach(CorrectionResponse::print);
    }
  }

  /** Time by the clock and on the processor. */
  private record Took(double milliseconds, double busyMilliseconds) {}

  private static Took since(long start, long startBusy, ThreadMXBean processor) {
    return new Took(
        (System.nanoTime() - start) / 1e6, (processor.getCurrentThreadCpuTime() - startBusy) / 1e6);
  }

  private static void print(String group, List<Took> answers) {
    double[] clock = answers.stream().mapToDouble(Took::milliseconds).sorted().toArray();
    double[] busy = answers.stream().mapToDouble(Took::busyMilliseconds).sorted().toArray();
    System.out.printf(
        Locale.ROOT,
        "%-50s n %4d  clock: median %5.0f, p95 %5.0f  processor: median %5.0f, p95 %5.0f%n",
        group,
        clock.length,
        clock[clock.length / 2],
        clock[ninetyFifth(clock.length)],
        busy[busy.length / 2],
        busy[ninetyFifth(busy.length)]);
  }

  private static int ninetyFifth(int count) {
    return Math.max(0, (int) Math.ceil(0.95 * count) - 1);
  }

  private static String group(Correction said) {
    boolean moves =
        List.of(Facet.TUNING, Facet.BEATS, Facet.METER, Facet.FORM).contains(said.facet());
    return moves ? "beat, meter, boundary or tuning" : "chord, key, note or name";
  }

  private static Correction random(Random random, Reading reading) {
    double at = random.nextDouble() * (reading.durationSeconds() - 9) + 0.5;
    Span bar = new Span(at, at + 1 + random.nextDouble());
    Span section = new Span(at, at + 8);
    NoteName note = new NoteName(random.nextInt(12) - 5);
    return switch (random.nextInt(17)) {
      case 0 -> new Correction.TempoLevel(random.nextBoolean() ? 2 : 0.5);
      case 1 -> new Correction.BeatAt(at);
      case 2 -> new Correction.DownbeatAt(at);
      case 3 -> new Correction.MeterOver(section, new TimeSignature(3, false));
      case 4 -> new Correction.TuningIs(random.nextInt(61) - 30);
      case 5 -> new Correction.KeyOver(section, new Key(note, any(random, Mode.values())));
      case 6 ->
          new Correction.ChordOver(bar, ChordSymbol.of(note, any(random, ChordQuality.values())));
      case 7 -> new Correction.NoThirdOver(bar);
      case 8 -> new Correction.BassNoteOver(bar, 28 + random.nextInt(20));
      case 9 -> new Correction.NoBassOver(bar);
      case 10 -> new Correction.MelodyNoteOver(bar, 55 + random.nextInt(24));
      case 11 -> new Correction.NoMelodyOver(bar);
      case 12 -> new Correction.BoundaryAt(at);
      case 13 -> new Correction.NoBoundaryAt(at);
      case 14 -> new Correction.SamenessOver(section, "A");
      case 15 -> new Correction.MelodyOver(section);
      default -> new Correction.NameOver(section, any(random, SectionRole.values()));
    };
  }

  private static <T> T any(Random random, T[] values) {
    return values[random.nextInt(values.length)];
  }
}
