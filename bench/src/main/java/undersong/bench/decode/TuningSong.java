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
    Renderer renderer = new Renderer(cache.resolve("tune"), soundfont);
    Path shelf = Files.createDirectories(cache.resolve("decode")).resolve("heard.shelf");
    try (Study study = Study.on(shelf)) {
      Charts charts = new Charts();
      for (String set : sets) {
        for (Song song : SongList.of(set)) {
          var pair = renderer.render(song, charts.find(song.chartId()));
          for (var copy : List.of(pair.clean(), pair.worn())) {
            var truth = copy.truth();
            BeatGrid beats = BeatGrid.of(truth.beats().stream().mapToDouble(b -> b).toArray());
            songs.add(heard(set, study, copy.audio(), beats, truth.sections(), truth.keys()));
          }
        }
      }
    }
    Path composed = cache.resolve("planted").resolve("plant-tune");
    try (Study study = Study.on(composed.resolve("decode.shelf"))) {
      for (PlantedSong song : Composer.songs("plant-tune", COMPOSED, COMPOSED_SEED)) {
        Reading truth = song.score().truth().reading();
        Path audio = composed.resolve(song.id() + ".wav");
        if (Files.exists(audio)) {
          BeatGrid beats = truth.get(Facet.BEATS).grid();
          songs.add(heard("plant-tune", study, audio, beats, sections(truth), keys(truth)));
        }
      }
    }
    return songs;
  }

  private static TuningSong heard(
      String set,
      Study study,
      Path audio,
      BeatGrid beats,
      List<Timed<String>> sections,
      List<Timed<KeyLabel>> keys) {
    Studied studied = study.study(audio);
    Path folder = audio.getParent();
    String id =
        !set.equals("plant-tune")
            ? folder.getFileName() + " " + audio.getFileName()
            : audio.getFileName().toString();
    Path features =
        !set.equals("plant-tune")
            ? folder.resolveSibling("../decode/features").normalize()
            : folder.resolve("features");
    String version = FeatureExtractor.VERSION + "-" + EAR;
    Features measured =
        new FeatureCache(features, CACHE_BYTES)
            .find(studied.song().contentHash(), version)
            .orElseThrow();
    Reading reading = studied.stored().reading();
    return new TuningSong(
        set,
        id,
        new BlockMatchForm(FormSettings.DEFAULTS).compare(measured, reading),
        reading,
        new PulseChainBeatTracker().weighed(measured),
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
