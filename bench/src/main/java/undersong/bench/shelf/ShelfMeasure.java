package undersong.bench.shelf;

import com.sun.management.OperatingSystemMXBean;
import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import undersong.bench.data.OpenData;
import undersong.bench.shelf.SongMaker.Made;
import undersong.bench.shelf.SongMaker.MadeBar;
import undersong.bench.shelf.SongMaker.Part;
import undersong.bench.shelf.SongMaker.Tone;
import undersong.exchange.PaperSongs;
import undersong.reading.Reading;
import undersong.shelf.Shelf;
import undersong.shelf.ShelfPlace;
import undersong.shelf.Song;
import undersong.study.Search;
import undersong.study.Study;
import undersong.technique.Evidence;
import undersong.technique.Finding;
import undersong.technique.Sentence;
import undersong.technique.Technique;
import undersong.theory.ChordQuality;
import undersong.theory.Key;
import undersong.theory.Numerals;
import undersong.theory.RomanNumeral;
import undersong.time.Span;

/** Fills a shelf with generated songs, asks it all kinds of questions, kills its writers. */
public final class ShelfMeasure {
  private static final Path PAGE = Path.of("bench/SHELF.md");
  private static final int PLANTED_EVERY = 100;
  private static final int ASKED = 40;
  private static final int MOST_PLANTED = 300;
  private static final int NOTES = 7;
  private static final List<String> DEGREES =
      List.of("1", "b2", "2", "b3", "3", "4", "#4", "5", "b6", "6", "b7", "7");

  private final SongMaker maker;
  private final Random random = new Random(11);
  private final Map<Long, String> rows = new LinkedHashMap<>();
  private final Map<Long, String> figures = new LinkedHashMap<>();
  private final Map<Long, Long> copies = new LinkedHashMap<>();
  private final List<String> usual = new ArrayList<>();
  private final List<Took> adding = new ArrayList<>();

  private final int aim;

  /**
   * @param aim in milliseconds for the 95th percentile of every search
   */
  private ShelfMeasure(SongMaker maker, int aim) {
    this.maker = maker;
    this.aim = aim;
  }

  /**
   * @param server address of a shelf on a server, filled as far as it is not yet; empty: a file
   *     that is taken away afterwards
   */
  public static void measure(
      int songs, int kills, Optional<String> server, String date, String commit)
      throws IOException, InterruptedException {
    PaperSongs charts =
        PaperSongs.in(
            OpenData.find()
                .orElseThrow(() -> new OpenData.Missing("UNDERSONG_DATA names no folder.")));
    Path folder = Files.createTempDirectory("undersong-shelf");
    try {
      ShelfMeasure measure =
          new ShelfMeasure(new SongMaker(charts.songs()), server.isPresent() ? 200 : 100);
      String address = server.orElseGet(() -> folder.resolve("shelf.db").toString());
      String table = measure.run(ShelfPlace.named(address), songs);
      double load = ManagementFactory.getOperatingSystemMXBean().getSystemLoadAverage();
      Killed.Outcome killed =
          Killed.measure(server.orElseGet(() -> folder.resolve("killed.db").toString()), kills);
      ShelfPage.put(
          PAGE,
          server.isPresent() ? "On a PostgreSQL server" : "In a file",
          """
          Made by `./measure shelf %d %d%s` (%s, commit %s, %d processors, %d MB for the program; load by everything that ran on the machine: %.1f).

          %s
          | kill -9 of a writing program | %d kills, %d songs acknowledged | lost: %d | | 0 |
          """
              .formatted(
                  songs,
                  kills,
                  server.isPresent() ? " postgresql://..." : "",
                  date,
                  commit,
                  Runtime.getRuntime().availableProcessors(),
                  Runtime.getRuntime().maxMemory() >> 20,
                  load,
                  table.strip(),
                  killed.kills(),
                  killed.acknowledged(),
                  killed.lost()));
      System.out.println(Files.readString(PAGE));
    } finally {
      try (Stream<Path> files = Files.list(folder)) {
        for (Path file : files.toList()) {
          if (Files.isRegularFile(file)) {
            Files.delete(file);
          }
        }
      }
    }
  }

