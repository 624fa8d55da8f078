package undersong.bench.peers;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import undersong.audio.AudioReader;
import undersong.audio.Recording;
import undersong.bench.render.Sounding;
import undersong.feature.EarActivations;
import undersong.feature.EarHead;
import undersong.feature.FeatureCache;
import undersong.feature.FeatureExtractor;
import undersong.feature.Features;
import undersong.feature.FrameMatrix;
import undersong.feature.ear.Hearing;
import undersong.feature.ear.ListeningModel;
import undersong.reading.Reading;
import undersong.work.Cancellation;
import undersong.work.Progress;

/**
 * The program with the notes given: what the ear says of pitch classes and bass is replaced by what
 * was played, and it names no roots and qualities. What is then wrong with the chords is the
 * decoder's doing, or cannot be told from the notes.
 *
 * <p>Notes of lead and voices are left out, as the decoder takes a heard melody out. A note of the
 * others counts until its part plays again, at most {@link #KEPT_SECONDS}, as it does for a
 * listener.
 */
public final class TrueNotes {
  private static final long CACHE_BYTES = 1L << 30;
  private static final double KEPT_SECONDS = 2;
  private static final int NO_BASS = 12;
  private static final int NO_BASS_PITCH = 45;
  private static final int LOWEST_BASS = 23;

  private TrueNotes() {}

  /**
   * @param parts what every pitched part plays, each in order
   * @param model the trained ear, which hears pulse and form as ever
   */
  public static Heard hear(Path audio, List<List<Sounding>> parts, ListeningModel model)
      throws IOException {
    Path folder = Files.createTempDirectory("shelf");
    Recording recording = AudioReader.probe(audio, new Cancellation());
    FeatureCache cache = new FeatureCache(folder.resolve("features"), CACHE_BYTES);
    Hearing hearing = new Hearing(model);
    Features measured =
        new FeatureExtractor().extract(recording, hearing, Progress.SILENT, new Cancellation());
    cache.store(
        measured.withHeard(given(hearing.finish(), parts)),
        FeatureExtractor.VERSION + "-" + model.version());
    Reading told = Program.study(audio, folder);
    Program.delete(folder);
    return Program.of(told);
  }

  static EarActivations given(EarActivations heard, List<List<Sounding>> parts) {
    Map<String, FrameMatrix> heads = new HashMap<>(heard.heads());
    for (EarHead named : List.of(EarHead.CHORD_ROOT, EarHead.CHORD_QUALITY)) {
      float[] even = new float[heard.head(named).frames() * named.bins()];
      Arrays.fill(even, 1f / named.bins());
      heads.put(named.output(), FrameMatrix.of(heard.head(named).clock(), named.bins(), even));
    }
    Sheet members = new Sheet(heard, EarHead.PITCH_CLASSES);
    Sheet bass = new Sheet(heard, EarHead.CHORD_BASS);
    Sheet bassPitch = new Sheet(heard, EarHead.BASS_PITCH);
    Sheet bassOnset = new Sheet(heard, EarHead.BASS_ONSET);
    for (List<Sounding> part : parts) {
      for (int i = 0; i < part.size(); i++) {
        Sounding note = part.get(i);
        if (note.player() == Sounding.Player.LEAD) {
          continue;
        }
        double kept = Math.max(note.endSeconds(), keptUntil(part, i));
        members.set(note.startSeconds(), kept, note.midiPitch() % 12);
        if (note.player() == Sounding.Player.BASS) {
          bass.only(note.startSeconds(), kept, note.midiPitch() % 12);
          int bin = Math.max(0, Math.min(NO_BASS_PITCH - 1, note.midiPitch() - LOWEST_BASS));
          bassPitch.only(note.startSeconds(), note.endSeconds(), bin);
          bassOnset.set(note.startSeconds(), note.startSeconds() + 0.03, 0);
        }
      }
    }
    bass.otherwise(NO_BASS);
    bassPitch.otherwise(NO_BASS_PITCH);
    for (Sheet sheet : List.of(members, bass, bassPitch, bassOnset)) {
      heads.put(sheet.head.output(), sheet.matrix());
    }
    return new EarActivations(heard.modelVersion(), heads);
  }

  private static double keptUntil(List<Sounding> part, int index) {
    double start = part.get(index).startSeconds();
    for (int i = index + 1; i < part.size(); i++) {
      if (part.get(i).startSeconds() > start + 0.05) {
        return Math.min(start + KEPT_SECONDS, part.get(i).startSeconds());
      }
    }
    return start + KEPT_SECONDS;
  }

  /** One head's answer as it is written down. */
  private static final class Sheet {
    private final EarHead head;
    private final FrameMatrix like;
    private final float[] values;

    Sheet(EarActivations heard, EarHead head) {
      this.head = head;
      this.like = heard.head(head);
      this.values = new float[like.frames() * head.bins()];
    }

    void set(double startSeconds, double endSeconds, int bin) {
      for (int t = frame(startSeconds); t < Math.min(like.frames(), frame(endSeconds)); t++) {
        values[t * head.bins() + bin] = 1;
      }
    }

    void only(double startSeconds, double endSeconds, int bin) {
      for (int t = frame(startSeconds); t < Math.min(like.frames(), frame(endSeconds)); t++) {
        Arrays.fill(values, t * head.bins(), (t + 1) * head.bins(), 0);
        values[t * head.bins() + bin] = 1;
      }
    }

    /** Where nothing was set. */
    void otherwise(int bin) {
      for (int t = 0; t < like.frames(); t++) {
        float sum = 0;
        for (int b = 0; b < head.bins(); b++) {
          sum += values[t * head.bins() + b];
        }
        values[t * head.bins() + bin] += sum == 0 ? 1 : 0;
      }
    }

    private int frame(double seconds) {
      return Math.max(0, (int) Math.round(seconds * like.clock().framesPerSecond()));
    }

    FrameMatrix matrix() {
      return FrameMatrix.of(like.clock(), head.bins(), values);
    }
  }
}
