package undersong.bench.plant;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import undersong.bench.metrics.Calibration;
import undersong.technique.Technique;

/** {@code bench/TECHNIQUES.md}: what was planted, what was found. */
final class PlantedPage {
  private PlantedPage() {}

  static void write(Path file, PlantedSet.Outcome outcome, String date, String commit)
      throws IOException {
    StringBuilder page = new StringBuilder();
    page.append(
        """
        # Techniques: planted and found

        Made by `./measure planted` (%s, commit %s). %d songs, %.0f minutes, composed by `undersong.bench.plant` so that each holds
        a few stated techniques and as little else as can be, one in eight only what is plain; played by a soundfont that taught neither
        network nor detectors, a new band for every song; the voices are the program's own singers. Detectors were written and settled on
        the demo songs and on another composed set (`plant-tune`, other songs, other soundfont), never on these.

        *True reading*: what is written is told, what no score says (levels, widths, brightness) is measured. *Audio*: everything heard.
        A technique planted in all copies of a section counts once, as do findings told once. A finding is right where its technique was planted
        within a bar of it. Where a listener could name another technique for the same notes (a loop in a modal verse), that name counts neither way;
        the composer's recipes say where. Findings below 0.5 are not told.

        | | true reading | audio | aim |
        | --- | --- | --- | --- |
        """
            .formatted(date, commit, outcome.songs().size(), outcome.minutes()));
    row(page, "pooled F", outcome, s -> s.pooled().f(), "0.93 / 0.80");
    row(page, "precision", outcome, s -> s.pooled().precision(), "");
    row(page, "recall", outcome, s -> s.pooled().recall(), "");
    row(
        page,
        "wrong findings a minute, plain songs",
        outcome,
        PlantedScore::wrongPerPlainMinute,
        "0.5");
    row(
        page,
        "expected calibration error",
        outcome,
        s -> Calibration.of(s.stated()).expectedError(),
        "0.08");
    page.append(
        "| milliseconds for all findings of four minutes, 95th percentile of songs | | %s | 60 |\n\n"
            .formatted(number(outcome.milliseconds())));
    page.append(
        "| technique | planted | true: precision | recall | F | audio: precision | recall | F |\n");
    page.append("| --- | --- | --- | --- | --- | --- | --- | --- |\n");
    for (Technique technique : Technique.values()) {
      PlantedScore.Count truth = outcome.fromTruth().of(technique);
      PlantedScore.Count audio = outcome.fromAudio().of(technique);
      page.append(
          "| `%s` | %d | %s | %s |\n"
              .formatted(technique.id(), truth.planted, cells(truth), cells(audio)));
    }
    Files.writeString(file, page.toString());
  }

  private interface Figure {
    double of(PlantedScore score);
  }

  private static void row(
      StringBuilder page, String name, PlantedSet.Outcome outcome, Figure figure, String aim) {
    page.append(
        "| %s | %s | %s | %s |\n"
            .formatted(
                name,
                number(figure.of(outcome.fromTruth())),
                number(figure.of(outcome.fromAudio())),
                aim));
  }

  private static String cells(PlantedScore.Count count) {
    return "%s | %s | %s"
        .formatted(number(count.precision()), number(count.recall()), number(count.f()));
  }

  private static String number(double value) {
    return Double.isNaN(value) ? "-" : String.format(Locale.ROOT, "%.2f", value);
  }
}
