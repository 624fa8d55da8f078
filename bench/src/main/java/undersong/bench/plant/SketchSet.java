package undersong.bench.plant;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import undersong.lesson.sketch.Sketch;
import undersong.lesson.sketch.SketchMaker;
import undersong.reading.Reading;
import undersong.render.DemoRenderer;
import undersong.render.WavFile;
import undersong.study.Study;
import undersong.study.TechniqueFinders;
import undersong.technique.Finding;
import undersong.technique.Technique;
import undersong.time.Span;

/**
 * How many sketches the program's own finders recognise from the notes: {@code bench/SKETCH.md}.
 */
public final class SketchSet {
  private static final Path PAGE = Path.of("bench/SKETCH.md");
  private static final int SKETCHES = 200;

  private SketchSet() {}

  private record Tally(int made, int found) {}

  /**
   * @param cache where sketches are rendered and measured
   * @param firstSeed of as many in a row as there are sketches
   */
  public static void measure(Path cache, long firstSeed, String date, String commit)
      throws IOException {
    Path folder = cache.resolve("sketches");
    Files.createDirectories(folder);
    List<Technique> known = SketchMaker.known();
    Map<Technique, Tally> tallies = new LinkedHashMap<>();
    List<String> missed = new ArrayList<>();
    long begun = System.nanoTime();
    List<Sketch> sketches =
        IntStream.range(0, SKETCHES)
            .mapToObj(
                i -> SketchMaker.make(known.get(i % known.size()), firstSeed + i, Optional.empty()))
            .toList();
    double seconds = (System.nanoTime() - begun) / 1e9;
    List<Boolean> recognised =
        sketches.parallelStream().map(sketch -> isFound(sketch, folder)).toList();
    for (int i = 0; i < SKETCHES; i++) {
      Technique technique = sketches.get(i).technique();
      tallies.merge(
          technique,
          new Tally(1, recognised.get(i) ? 1 : 0),
          (a, b) -> new Tally(a.made() + b.made(), a.found() + b.found()));
      if (!recognised.get(i)) {
        missed.add(technique.id() + " seed " + (firstSeed + i));
      }
    }
    int found = tallies.values().stream().mapToInt(Tally::found).sum();
    StringBuilder page = new StringBuilder();
    page.append(
        """
        # Sketches: made and recognised

        Made by `./measure sketch %d` (%s, commit %s). %d sketches, the techniques in turn, seeds %d to %d. *Recognised*: the program's own
        finders, given the notes (not the sound; levels, widths and brightness are measured), name the technique within a bar of where it
        stands. That every sketch holds its technique by the definition and keeps the rules of writing is tested elsewhere, by code that
        knows nothing of the finders (`SketchRulesTest`).

        | | figure | aim |
        | --- | --- | --- |
        | recognised | %.3f (%d of %d) | 0.95 |
        | milliseconds to write one, mean | %.1f | |

        | technique | made | recognised |
        | --- | --- | --- |
        """
            .formatted(
                firstSeed,
                date,
                commit,
                SKETCHES,
                firstSeed,
                firstSeed + SKETCHES - 1,
                (double) found / SKETCHES,
                found,
                SKETCHES,
                1000 * seconds / SKETCHES));
    tallies.forEach(
        (technique, tally) ->
            page.append(
                String.format(
                    Locale.ROOT,
                    "| `%s` | %d | %d |%n",
                    technique.id(),
                    tally.made(),
                    tally.found())));
    page.append("\nNo sketches of ");
    page.append(
        String.join(
            ", ",
            java.util.Arrays.stream(Technique.values())
                .filter(technique -> !known.contains(technique))
                .map(technique -> "`" + technique.id() + "`")
                .toList()));
    page.append(
        ": they need a whole song's form, the ear's expectation, or sounds a small band does not"
            + " make.\n");
    if (!missed.isEmpty()) {
      page.append("\nNot recognised: ").append(String.join("; ", missed)).append(".\n");
    }
    Files.writeString(PAGE, page.toString().replace("\r", ""));
    System.out.println(page);
  }

  private static boolean isFound(Sketch sketch, Path folder) {
    try {
      boolean found = recognised(sketch, folder);
      System.out.printf(
          "%s, seed %d: %s%n",
          sketch.technique().id(), sketch.seed(), found ? "recognised" : "not recognised");
      return found;
    } catch (IOException failed) {
      throw new UncheckedIOException(failed);
    }
  }

  private static boolean recognised(Sketch sketch, Path sketches) throws IOException {
    Path folder = sketches.resolve(sketch.technique().id() + "-" + sketch.seed());
    Files.createDirectories(folder);
    Path audio = folder.resolve("sketch.wav");
    WavFile.write(DemoRenderer.render(sketch.song()), audio);
    Path shelf = folder.resolve("sketch.shelf");
    Reading reading;
    try (Study study = Study.on(shelf, TrueEstimators.of(sketch.song()))) {
      reading = study.study(audio).stored().reading();
    }
    Files.deleteIfExists(audio);
    Span shown = sketch.shownSpan();
    double bar = 240 / sketch.song().score().bpm();
    return TechniqueFinders.standard().in(reading).stream()
        .filter(finding -> finding.probability() >= PlantedScore.TOLD)
        .filter(finding -> names(finding, sketch.technique()))
        .anyMatch(
            finding ->
                Math.max(finding.span().startSeconds(), shown.startSeconds())
                        - Math.min(finding.span().endSeconds(), shown.endSeconds())
                    <= bar);
  }

  private static boolean names(Finding finding, Technique technique) {
    return finding.technique() == technique || finding.under().contains(technique);
  }
}
