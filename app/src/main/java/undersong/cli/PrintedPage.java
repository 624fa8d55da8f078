package undersong.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import undersong.work.Trouble;

/**
 * A page as a PDF, printed by a browser that is there: it draws the staves as the reader sees them.
 */
final class PrintedPage {
  private static final List<String> BROWSERS =
      List.of("chromium", "chromium-browser", "google-chrome", "chrome", "msedge");
  private static final long LONGEST_SECONDS = 60;

  private PrintedPage() {}

  /** ISO 216 and ANSI sizes by the names that CSS has for them. */
  enum Paper {
    A4,
    LETTER
  }

  static Path print(Path page, Path pdf, Paper paper) {
    Path browser =
        browser()
            .orElseThrow(
                () ->
                    new Trouble.WrongUsage(
                        "A PDF needs an installed Chromium (Debian: apt-get install chromium). The page prints the same from any browser: open %s and print it."
                            .formatted(page)));
    List<String> command =
        new ArrayList<>(List.of(browser.toString(), "--headless", "--disable-gpu"));
    if (System.getProperty("user.name").equals("root")) {
      command.add("--no-sandbox"); // root may not use it
    }
    command.addAll(List.of("--no-pdf-header-footer", "--virtual-time-budget=10000"));
    command.add("--print-to-pdf=" + pdf.toAbsolutePath());
    Path sized = null;
    try {
      sized = Files.createTempFile("undersong", ".html");
      Files.writeString(sized, sized(Files.readString(page), paper));
      command.add(sized.toUri().toString());
      Files.deleteIfExists(pdf);
      Process process =
          new ProcessBuilder(command)
              .redirectErrorStream(true)
              .redirectOutput(ProcessBuilder.Redirect.DISCARD)
              .start();
      if (!process.waitFor(LONGEST_SECONDS, TimeUnit.SECONDS)) {
        process.destroyForcibly();
      }
    } catch (IOException e) {
      throw new Trouble.WrongUsage(
          "%s could not be started (%s).".formatted(browser, e.getMessage()));
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    } finally {
      remove(sized);
    }
    if (!Files.exists(pdf)) {
      throw new Trouble.WrongUsage(
          "%s printed nothing. Maybe the folder is read-only; open %s and print it by hand."
              .formatted(browser, page));
    }
    return pdf;
  }

  /** The page with the size of its paper; its own margins stay. */
  static String sized(String html, Paper paper) {
    String rule = "<style>@page { size: " + paper.name().toLowerCase(Locale.ROOT) + "; }</style>\n";
    return html.replaceFirst("</head>", Matcher.quoteReplacement(rule + "</head>"));
  }

  private static void remove(Path sized) {
    try {
      if (sized != null) {
        Files.deleteIfExists(sized);
      }
    } catch (IOException left) {
      // A temporary page left lying does no harm.
    }
  }

  private static Optional<Path> browser() {
    return BROWSERS.stream()
        .flatMap(
            name ->
                List.of(System.getenv("PATH").split(java.io.File.pathSeparator)).stream()
                    .map(folder -> Path.of(folder, name)))
        .filter(Files::isExecutable)
        .findFirst();
  }
}
