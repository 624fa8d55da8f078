package undersong.bench.plant;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import undersong.bench.report.Bench;
import undersong.study.TechniqueFinders;

/** What {@code ./measure planted}, {@code planted-tune} and {@code planted-fit} do. */
public final class PlantedMain {
  private static final Path PAGE = Path.of("bench/TECHNIQUES.md");
  private static final Path TABLE =
      Path.of("app/src/main/resources/undersong/technique/calibration.txt");

  private PlantedMain() {}

  /** Measures on the songs kept for it, and writes the page. */
  public static void measure(Path cache, Path soundfont) throws IOException {
    PlantedSet.Outcome outcome =
        new PlantedSet(false, cache, soundfont, TechniqueFinders.standard()).run();
    PlantedPage.write(PAGE, outcome, LocalDate.now(ZoneOffset.UTC).toString(), Bench.commit());
    System.out.println(Files.readString(PAGE));
  }

  /** Shows what was missed and what was wrong in the songs for developing detectors. */
  public static void tune(Path cache, Path soundfont) throws IOException {
    PlantedSet.Outcome outcome =
        new PlantedSet(true, cache, soundfont, TechniqueFinders.standard()).run();
    outcome.fromTruth().remarks().forEach(r -> System.out.println("true  " + r));
    outcome.fromAudio().remarks().forEach(r -> System.out.println("audio " + r));
    Path page = cache.resolve("planted-tune.md");
    PlantedPage.write(page, outcome, LocalDate.now(ZoneOffset.UTC).toString(), "working tree");
    System.out.println(Files.readString(page));
  }

  /** Fits the program's table of certainty on the songs for developing detectors. */
  public static void fit(Path cache, Path soundfont) throws IOException {
    PlantedSet.Outcome outcome =
        new PlantedSet(true, cache, soundfont, TechniqueFinders.uncalibrated()).run();
    List<String> lines = new ArrayList<>(Files.readAllLines(TABLE));
    lines.removeIf(line -> !line.startsWith("#"));
    lines.addAll(CalibrationFit.rows(outcome.fromAudio().statedOf()));
    Files.write(TABLE, lines);
  }
}
