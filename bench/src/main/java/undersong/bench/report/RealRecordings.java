package undersong.bench.report;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import undersong.bench.data.Harvest;
import undersong.bench.data.LoudnessCases;
import undersong.bench.data.OpenData;
import undersong.bench.data.RockRecordingReader;
import undersong.bench.data.SoloVoiceReader;
import undersong.bench.metrics.BeatMetrics;
import undersong.bench.metrics.KeyLabel;
import undersong.bench.metrics.KeyMetrics;
import undersong.bench.metrics.MelodyMetrics;
import undersong.bench.metrics.NoteMetrics;
import undersong.bench.metrics.TempoMetrics;
import undersong.bench.metrics.Timed;
import undersong.bench.peers.FfmpegMeter;
import undersong.bench.peers.Heard;
import undersong.bench.peers.Listener;
import undersong.bench.render.Staging;
import undersong.bench.render.Tool;
import undersong.bench.render.Truth;
import undersong.bench.render.Wave;

/** Real sound: rock songs with tempo maps, solo voices with pitch curves, clips of known key. */
public final class RealRecordings {
  private final Path cache;
  private final Bench bench;
  private final List<Listener> listeners;
  private final Publisher publisher;
  private final List<Row> rows = new ArrayList<>();

  /** Told of all rows so far whenever one is added. */
  @FunctionalInterface
  public interface Publisher {
    void publish(List<Row> rows) throws IOException;
  }

  public RealRecordings(Path cache, Bench bench, List<Listener> listeners, Publisher publisher) {
    this.cache = cache;
    this.bench = bench;
    this.listeners = listeners;
    this.publisher = publisher;
  }

  public List<Row> measure() throws IOException {
    Files.createDirectories(cache);
    for (Part part : List.<Part>of(this::voices, this::clips, this::levels, this::rock)) {
      try {
        part.measure();
      } catch (OpenData.Missing missing) {
        bench.note(missing.getMessage());
      }
    }
    return rows;
  }

  @FunctionalInterface
  private interface Part {
    void measure() throws IOException;
  }

  /** Test signals of EBU Tech 3341 and 3342, made here from their description. */
  private void levels() throws IOException {
    for (LoudnessCases.Tone c : LoudnessCases.read(OpenData.folder("loudness"))) {
      Path audio = cache.resolve("ebu-" + c.id() + ".wav");
      if (!Files.exists(audio)) {
        Wave.writeStereo(audio, c.samples(Wave.RATE_HZ), c.samples(Wave.RATE_HZ));
      }
      hear(
          "ebu-" + c.id(),
          audio,
          c.seconds(),
          heard -> {
            Map<String, Double> scores = new LinkedHashMap<>();
            heard
                .loudness()
                .ifPresent(
                    l -> {
                      scores.put("expected", c.expected());
                      scores.put("read", c.range() ? l.rangeLu() : l.integratedLufs());
                    });
            return scores;
          });
    }
  }

  private void rock() throws IOException {
    Harvest<RockRecordingReader.TwoStems> songs = RockRecordingReader.readAll();
    songs.refused().forEach(bench::note);
    for (RockRecordingReader.TwoStems song : songs.read()) {
      Path mix = cache.resolve(song.id() + ".flac");
      if (!Files.exists(mix)) {
        Tool.run(
            "ffmpeg",
            "-y",
            "-v",
            "error",
            "-i",
            song.stems().get(0).toString(),
            "-i",
            song.stems().get(1).toString(),
            "-filter_complex",
            "amix=inputs=2:duration=longest:normalize=0,alimiter=limit=0.95",
            mix.toString());
      }
      double end = song.beats().get(song.beats().size() - 1);
      hear(
          song.id(),
          mix,
          end,
          heard -> {
            Map<String, Double> scores = new LinkedHashMap<>();
            heard.pulse().ifPresent(pulse -> beats(song, end, pulse, scores));
            heard
                .loudness()
                .ifPresent(
                    l -> {
                      scores.put("loudness, LUFS", l.integratedLufs());
                      scores.put("range, LU", l.rangeLu());
                    });
            return scores;
          });
    }
  }

  private static void beats(
      RockRecordingReader.TwoStems song,
      double end,
      Heard.Pulse pulse,
      Map<String, Double> scores) {
    double[] reference = BeatMetrics.trim(Scorer.array(song.beats()));
    double[] estimated =
        java.util.Arrays.stream(BeatMetrics.trim(Scorer.array(pulse.beats())))
            .filter(b -> b <= end + 0.07)
            .toArray();
    BeatMetrics.Continuity runs = BeatMetrics.continuity(reference, estimated);
    scores.put("beats F", BeatMetrics.score(reference, estimated).f());
    scores.put("at any level", BeatMetrics.fAtAnyLevel(reference, estimated));
    scores.put("CMLt", runs.correctTotal());
    scores.put("AMLt", runs.anyTotal());
    pulse
        .bpm()
        .ifPresent(
            bpm -> {
              scores.put("bpm", bpm);
              scores.put("tempo within 4 %", TempoMetrics.accuracy1(song.bpm(), bpm) ? 1.0 : 0);
            });
  }

