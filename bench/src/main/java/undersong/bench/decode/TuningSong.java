package undersong.bench.decode;

import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import undersong.bench.metrics.KeyLabel;
import undersong.bench.metrics.Timed;
import undersong.bench.plant.Composer;
import undersong.bench.plant.PlantedSong;
import undersong.bench.render.Charts;
import undersong.bench.render.Renderer;
import undersong.bench.render.Song;
import undersong.bench.render.SongList;
import undersong.bench.render.Truth;
import undersong.estimate.beat.PulseChainBeatTracker;
import undersong.estimate.beat.PulseEvidence;
import undersong.estimate.form.BlockMatchForm;
import undersong.estimate.form.FormSettings;
import undersong.feature.FeatureCache;
import undersong.feature.FeatureExtractor;
import undersong.feature.Features;
import undersong.feature.ear.ListeningModel;
import undersong.reading.Reading;
import undersong.study.Studied;
import undersong.study.Study;
import undersong.time.BeatGrid;

/**
 * One copy of a song that settings may be fitted to, studied once and kept.
 *
 * @param set "tune", "pulse-tune", or "plant-tune" for composed songs with whole forms
 * @param compared its bars, compared as the standard settings have it
 * @param reading by the program as it stands
 * @param pulses every way of tapping it that is weighed
 * @param beats true ones, in seconds
 * @param sections true ones
 * @param keys true ones
 */
record TuningSong(
    String set,
    String id,
    BlockMatchForm.Compared compared,
    Reading reading,
    List<PulseEvidence> pulses,
    BeatGrid beats,
    List<Timed<String>> sections,
    List<Timed<KeyLabel>> keys) {
  static final String COMPOSED_SET = "plant-tune";

  private static final int COMPOSED = 24;
  private static final long COMPOSED_SEED = 1001;
  private static final long CACHE_BYTES = 4L << 30;

  /**
   * Both copies of every song of these sets and the composed songs that are rendered; what else the
   * cache lacks is rendered or measured now.
   */
  static List<TuningSong> all(Path cache, Path soundfont, List<String> sets) throws IOException {
    List<TuningSong> songs = new ArrayList<>();
    Learner keeps =
        (set, truth, id, studied, features) -> songs.add(of(set, truth, id, studied, features));
    eachCopy(cache, soundfont, sets, keeps);
    eachComposed(cache, keeps);
    return songs;
  }

  /** What may be learned from one copy of a rendered song. */
  interface Learner {
    void take(String set, Truth truth, String id, Studied studied, Features features);
  }

  /** Writes what is to be learned from one copy. */
  interface RowWriter {
    void write(
        String set, Truth truth, String id, Studied studied, Features features, PrintStream out);
  }

  /**
   * Writes rows from every copy.
   *
   * @param arguments cache and soundfont, as the bench has them; file to write; the sets
   */
  static void writeRows(String[] arguments, RowWriter writer) throws IOException {
    try (PrintStream out = new PrintStream(arguments[2], StandardCharsets.UTF_8)) {
      eachCopy(
          Path.of(arguments[0]),
          Path.of(arguments[1]),
          List.of(arguments).subList(3, arguments.length),
          (set, truth, id, studied, features) ->
              writer.write(set, truth, id, studied, features, out));
    }
  }

  /** Writes what is to be learned from one copy of a song with a tune. */
  interface TuneRowWriter {
    /**
     * @param copy what its rows begin with: a number for the song, and 1 for the worn copy
     */
    void write(Truth truth, String copy, Reading reading, Features features, PrintStream out);
  }

  /** Writes rows from every copy of a song with a tune; arguments as for {@link #writeRows}. */
  static void writeTuneRows(String[] arguments, TuneRowWriter writer) throws IOException {
    writeRows(
        arguments,
        (set, truth, id, studied, features, out) -> {
          if (!truth.melody().isEmpty()) {
            int song = (set + " " + id.substring(0, id.indexOf(' '))).hashCode();
            String copy = song + "," + (id.contains("worn") ? 1 : 0);
            writer.write(truth, copy, studied.stored().reading(), features, out);
          }
        });
  }

  /**
   * Every copy of every song of these sets, of which {@link #COMPOSED_SET} is the composed ones.
   */
  static void eachOf(Path cache, Path soundfont, List<String> sets, Learner learner)
      throws IOException {
    for (String set : sets) {
      if (set.equals(COMPOSED_SET)) {
        eachComposed(cache, learner);
      } else {
        eachCopy(cache, soundfont, List.of(set), learner);
      }
    }
  }

  /** Both copies of every song of these sets, one after the other; what is not rendered is now. */
  static void eachCopy(Path cache, Path soundfont, List<String> sets, Learner learner)
      throws IOException {
    Renderer renderer = new Renderer(cache.resolve("tune"), soundfont);
    Path folder = Files.createDirectories(cache.resolve("decode"));
    Charts charts = new Charts();
    try (Study study = Study.on(folder.resolve("heard.shelf"))) {
      for (String set : sets) {
        for (Song song : SongList.of(set)) {
          Renderer.Pair pair = renderer.render(song, charts.find(song.chartId()));
          for (Renderer.Rendering copy : List.of(pair.clean(), pair.worn())) {
            Studied studied = study.study(copy.audio());
            String id = copy.audio().getParent().getFileName() + " " + copy.audio().getFileName();
            Features features = features(folder.resolve("features"), studied);
            learner.take(set, copy.truth(), id, studied, features);
          }
        }
      }
    }
  }

  /** The composed songs for tuning that are rendered; they have whole forms. */
  static void eachComposed(Path cache, Learner learner) throws IOException {
    Path composed = cache.resolve("planted").resolve(COMPOSED_SET);
    try (Study study = Study.on(composed.resolve("decode.shelf"))) {
      for (PlantedSong song : Composer.songs(COMPOSED_SET, COMPOSED, COMPOSED_SEED)) {
        Path audio = composed.resolve(song.id() + ".wav");
        if (Files.exists(audio)) {
          Studied studied = study.study(audio);
          Features features = features(composed.resolve("features"), studied);
          Truth truth = ComposedTruth.of(song.score());
          learner.take(COMPOSED_SET, truth, audio.getFileName().toString(), studied, features);
        }
      }
    }
  }

  private static Features features(Path folder, Studied studied) {
    return new FeatureCache(folder, CACHE_BYTES)
        .find(studied.song().contentHash(), FeatureExtractor.VERSION + "-" + EAR)
        .orElseThrow();
  }

  private static TuningSong of(
      String set, Truth truth, String id, Studied studied, Features features) {
    Reading reading = studied.stored().reading();
    return new TuningSong(
        set,
        id,
        new BlockMatchForm(FormSettings.DEFAULTS).compare(features, reading),
        reading,
        new PulseChainBeatTracker().weighed(features),
        BeatGrid.of(truth.beats().stream().mapToDouble(b -> b).toArray()),
        truth.sections(),
        truth.keys());
  }

  private static final String EAR = ear();

  private static String ear() {
    try (ListeningModel model = ListeningModel.load().orElseThrow()) {
      return model.version();
    }
  }
}
