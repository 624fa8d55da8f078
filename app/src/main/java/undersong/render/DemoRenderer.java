package undersong.render;

import undersong.render.score.Performance;
import undersong.render.score.Score;
import undersong.render.synth.Effects;
import undersong.render.synth.Ensemble;
import undersong.render.synth.Instrument;
import undersong.render.synth.Orchestra;
import undersong.render.synth.Reverb;

/**
 * Turns a demo song into sound: every part of every section is played, placed and treated, then all
 * are added, sent through one room, brought to level and held below -1 dBFS. The same song gives
 * the same samples, always.
 */
public final class DemoRenderer {
  private static final double ROOM_DECAY_SECONDS = 1.6;

  /** -1.3 dBFS. */
  private static final double CEILING = 0.861;

  private static final int LOOK_AHEAD_SAMPLES = 220;

  private DemoRenderer() {}

  /** The whole song. Cost: about one second for thirty seconds of sound on one core. */
  public static StereoAudio render(DemoSong song) {
    return render(song, new Orchestra());
  }

  /** The whole song, played by others than the program's own players. */
  public static StereoAudio render(DemoSong song, Ensemble ensemble) {
    Score score = song.score();
    Mixdown mixdown = new Mixdown(song.performance(), ensemble, 0, score.durationSeconds());
    for (int s = 0; s < song.performance().sections(); s++) {
      mixdown.addSection(s);
    }
    StereoAudio audio = finish(score, mixdown);
    return score.fadeBars() > 0 ? faded(audio, song) : audio;
  }

  /**
   * One section alone, as it stands in the song but without what rings over from the section
   * before; sample 0 lies the score's offset before its first bar line.
   */
  public static StereoAudio render(DemoSong song, int sectionIndex) {
    Score score = song.score();
    Performance performance = song.performance();
    double start = performance.sectionStartSeconds(sectionIndex) - score.offsetSeconds();
    double end = performance.sectionEndSeconds(sectionIndex) + score.tailSeconds();
    Mixdown mixdown = new Mixdown(performance, new Orchestra(), start, end);
    mixdown.addSection(sectionIndex);
    return finish(score, mixdown);
  }

  private static StereoAudio finish(Score score, Mixdown mixdown) {
    float[] left = mixdown.left();
    float[] right = mixdown.right();
    Reverb.add(mixdown.room(), left, right, ROOM_DECAY_SECONDS);
    float gain = (float) Effects.gain(score.gainDecibels());
    int fade = Instrument.samples(0.05);
    for (int i = 0; i < left.length; i++) {
      float end = Math.min(1f, (float) (left.length - 1 - i) / fade);
      left[i] *= gain * end;
      right[i] *= gain * end;
    }
    Effects.limit(left, right, CEILING, LOOK_AHEAD_SAMPLES);
    return StereoAudio.owning(left, right);
  }

  private static StereoAudio faded(StereoAudio audio, DemoSong song) {
    float[] left = audio.left();
    float[] right = audio.right();
    Performance performance = song.performance();
    double end = performance.sectionEndSeconds(performance.sections() - 1);
    double barSeconds = song.score().meter().beats() * 60 / song.score().bpm();
    double start = end - song.score().fadeBars() * barSeconds;
    for (int i = Math.max(0, Instrument.samples(start)); i < left.length; i++) {
      double x = ((double) i / StereoAudio.SAMPLE_RATE_HZ - start) / (end - start);
      double gain = x >= 1 ? 0 : (1 - x) * (1 - x);
      left[i] *= (float) gain;
      right[i] *= (float) gain;
    }
    return StereoAudio.owning(left, right);
  }
}
