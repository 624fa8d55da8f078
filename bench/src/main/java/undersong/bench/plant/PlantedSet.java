package undersong.bench.plant;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import undersong.reading.Reading;
import undersong.render.DemoRenderer;
import undersong.render.DemoSong;
import undersong.render.WavFile;
import undersong.study.Estimators;
import undersong.study.Study;
import undersong.technique.Techniques;

/** Plays a set of composed songs, studies them, and scores what is found in them. */
public final class PlantedSet {
  private static final int SONGS = 40;
  private static final int TUNING_SONGS = 56;
  private static final long SEED = 7;
  private static final long TUNING_SEED = 1001;
  private static final int ROUNDS = 20;

  private final Path folder;
  private final Path soundfont;
  private final Techniques techniques;
  private final List<PlantedSong> songs;

  /**
   * @param tuning whether for developing detectors (other songs), not for measuring
   * @param cache where renderings and measured sound are kept
   */
  public PlantedSet(boolean tuning, Path cache, Path soundfont, Techniques techniques) {
    String id = tuning ? "plant-tune" : "plant";
    this.folder = cache.resolve(id);
    this.soundfont = soundfont;
    this.techniques = techniques;
    this.songs = Composer.songs(id, tuning ? TUNING_SONGS : SONGS, tuning ? TUNING_SEED : SEED);
  }

  /**
   * @param fromTruth findings in the true readings
   * @param fromAudio findings in what was heard
   * @param milliseconds what finding took, 95th percentile over songs, per four minutes of song
   */
  record Outcome(
      List<PlantedSong> songs,
      PlantedScore fromTruth,
      PlantedScore fromAudio,
      double minutes,
      double milliseconds) {}

  Outcome run() throws IOException {
    Files.createDirectories(folder);
    PlantedScore fromTruth = new PlantedScore();
    PlantedScore fromAudio = new PlantedScore();
    List<Double> costs = new ArrayList<>();
    double minutes = 0;
    for (PlantedSong planted : songs) {
      DemoSong song = planted.score();
      Path audio = audio(planted, song);
      Reading truth = reading(audio, TrueEstimators.of(song), planted.id());
      fromTruth.add(planted, song, techniques.in(truth));
      minutes += song.score().durationSeconds() / 60;
      Reading heard = reading(audio, Estimators.standard(), "heard");
      fromAudio.add(planted, song, techniques.in(heard));
      costs.add(milliseconds(heard) * 240 / song.score().durationSeconds());
    }
    double[] sorted = costs.stream().mapToDouble(Double::doubleValue).sorted().toArray();
    double cost = sorted[(int) (0.95 * (sorted.length - 1))];
    return new Outcome(songs, fromTruth, fromAudio, minutes, cost);
  }

  private double milliseconds(Reading reading) {
    double[] rounds = new double[ROUNDS];
    for (int i = 0; i < ROUNDS; i++) {
      long start = System.nanoTime();
      techniques.in(reading);
      rounds[i] = (System.nanoTime() - start) / 1e6;
    }
    Arrays.sort(rounds);
    return rounds[ROUNDS / 2];
  }

  private Path audio(PlantedSong planted, DemoSong song) throws IOException {
    Path audio = folder.resolve(planted.id() + ".wav");
    Path written = folder.resolve(planted.id() + ".score");
    String stamp = "# " + soundfont.getFileName() + "\n" + planted.scoreText();
    if (!Files.exists(audio)
        || !Files.exists(written)
        || !Files.readString(written).equals(stamp)) {
      SoundfontEnsemble ensemble =
          new SoundfontEnsemble(soundfont, song, planted.id().hashCode(), folder);
      WavFile.write(DemoRenderer.render(song, ensemble), audio);
      Files.writeString(written, stamp);
    }
    return audio;
  }

  /**
   * Shelves of their own, so that what is told and what is heard never mix; one set of features.
   */
  private Reading reading(Path audio, Estimators estimators, String shelf) {
    try (Study study = Study.on(folder.resolve(shelf + ".shelf"), estimators)) {
      return study.study(audio).stored().reading();
    }
  }
}