  private String run(ShelfPlace place, int songs) throws IOException {
    StringBuilder table = new StringBuilder();
    table.append(
        "| what | asked | measured | processor | aim |\n| --- | --- | --- | --- | --- |\n");
    try (Shelf shelf = Shelf.open(place)) {
      fill(shelf, songs);
      if (!adding.isEmpty()) {
        line(table, "adding a song, ms", adding, 50);
      }
      table.append(
          String.format(
              Locale.ROOT,
              "| size | %d songs | %.1f kB a song | | |%n",
              songs,
              shelf.sizeBytes() / 1000.0 / songs));
    }
    try (Study study = Study.on(place)) {
      Search search = study.search();
      line(
          table,
          "first question after opening, ms",
          List.of(took(() -> search.find(usual.get(0)))),
          0);
      table.append(
          String.format(
              Locale.ROOT,
              "| memory after it | %d songs | %.1f kB a song | | |%n",
              songs,
              usedBytes() / 1000.0 / songs));
      line(table, "the whole list, ms", times(5, () -> search.find("")), 1000);
      line(table, "words and facts, ms", asked(search, this::facts), aim);
      line(table, "techniques, ms", asked(search, this::techniques), aim);
      line(table, "chords, ms", asked(search, () -> "chords " + pick(usual).substring(7)), aim);
      line(table, "loops, ms", asked(search, () -> "loop " + pick(usual).substring(7)), aim);
      List<String> seven = List.copyOf(figures.values());
      line(table, "figures, ms", asked(search, () -> pick(seven)), aim);
      line(
          table,
          "combined, ms",
          asked(search, () -> "at 90-110 with key-lift " + pick(usual)),
          aim);
      recall(table, search, "rows of chords", rows);
      recall(table, search, "figures", figures);
      examples(table, search);
    }
    return table.toString();
  }

  /** What the program holds, once nothing is held that nobody needs. */
  private static long usedBytes() {
    System.gc();
    return Runtime.getRuntime().totalMemory() - Runtime.getRuntime().freeMemory();
  }

  private void fill(Shelf shelf, int songs) {
    Made before = maker.make(random);
    long beforeId = 0;
    Map<String, Long> there = new HashMap<>();
    shelf.songs().list("").forEach(one -> there.put(one.song().contentHash(), one.song().id()));
    for (int i = 0; i < songs; i++) {
      Made made = maker.make(random);
      String row = "";
      String figure = "";
      long copyOf = 0;
      switch (i % PLANTED_EVERY) {
        case 3 -> {
          List<RomanNumeral> planted = rareRow(made.major());
          made = with(made, chords(made.parts().get(5), planted));
          row = "chords " + printed(planted, made);
        }
        case 5 -> {
          int[] offsets = random.ints(NOTES, 0, 12).toArray();
          made = with(made, tones(made.parts().get(5), offsets));
          figure =
              "tune "
                  + Arrays.stream(offsets).mapToObj(DEGREES::get).collect(Collectors.joining(" "));
        }
        case 7 -> {
          made =
              new Made(
                  (before.tonic() + 1 + random.nextInt(11)) % 12,
                  before.major(),
                  made.bpm(),
                  made.parts());
          made = with(made, before.parts().get(2));
          copyOf = beforeId;
        }
        default -> {
          if (i % 10 == 0) {
            List<RomanNumeral> loop =
                made.parts().get(0).bars().subList(0, 4).stream().map(MadeBar::numeral).toList();
            String question = printed(loop, made);
            // Chords without a third, and basses outside the chord, have no numeral to ask for.
            if (question.matches("([#b]?[ivIV]+7? ?)+")) {
              usual.add("chords " + question);
            }
          }
        }
      }
      List<Finding> findings = findings();
      Song.Words words =
          Song.Words.ofTags("Song " + i, "Group " + i % 500, 1960 + random.nextInt(60));
      long id = there.getOrDefault("generated-" + i, 0L);
      if (id == 0) {
        Reading reading = maker.reading(made);
        long[] kept = {0};
        String hash = "generated-" + i;
        adding.add(
            took(
                () -> {
                  kept[0] = Killed.keep(shelf, hash, reading, words);
                  shelf.findings().keep(kept[0], 1, "generated", findings);
                }));
        id = kept[0];
        if (id % 1000 == 0) {
          System.err.printf("%d songs%n", id);
        }
      }
      if (!row.isEmpty()) {
        rows.put(id, row);
      }
      if (!figure.isEmpty()) {
        figures.put(id, figure);
      }
      if (copyOf > 0) {
        copies.put(copyOf, id);
      }
      before = made;
      beforeId = id;
    }
  }

