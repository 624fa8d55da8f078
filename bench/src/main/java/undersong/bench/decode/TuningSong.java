package undersong.bench.decode;

import java.io.IOException;
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
import undersong.reading.Facet;
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
  private static final int COMPOSED = 24;
  private static final long COMPOSED_SEED = 1001;
  private static final long CACHE_BYTES = 4L << 30;

  /**
   * Both copies of every song of these sets and the composed songs that are rendered; what else the
   * cache lacks is rendered or measured now.
   */
  static List<TuningSong> all(Path cache, Path soundfont, List<String> sets) throws IOException {
    List<TuningSong> songs = new ArrayList<>();
    eachCopy(
        cache,
        soundfont,
        sets,
        (set, truth, id, studied, features) ->
            songs.add(
                of(
                    set,
                    id,
                    studied,
                    features,
                    BeatGrid.of(truth.beats().stream().mapToDouble(b -> b).toArray()),
                    truth.sections(),
                    truth.keys())));
    Path composed = cache.resolve("planted").resolve("plant-tune");
    try (Study study = Study.on(composed.resolve("decode.shelf"))) {
      for (PlantedSong song : Composer.songs("plant-tune", COMPOSED, COMPOSED_SEED)) {
        Reading truth = song.score().truth().reading();
        Path audio = composed.resolve(song.id() + ".wav");
        if (Files.exists(audio)) {
          BeatGrid beats = truth.get(Facet.BEATS).grid();
          Studied studied = study.study(audio);
          Features features = features(composed.resolve("features"), studied);
          songs.add(
              of(
                  "plant-tune",
                  song.id() + ".wav",
                  studied,
                  features,
                  beats,
                  sections(truth),
                  keys(truth)));
        }
      }
    }
    return songs;
  }

  /** What may be learned from one copy of a rendered song. */
  interface Learner {
    void take(String set, Truth truth, String id, Studied studied, Features features);
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

  private static Features features(Path folder, Studied studied) {
    return new FeatureCache(folder, CACHE_BYTES)
        .find(studied.song().contentHash(), FeatureExtractor.VERSION + "-" + EAR)
        .orElseThrow();
  }

  private static TuningSong of(
      String set,
      String id,
      Studied studied,
      Features features,
      BeatGrid beats,
      List<Timed<String>> sections,
      List<Timed<KeyLabel>> keys) {
    Reading reading = studied.stored().reading();
    return new TuningSong(
        set,
        id,
        new BlockMatchForm(FormSettings.DEFAULTS).compare(features, reading),
        reading,
        new PulseChainBeatTracker().weighed(features),
        beats,
        sections,
        keys);
  }

  private static final String EAR = ear();

  private static String ear() {
    try (ListeningModel model = ListeningModel.load().orElseThrow()) {
      return model.version();
    }
  }

  private static List<Timed<String>> sections(Reading truth) {
    return truth.get(Facet.FORM).sections().stream()
        .map(s -> new Timed<>(s.span().startSeconds(), s.span().endSeconds(), s.letter()))
        .toList();
  }

  private static List<Timed<KeyLabel>> keys(Reading truth) {
    return truth.get(Facet.KEYS).regions().stream()
        .map(
            r ->
                new Timed<>(
                    r.span().startSeconds(),
                    r.span().endSeconds(),
                    new KeyLabel(
                        r.key().tonic().pitchClass(),
                        r.key().mode().isMinor() ? "minor" : r.key().mode().words())))
        .toList();
  }
}
