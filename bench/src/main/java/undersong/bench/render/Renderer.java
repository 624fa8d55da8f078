package undersong.bench.render;

import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import undersong.bench.data.Chart;
import undersong.bench.metrics.SungNote;

/**
 * Renders songs and keeps them: a folder per song with {@code clean.flac}, {@code worn.mp3} and the
 * truth of each as JSON. What is there already is not rendered again; {@link #VERSION} rises with
 * every change that alters the sound or the truth.
 */
public final class Renderer {
  private static final int VERSION = 4;

  /** Rises with every change of the singer alone. */
  private static final int VOICE_VERSION = 2;

  private static final ObjectMapper JSON = new ObjectMapper();
  private final Path cache;
  private final Path soundfont;

  public Renderer(Path cache, Path soundfont) {
    this.cache = cache;
    this.soundfont = soundfont;
  }

  /** One audio file with what is true of it. */
  public record Rendering(Path audio, Truth truth) {}

  /**
   * @param clean as mixed
   * @param worn the same song as a bad copy
   */
  public record Pair(Rendering clean, Rendering worn) {}

  /** Whether the speech synthesizer that sings words is installed. */
  public static boolean canSingWords() {
    return WordSinger.isThere();
  }

  /** The renderings of a song, made now if they are not there. */
  public Pair render(Song song, Chart chart) throws IOException {
    Path folder = cache.resolve(song.chartId());
    Path stamp = folder.resolve("stamp");
    String words = song.wantsWords() && !canSingWords() ? " without words" : "";
    String voice = song.sung() ? " voice " + VOICE_VERSION + words : "";
    String wanted = VERSION + voice + " " + soundfont.getFileName() + " " + song + "\n";
    if (!Files.exists(stamp) || !Files.readString(stamp).equals(wanted)) {
      Files.createDirectories(folder);
      make(
          song, chart.excerpt(song.fromBar(), Math.min(song.toBar(), chart.bars().size())), folder);
      Files.writeString(stamp, wanted);
    }
    return new Pair(read(folder, "clean.flac"), read(folder, "worn.mp3"));
  }

  private static Rendering read(Path folder, String audio) throws IOException {
    Path truth = folder.resolve(audio.replaceAll("\\..*", ".truth.json"));
    return new Rendering(folder.resolve(audio), JSON.readValue(truth.toFile(), Truth.class));
  }

  private void make(Song song, Chart chart, Path folder) throws IOException {
    Arrangement arrangement = Arrangement.of(song, chart);
    double length = arrangement.endSeconds();
    List<Part> parts = arrangement.parts();
    List<float[]> signals =
        new ArrayList<>(
            new SoundfontPlayer(soundfont).play(parts, arrangement.tempo(), length, folder));
    List<Double> curve = List.of();
    for (int p = 0; p < parts.size(); p++) {
      if (parts.get(p).sung()) {
        float[] voice = new float[signals.get(p).length];
        List<Double> sung = sing(song, parts.get(p), arrangement.tempo(), voice, folder);
        curve = parts.get(p).role() == Part.Role.LEAD ? sung : curve;
        signals.set(p, voice);
      }
    }
    Ducker ducker = Ducker.of(arrangement);
    List<RoomSend> rooms = arrangement.production().rooms();
    Mixer clean = Mixer.clean(parts, signals, ducker, rooms);
    Truth truth =
        TruthWriter.write(arrangement, curve, StagingWriter.write(arrangement, clean.levels()));
    clean.finish();
    write(clean, folder, "clean.flac", "aresample=44100", List.of());
    JSON.writeValue(folder.resolve("clean.truth.json").toFile(), truth);

    Random random = song.random(30);
    double factor = Math.pow(2, song.tuningCents() / 1200);
    String kilobits = List.of("64k", "80k", "96k").get(random.nextInt(3));
    Mixer worn = Mixer.worn(parts, signals, ducker, rooms, random);
    Staging wornStaging =
        truth
            .staging()
            .withRooms(StagingWriter.wornRooms(arrangement, worn.levels()))
            .withStands(new Leaning(arrangement.tempo(), worn.equalizers()).of(parts, signals));
    write(
        worn,
        folder,
        "worn.mp3",
        String.format(
            Locale.ROOT, "asetrate=%d,aresample=44100", Math.round(Wave.RATE_HZ * factor)),
        List.of("-b:a", kilobits));
    double exact = (double) Math.round(Wave.RATE_HZ * factor) / Wave.RATE_HZ;
    JSON.writeValue(
        folder.resolve("worn.truth.json").toFile(),
        truth.with(wornStaging).stretched(exact, song.tuningCents()));
  }

  private static void write(Mixer mix, Path folder, String name, String filter, List<String> coding)
      throws IOException {
    Path wave = folder.resolve("mix.wav");
    Wave.writeStereo(wave, mix.left(), mix.right());
    List<String> command =
        new ArrayList<>(
            List.of("ffmpeg", "-y", "-v", "error", "-i", wave.toString(), "-af", filter));
    command.addAll(coding);
    command.add(folder.resolve(name).toString());
    Tool.run(command.toArray(String[]::new));
    Files.delete(wave);
  }

  /** The lead's first take sings words where they are asked for; all others sing vowels. */
  private static List<Double> sing(Song song, Part part, TempoMap tempo, float[] voice, Path folder)
      throws IOException {
    int use =
        switch (part.role()) {
          case LEAD -> 20;
          case SECOND -> 21;
          case DOUBLE -> 23;
          default -> 24;
        };
    Random random = song.random(use);
    List<SungNote> notes =
        part.notes().stream()
            .map(
                n ->
                    new SungNote(
                        tempo.secondsAt(n.startBeat()),
                        tempo.secondsAt(n.endBeat()),
                        n.pitch() + part.pitchWanderCents() / 100 * random.nextGaussian()))
            .toList();
    boolean lead = part.role() == Part.Role.LEAD;
    boolean words = lead && song.wantsWords() && canSingWords();
    Singer singer =
        words
            ? new WordSinger(random, folder)
            : new FormantSinger(random, part.role() == Part.Role.SECOND ? 1.12 : 1);
    return singer.sing(notes, voice);
  }
}