  private static Made with(Made song, Part bridge) {
    List<Part> parts = new ArrayList<>(song.parts());
    parts.set(5, new Part("C", bridge.bars()));
    return new Made(song.tonic(), song.major(), song.bpm(), parts);
  }

  /** Six plain chords, no two neighbours alike, as likely as any. */
  private List<RomanNumeral> rareRow(boolean major) {
    List<RomanNumeral> row = new ArrayList<>();
    while (row.size() < 6) {
      RomanNumeral numeral = maker.row(1, major, random).get(0);
      boolean plain =
          numeral.quality() == ChordQuality.MAJOR || numeral.quality() == ChordQuality.MINOR;
      if (plain
          && !numeral.isInverted()
          && numeral.appliedTo().isEmpty()
          && (row.isEmpty() || !soundAlike(row.get(row.size() - 1), numeral))) {
        row.add(numeral);
      }
    }
    return row;
  }

  /** A chart's double flat two is its one, however it is written. */
  private static boolean soundAlike(RomanNumeral one, RomanNumeral other) {
    return one.root().semitones() % 12 == other.root().semitones() % 12
        && one.quality() == other.quality();
  }

  private static String printed(List<RomanNumeral> row, Made song) {
    Key key = Key.parse(song.major() ? "C major" : "C natural minor");
    return row.stream().map(n -> Numerals.print(n, key)).collect(Collectors.joining(" "));
  }

  private static Part chords(Part part, List<RomanNumeral> row) {
    List<MadeBar> bars = new ArrayList<>();
    for (int i = 0; i < part.bars().size(); i++) {
      MadeBar bar = part.bars().get(i);
      bars.add(i < row.size() ? new MadeBar(row.get(i), bar.tones()) : bar);
    }
    return new Part(part.letter(), bars);
  }

  private static Part tones(Part part, int[] offsets) {
    List<MadeBar> bars = new ArrayList<>(part.bars());
    for (int bar = 0; bar < 2; bar++) {
      List<Tone> tones = new ArrayList<>();
      for (int beat = 0; beat < 4 && bar * 4 + beat < offsets.length; beat++) {
        tones.add(new Tone(beat, 1, offsets[bar * 4 + beat]));
      }
      bars.set(bar, new MadeBar(bars.get(bar).numeral(), tones));
    }
    return new Part(part.letter(), bars);
  }

  private List<Finding> findings() {
    Technique[] all = Technique.values();
    List<Finding> findings = new ArrayList<>();
    for (int i = 0; i < 12; i++) {
      // Some techniques are common, most are rare.
      Technique technique = all[(int) (all.length * Math.pow(random.nextDouble(), 2))];
      Span span = new Span(10 * i + 1, 10 * i + 9);
      Sentence words = Sentence.of("generated");
      findings.add(
          new Finding(
              technique,
              span,
              Optional.empty(),
              0.3 + 0.7 * random.nextDouble(),
              "A",
              words,
              List.of(new Evidence.Heard(span, words))));
    }
    return findings;
  }

  private String facts() {
    return "by group %d at %d-%d from %d-%d"
        .formatted(
            random.nextInt(50), 80, 90 + random.nextInt(40), 1970, 1980 + random.nextInt(30));
  }