  private void voices() throws IOException {
    List<SoloVoiceReader.Solo> solos =
        new ArrayList<>(SoloVoiceReader.readVocadito(OpenData.folder("audio-vocadito")).read());
    solos.addAll(SoloVoiceReader.readChoir(OpenData.folder("audio-dagstuhl-choir-1s")).read());
    for (SoloVoiceReader.Solo solo : solos) {
      hear(
          solo.id(),
          solo.audio(),
          solo.id().startsWith("choir") ? 1 : 33,
          heard -> {
            Map<String, Double> scores = new LinkedHashMap<>();
            heard
                .lines()
                .map(Heard.Lines::curve)
                .ifPresent(
                    curve -> {
                      MelodyMetrics melody = MelodyMetrics.of(solo.pitch(), curve);
                      scores.put("raw pitch", melody.rawPitch());
                      scores.put("raw chroma", melody.rawChroma());
                      scores.put("overall", melody.overall());
                    });
            for (int a = 0; a < solo.notes().size(); a++) {
              int annotator = a;
              heard
                  .lines()
                  .map(Heard.Lines::melody)
                  .ifPresent(
                      notes ->
                          scores.put(
                              "notes F against annotator " + (annotator + 1),
                              NoteMetrics.score(
                                      solo.notes().get(annotator),
                                      notes,
                                      NoteMetrics.Demand.ONSET_PITCH)
                                  .f()));
            }
            return scores;
          });
    }
  }

  /** Keys and tempo as the clips' authors and titles state them. */
  private void clips() throws IOException {
    Path folder = OpenData.folder("audio-librosa-data");
    try (var files = Files.list(folder)) {
      for (Path clip : files.filter(f -> f.toString().endsWith(".ogg")).sorted().toList()) {
        boolean trumpet = clip.getFileName().toString().contains("trumpet");
        boolean strings = clip.getFileName().toString().contains("string_orchestra");
        if (trumpet || strings) {
          KeyLabel key = trumpet ? KeyLabel.major(5) : KeyLabel.minor(6);
          hear(
              trumpet ? "clip-trumpet" : "clip-strings",
              clip,
              60,
              heard -> clipScores(heard, key, trumpet));
        }
      }
    }
  }

  private static Map<String, Double> clipScores(Heard heard, KeyLabel key, boolean trumpet) {
    Map<String, Double> scores = new LinkedHashMap<>();
    heard
        .tonality()
        .map(Heard.Tonality::keys)
        .ifPresent(
            keys ->
                scores.put(
                    "key by time, weighted",
                    keys.isEmpty()
                        ? 0
                        : KeyMetrics.weightedByTime(
                            List.of(new Timed<>(0, keys.get(keys.size() - 1).endSeconds(), key)),
                            keys)));
    if (trumpet) {
      heard
          .pulse()
          .flatMap(Heard.Pulse::bpm)
          .ifPresent(
              bpm ->
                  scores.put("tempo, levels forgiven", TempoMetrics.accuracy2(90, bpm) ? 1.0 : 0));
    }
    return scores;
  }

  private void hear(
      String id,
      Path audio,
      double seconds,
      java.util.function.Function<Heard, Map<String, Double>> score)
      throws IOException {
    Map<String, Heard> all = new LinkedHashMap<>();
    for (Listener listener : listeners.stream().filter(l -> l.hears("real")).toList()) {
      try {
        all.put(listener.name(), listener.hear(audio, lengthOnly(id, seconds)));
      } catch (IOException | RuntimeException failure) {
        bench.leaveOut(id + " by " + listener.name(), failure);
      }
    }
    Optional<Heard.Loudness> metered =
        Optional.ofNullable(all.get(FfmpegMeter.NAME)).flatMap(Heard::loudness);
    for (Map.Entry<String, Heard> heard : all.entrySet()) {
      Map<String, Double> scores = score.apply(heard.getValue());
      if (!scores.isEmpty()) {
        Scorer.loudness(metered, heard.getValue())
            .forEach((metric, off) -> scores.put(Targets.all().get(metric).words(), off));
        rows.add(new Row(id, "real", heard.getKey(), Map.of(), scores));
        System.out.println(id + " " + heard.getKey() + " " + scores);
      }
    }
    publisher.publish(rows);
  }

  /** Nothing is known but the length. */
  private static Truth lengthOnly(String id, double seconds) {
    return new Truth(
        id,
        seconds,
        0,
        "",
        0,
        1,
        false,
        List.of(),
        List.of(),
        List.of(),
        List.of(),
        List.of(),
        List.of(),
        List.of(),
        List.of(),
        false,
        List.of(),
        List.of(),
        Staging.NONE,
        List.of());
  }
}
