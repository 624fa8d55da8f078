package undersong.bench.render;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import undersong.bench.metrics.SungNote;

/**
 * Words at given pitches by the speech synthesizer Festival in its singing mode (Debian packages
 * festival and festvox-kallpc16k), phrase by phrase. What pitch it reached is measured, since it
 * glides between notes, leaves unvoiced sounds unpitched, and fails above about 490 Hz.
 */
final class WordSinger implements Singer {
  /** A4: a step below where the voice no longer follows. */
  static final int HIGHEST_PITCH = 69;

  private static final List<String> WORDS =
      List.of(
          "low", "my", "moon", "rain", "no", "lane", "more", "you", "will", "roll", "year", "warm",
          "line", "all", "near", "now", "one", "mill");
  private static final double PHRASE_REST_SECONDS = 0.3;
  private static final double LOUDNESS = 0.1;

  private final Random random;
  private final Path folder;

  /**
   * @param folder for files that are deleted again
   */
  WordSinger(Random random, Path folder) {
    this.random = random;
    this.folder = folder;
  }

  static boolean isThere() {
    return Tool.isThere("text2wave")
        && Files.isDirectory(Path.of("/usr/share/festival/voices/english/kal_diphone"));
  }

  @Override
  public List<Double> sing(List<SungNote> notes, float[] voice) throws IOException {
    double[] hertz =
        new double[(int) ((double) voice.length / Wave.RATE_HZ / Truth.CURVE_HOP_SECONDS) + 1];
    for (List<SungNote> phrase : phrases(notes)) {
      float[] sung = render(phrase);
      int start = (int) Math.round(phrase.get(0).startSeconds() * Wave.RATE_HZ);
      for (int i = 0; i < sung.length && start + i < voice.length; i++) {
        voice[start + i] += sung[i];
      }
      SungPitch.measure(phrase, sung, hertz);
    }
    List<Double> curve = new ArrayList<>();
    for (double h : hertz) {
      curve.add(h);
    }
    return curve;
  }

  private static List<List<SungNote>> phrases(List<SungNote> notes) {
    List<List<SungNote>> phrases = new ArrayList<>();
    double lastEnd = Double.NEGATIVE_INFINITY;
    for (SungNote note : notes) {
      if (note.startSeconds() - lastEnd > PHRASE_REST_SECONDS) {
        phrases.add(new ArrayList<>());
      }
      phrases.get(phrases.size() - 1).add(note);
      lastEnd = note.endSeconds();
    }
    return phrases;
  }

  private float[] render(List<SungNote> phrase) throws IOException {
    Path score = folder.resolve("words.xml");
    Path wave = folder.resolve("words.wav");
    Path raw = folder.resolve("words.f32");
    Files.writeString(score, score(phrase));
    Tool.run(
        "text2wave",
        "-mode",
        "singing",
        "-eval",
        "(voice_kal_diphone)",
        score.toString(),
        "-o",
        wave.toString());
    Tool.run(
        "ffmpeg",
        "-y",
        "-v",
        "error",
        "-i",
        wave.toString(),
        "-ar",
        "44100",
        "-f",
        "f32le",
        raw.toString());
    byte[] bytes = Files.readAllBytes(raw);
    float[] sung = new float[bytes.length / Float.BYTES];
    ByteBuffer.wrap(bytes).order(ByteOrder.LITTLE_ENDIAN).asFloatBuffer().get(sung);
    for (Path file : List.of(score, wave, raw)) {
      Files.delete(file);
    }
    double squares = 1e-9;
    for (float v : sung) {
      squares += v * v;
    }
    float gain = (float) (LOUDNESS / Math.sqrt(squares / sung.length));
    for (int i = 0; i < sung.length; i++) {
      sung[i] *= gain;
    }
    return sung;
  }

  /** One word of one syllable a note. */
  private String score(List<SungNote> phrase) {
    StringBuilder text = new StringBuilder("<?xml version=\"1.0\"?>\n");
    text.append("<!DOCTYPE SINGING PUBLIC \"-//SINGING//DTD SINGING mark up//EN\"");
    text.append(" \"Singing.v0_1.dtd\" []>\n<SINGING BPM=\"60\">\n");
    double at = phrase.get(0).startSeconds();
    List<String> words = new ArrayList<>(WORDS);
    Collections.shuffle(words, random);
    for (int i = 0; i < phrase.size(); i++) {
      SungNote note = phrase.get(i);
      if (note.startSeconds() - at > 0.02) {
        rest(text, note.startSeconds() - at);
        at = note.startSeconds();
      }
      text.append(
          String.format(
              Locale.ROOT,
              "<PITCH FREQ=\"%.3f\"><DURATION SECONDS=\"%.3f\">%s</DURATION></PITCH>%n",
              440 * Math.pow(2, (note.midiPitch() - 69) / 12),
              note.endSeconds() - at,
              words.get(i % words.size())));
      at = note.endSeconds();
    }
    return text.append("</SINGING>\n").toString();
  }

  private static void rest(StringBuilder text, double seconds) {
    text.append(String.format(Locale.ROOT, "<REST SECONDS=\"%.3f\"></REST>%n", seconds));
  }
}
