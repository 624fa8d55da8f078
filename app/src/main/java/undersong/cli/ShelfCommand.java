package undersong.cli;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.PrintWriter;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import undersong.shelf.Origin;
import undersong.shelf.ShelfEntry;
import undersong.shelf.Song;
import undersong.study.Study;

@Command(
    name = "shelf",
    mixinStandardHelpOptions = true,
    description = {
      "Lists the songs studied.",
      "With words, only songs that hold each of them in title, artist, year, key, meter or file"
          + " name."
    })
final class ShelfCommand implements Runnable {
  private static final ObjectMapper JSON = new ObjectMapper();

  @Spec private CommandSpec spec;
  @Mixin private ShelfOption shelf;

  @Parameters(arity = "0..*", paramLabel = "QUERY", description = "Words to look for.")
  private List<String> words = List.of();

  @Option(
      names = "--from",
      paramLabel = "ORIGIN",
      split = ",",
      description =
          "Which songs: ${COMPLETION-CANDIDATES}, several with commas. Without it, recordings and"
              + " songs from memory; charts are kept apart.")
  private List<Origin> origins = List.of(Origin.RECORDING, Origin.MEMORY);

  @Option(names = "--json", description = "Print the list as JSON.")
  private boolean json;

  @Override
  public void run() {
    PrintWriter out = spec.commandLine().getOut();
    try (Study study = shelf.open()) {
      List<ShelfEntry> entries = study.songs(String.join(" ", words), EnumSet.copyOf(origins));
      if (json) {
        out.println(json(entries));
      } else {
        entries.forEach(entry -> out.println(line(entry)));
        out.println(entries.size() == 1 ? "1 song" : entries.size() + " songs");
      }
    }
  }

  private static String line(ShelfEntry entry) {
    Song song = entry.song();
    String who = song.artist().map(artist -> ", " + artist).orElse("");
    String when = song.year().map(year -> " (" + year + ")").orElse("");
    return String.format(
            Locale.ROOT,
            "%4d  %-48s %8s  %4s %-4s %s",
            song.id(),
            shortened(song.title() + who + when, 48),
            Words.time(song.durationSeconds()),
            entry.tempoBpm() > 0 ? Long.toString(Math.round(entry.tempoBpm())) : "-",
            entry.meter(),
            entry.key() + marked(song.origin()))
        .stripTrailing();
  }

  private static String marked(Origin origin) {
    return switch (origin) {
      case RECORDING -> "";
      case CHART -> "  (chart)";
      case MEMORY -> "  (from memory)";
    };
  }

  private static String shortened(String text, int columns) {
    return text.length() <= columns ? text : text.substring(0, columns - 1) + "…";
  }

  private static String json(List<ShelfEntry> entries) {
    ArrayNode list = JSON.createArrayNode();
    for (ShelfEntry entry : entries) {
      Song song = entry.song();
      ObjectNode node = list.addObject();
      node.put("song", song.id());
      node.put("title", song.title());
      song.artist().ifPresent(artist -> node.put("artist", artist));
      song.year().ifPresent(year -> node.put("year", year));
      node.put("path", song.path().toString());
      node.put("durationSeconds", song.durationSeconds());
      node.put("tempoBpm", entry.tempoBpm());
      node.put("meter", entry.meter());
      node.put("key", entry.key());
      node.put("origin", song.origin().word());
      node.put("source", song.source());
      node.put("studiedAt", song.studiedAt().toString());
    }
    try {
      return JSON.writerWithDefaultPrettyPrinter().writeValueAsString(list);
    } catch (JsonProcessingException bug) {
      throw new IllegalStateException("A list of plain values could not be written.", bug);
    }
  }
}
