package undersong.cli;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import undersong.search.Places;
import undersong.shelf.Origin;
import undersong.shelf.ShelfEntry;
import undersong.shelf.Song;
import undersong.study.Search;
import undersong.study.Study;
import undersong.time.Span;
import undersong.work.Trouble;

@Command(
    name = "shelf",
    mixinStandardHelpOptions = true,
    description = {
      "Lists the songs studied.",
      "With a question, only songs that have all it asks for, and where: words of the title; by"
          + " NAME; in d minor; in 3/4; at 90-120 (beats a minute); from 1990-1999; with and"
          + " without TECHNIQUE; chords I iii IV iv; loop I V vi IV; tune do re mi; bass la sol fa;"
          + " steps +2 +2 -1; rhythm 1 0.5 0.5. docs/search.md tells more."
    })
final class ShelfCommand implements Runnable {
  private static final ObjectMapper JSON = new ObjectMapper();
  private static final Pattern STRETCH =
      Pattern.compile("(.+)@(\\d+(?:\\.\\d+)?)-(\\d+(?:\\.\\d+)?)");
  private static final int MOST_PLACES = 4;
  private static final int MOST_LIKE = 10;

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

  @Option(
      names = "--like",
      paramLabel = "SONG@FROM-TO",
      description = "Songs with a stretch like this one, in seconds: 3@61-75.")
  private Optional<String> like = Optional.empty();

  @Option(
      names = "--remember-as",
      paramLabel = "NAME",
      description = "Keep the question under a name.")
  private Optional<String> rememberAs = Optional.empty();

  @Option(names = "--remembered", paramLabel = "NAME", description = "Ask a question kept before.")
  private Optional<String> remembered = Optional.empty();

  @Option(
      names = "--save",
      paramLabel = "FILE",
      description = "Write the whole shelf to one new file; recordings stay where they are.")
  private Optional<Path> save = Optional.empty();

  @Option(
      names = "--load",
      paramLabel = "FILE",
      description = "Fill an empty shelf from a file written by --save: all of it, or nothing.")
  private Optional<Path> load = Optional.empty();

  @Option(names = "--json", description = "Print the list as JSON.")
  private boolean json;

  @Override
  public void run() {
    PrintWriter out = spec.commandLine().getOut();
    try (Study study = shelf.open()) {
      if (save.isPresent()) {
        study.saveShelf(save.get());
        out.println("Saved to " + save.get());
        return;
      }
      if (load.isPresent()) {
        study.loadShelf(load.get());
        out.println("Loaded from " + load.get());
        return;
      }
      if (like.isPresent()) {
        like(study, out);
        return;
      }
      String question = question(study);
      List<Search.Hit> hits = study.search().find(question, EnumSet.copyOf(origins));
      rememberAs.ifPresent(name -> study.search().save(name, question));
      if (json) {
        out.println(json(hits));
      } else {
        for (Search.Hit hit : hits) {
          out.println(line(hit.entry()));
          hit.places().stream().limit(MOST_PLACES).forEach(where -> out.println(line(where)));
          if (hit.places().size() > MOST_PLACES) {
            out.printf("        and %d more%n", hit.places().size() - MOST_PLACES);
          }
        }
        out.println(hits.size() == 1 ? "1 song" : hits.size() + " songs");
      }
    }
  }

  private String question(Study study) {
    if (remembered.isEmpty()) {
      return String.join(" ", words);
    }
    return study.search().remembered(remembered.get());
  }

  private void like(Study study, PrintWriter out) {
    Matcher matcher = STRETCH.matcher(like.orElseThrow());
    if (!matcher.matches()) {
      throw new Trouble.WrongUsage(
          "--like \"%s\" must be a song and seconds, such as 3@61-75.".formatted(like.get()));
    }
    Span span =
        new Span(Double.parseDouble(matcher.group(2)), Double.parseDouble(matcher.group(3)));
    List<Search.Similar> similar =
        study.search().like(study.song(matcher.group(1)).id(), span, MOST_LIKE);
    for (Search.Similar one : similar) {
      out.println(line(one.entry()));
      out.printf("        %s, %s alike%n", place(one.place()), Words.percent(one.likeness()));
    }
    out.println(similar.size() == 1 ? "1 song" : similar.size() + " songs");
  }

  private static String line(Search.Where where) {
    return "        " + place(where.place()) + "  " + where.what();
  }

  private static String place(Places.Place place) {
    String time =
        Words.time(place.span().startSeconds()) + "-" + Words.time(place.span().endSeconds());
    return place.fromBar() > 0
        ? "%s, bars %d-%d".formatted(time, place.fromBar(), place.toBar())
        : time;
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

  private static String json(List<Search.Hit> hits) {
    ArrayNode list = JSON.createArrayNode();
    for (Search.Hit hit : hits) {
      ShelfEntry entry = hit.entry();
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
      ArrayNode places = node.putArray("places");
      for (Search.Where where : hit.places()) {
        places
            .addObject()
            .put("what", where.what())
            .put("start", where.place().span().startSeconds())
            .put("end", where.place().span().endSeconds())
            .put("fromBar", where.place().fromBar())
            .put("toBar", where.place().toBar());
      }
    }
    try {
      return JSON.writerWithDefaultPrettyPrinter().writeValueAsString(list);
    } catch (JsonProcessingException bug) {
      throw new IllegalStateException("A list of plain values could not be written.", bug);
    }
  }
}