  private String techniques() {
    Technique[] all = Technique.values();
    return "with %s without %s"
        .formatted(all[random.nextInt(all.length / 2)].id(), all[random.nextInt(all.length)].id());
  }

  private String pick(List<String> from) {
    return from.get(random.nextInt(from.size()));
  }

  private static List<Took> asked(Search search, Supplier<String> question) {
    return times(ASKED, () -> search.find(question.get()));
  }

  private static List<Took> times(int count, Runnable work) {
    work.run();
    return Stream.generate(() -> took(work)).limit(count).toList();
  }

  /**
   * @param milliseconds by the clock
   * @param busyMilliseconds that processors worked for the program, in all its threads: what is
   *     left where others keep the machine busy, without what a server does
   */
  private record Took(double milliseconds, double busyMilliseconds) {}

  private static Took took(Runnable work) {
    OperatingSystemMXBean program =
        ManagementFactory.getPlatformMXBean(OperatingSystemMXBean.class);
    long start = System.nanoTime();
    long busy = program.getProcessCpuTime();
    work.run();
    return new Took((System.nanoTime() - start) / 1e6, (program.getProcessCpuTime() - busy) / 1e6);
  }

  private static void recall(
      StringBuilder table, Search search, String what, Map<Long, String> planted) {
    long found =
        planted.entrySet().stream()
            .limit(MOST_PLANTED)
            .filter(
                one ->
                    search.find(one.getValue()).stream()
                        .anyMatch(hit -> hit.entry().song().id() == one.getKey()))
            .count();
    table.append(
        String.format(
            Locale.ROOT,
            "| planted %s found | %d | %.3f | | 1.0 |%n",
            what,
            Math.min(MOST_PLANTED, planted.size()),
            found / (double) Math.min(MOST_PLANTED, planted.size())));
  }

  /** The chorus of a song against all; its copy stands elsewhere, in another key. */
  private void examples(StringBuilder table, Search search) {
    List<Took> times = new ArrayList<>();
    int amongThree = 0;
    int trials = 0;
    for (Map.Entry<Long, Long> copy : copies.entrySet()) {
      if (trials == 100) {
        break;
      }
      trials++;
      double bar = barSeconds(search, copy.getKey());
      Span chorus = new Span(16 * bar, 24 * bar);
      List<Search.Similar> similar = new ArrayList<>();
      times.add(took(() -> similar.addAll(search.like(copy.getKey(), chorus, 3))));
      boolean there = similar.stream().anyMatch(one -> one.entry().song().id() == copy.getValue());
      amongThree += there ? 1 : 0;
    }
    line(table, "by example, ms", times, aim);
    table.append(
        String.format(
            Locale.ROOT,
            "| transposed copy of eight bars among the first three | %d | %.2f | | 0.95 |%n",
            trials,
            amongThree / (double) trials));
  }

  private final Map<Long, Double> bars = new LinkedHashMap<>();

  private double barSeconds(Search search, long song) {
    if (bars.isEmpty()) {
      search
          .find("")
          .forEach(hit -> bars.put(hit.entry().song().id(), 240 / hit.entry().tempoBpm()));
    }
    return bars.get(song);
  }

  /**
   * @param aim for the 95th percentile; 0 for none
   */
  private static void line(StringBuilder table, String what, List<Took> times, int aim) {
    double[] sorted = times.stream().mapToDouble(Took::milliseconds).sorted().toArray();
    double[] busy = times.stream().mapToDouble(Took::busyMilliseconds).sorted().toArray();
    table.append(
        String.format(
            Locale.ROOT,
            "| %s | %d | median %.1f, p95 %.1f | median %.1f, p95 %.1f | %s |%n",
            what,
            sorted.length,
            sorted[sorted.length / 2],
            high(sorted),
            busy[busy.length / 2],
            high(busy),
            aim > 0 ? "p95 " + aim : ""));
  }

  private static double high(double[] sorted) {
    return sorted[(int) Math.ceil(0.95 * sorted.length) - 1];
  }
}
