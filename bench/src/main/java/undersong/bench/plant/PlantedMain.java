package undersong.bench.plant;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import undersong.bench.metrics.Calibration.Stated;
import undersong.bench.report.Bench;
import undersong.study.TechniqueFinders;
import undersong.technique.Technique;

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

  /**
   * Fits the program's table of certainty on the songs for developing detectors: on what is found
   * in audio and in the true readings, so that what rests on a sure reading stays sure where the
   * ear is often wrong.
   */
  public static void fit(Path cache, Path soundfont) throws IOException {
    PlantedSet.Outcome outcome =
        new PlantedSet(true, cache, soundfont, TechniqueFinders.uncalibrated()).run();
    List<String> lines = new ArrayList<>(Files.readAllLines(TABLE));
    lines.removeIf(line -> !line.startsWith("#"));
    Map<Technique, List<Stated>> stated = new EnumMap<>(Technique.class);
    for (PlantedScore score : List.of(outcome.fromAudio(), outcome.fromTruth())) {
      score
          .statedOf()
          .forEach(
              (technique, some) ->
                  stated.computeIfAbsent(technique, t -> new ArrayList<>()).addAll(some));
    }
    lines.addAll(CalibrationFit.rows(stated));
    Files.write(TABLE, lines);
  }
}
