package undersong.bench.render;

import java.util.List;
import java.util.Random;

/** Mixes parts to stereo: level, placement, reverb, echo, and for worn copies what wear does. */
final class Mixer {
  private final int length;
  private final float[] left;
  private final float[] right;

  private Mixer(int length) {
    this.length = length;
    this.left = new float[length];
    this.right = new float[length];
  }

  float[] left() {
    return left;
  }

  float[] right() {
    return right;
  }

  static Mixer clean(List<Part> parts, List<float[]> signals, List<Truth.Echo> echoes) {
    Mixer mixer = new Mixer(signals.get(0).length);
    mixer.add(parts, signals, echoes, 0.9, false);
    mixer.normalize(0.84f);
    return mixer;
  }

  /** Louder drums, distorted chords, a live room, compression, saturation, bent EQ and noise. */
  static Mixer worn(
      List<Part> parts, List<float[]> signals, List<Truth.Echo> echoes, Random random) {
    Mixer mixer = new Mixer(signals.get(0).length);
    mixer.add(parts, signals, echoes, 1.4, true);
    mixer.normalize(0.9f);
    mixer.compress(-20, 4 + 2 * random.nextDouble());
    mixer.normalize(1);
    float drive = 1.5f + random.nextFloat();
    double dip = -6 * random.nextDouble();
    double boostHz = 200 + 1500 * random.nextDouble();
    double topHz = 7000 + 7000 * random.nextDouble();
    for (float[] channel : List.of(mixer.left, mixer.right)) {
      for (int i = 0; i < channel.length; i++) {
        channel[i] = (float) Math.tanh(drive * channel[i]);
      }
      Filters.highPass(channel, 40 + 40 * random.nextDouble());
      Filters.peak(channel, boostHz, 0.9, 5 * random.nextGaussian() / 1.5);
      Filters.peak(channel, 3000, 0.8, dip);
      Filters.lowPass(channel, topHz);
      double pink = 0;
      for (int i = 0; i < channel.length; i++) {
        pink = 0.97 * pink + 0.003 * random.nextGaussian();
        channel[i] += (float) (pink * 0.35);
      }
    }
    mixer.normalize(1.02f);
    return mixer;
  }

  private void add(
      List<Part> parts,
      List<float[]> signals,
      List<Truth.Echo> echoes,
      double decaySeconds,
      boolean worn) {
    float[] roomLeft = new float[length];
    float[] roomRight = new float[length];
    for (int p = 0; p < parts.size(); p++) {
      Part part = parts.get(p);
      float[] signal = signals.get(p).clone();
      level(signal, target(part.role()) + part.levelDb());
      if (part.role() == Part.Role.LEAD) {
        echo(signal, echoes);
      }
      double placement = part.placement();
      double room = part.roomShare();
      if (worn) {
        room = Math.min(0.6, room * 1.8 + 0.05);
        if (part.role() == Part.Role.DRUMS) {
          gain(signal, 3.5);
        } else if (part.role() == Part.Role.COMPING) {
          distort(signal);
        }
      }
      double angle = (placement + 1) * Math.PI / 4;
      float gainLeft = (float) Math.cos(angle);
      float gainRight = (float) Math.sin(angle);
      for (int i = 0; i < length; i++) {
        left[i] += gainLeft * signal[i];
        right[i] += gainRight * signal[i];
        roomLeft[i] += (float) (room * gainLeft * signal[i]);
        roomRight[i] += (float) (room * gainRight * signal[i]);
      }
    }
    float[] wetLeft = Reverb.channel(roomLeft, true, decaySeconds);
    float[] wetRight = Reverb.channel(roomRight, false, decaySeconds);
    for (int i = 0; i < length; i++) {
      left[i] += wetLeft[i];
      right[i] += wetRight[i];
    }
  }

  /** RMS while sounding that a part is brought to, in dBFS. */
  private static double target(Part.Role role) {
    return switch (role) {
      case DRUMS -> -23;
      case BASS -> -22;
      case COMPING -> -23;
      case ARPEGGIO -> -24;
      case PAD -> -24;
      case LEAD -> -19;
      case SECOND -> -21;
    };
  }

  private static void level(float[] signal, double rmsDb) {
    double sum = 0;
    int sounding = 1;
    for (float v : signal) {
      if (Math.abs(v) > 1e-4) {
        sum += v * v;
        sounding++;
      }
    }
    double rms = Math.sqrt(sum / sounding);
    if (rms > 1e-6) {
      gain(signal, rmsDb - 20 * Math.log10(rms));
    }
  }

  private static void gain(float[] signal, double decibels) {
    float factor = (float) Math.pow(10, decibels / 20);
    for (int i = 0; i < signal.length; i++) {
      signal[i] *= factor;
    }
  }

  private static void distort(float[] signal) {
    for (int i = 0; i < signal.length; i++) {
      signal[i] = (float) (0.12 * Math.tanh(18 * signal[i]));
    }
  }

  private static void echo(float[] signal, List<Truth.Echo> echoes) {
    float[] dry = signal.clone();
    for (Truth.Echo echo : echoes) {
      int delay = (int) Math.round(echo.delaySeconds() * Wave.RATE_HZ);
      int from = (int) (echo.startSeconds() * Wave.RATE_HZ);
      int to = Math.min(dry.length, (int) (echo.endSeconds() * Wave.RATE_HZ));
      float share = 0.5f;
      for (int repeat = 1; repeat <= 4; repeat++) {
        for (int i = from; i < to && i + repeat * delay < signal.length; i++) {
          signal[i + repeat * delay] += share * dry[i];
        }
        share *= 0.5f;
      }
    }
  }

  private void compress(double thresholdDb, double ratio) {
    double power = 1e-9;
    double gainDb = 0;
    for (int i = 0; i < length; i++) {
      double x = 0.5 * (left[i] * left[i] + right[i] * right[i]);
      power += (x > power ? 0.002 : 0.0001) * (x - power);
      double over = 10 * Math.log10(power + 1e-12) - thresholdDb;
      double wanted = over > 0 ? over * (1 / ratio - 1) : 0;
      gainDb += 0.001 * (wanted - gainDb);
      float factor = (float) Math.pow(10, gainDb / 20);
      left[i] *= factor;
      right[i] *= factor;
    }
  }

  private void normalize(float peak) {
    float largest = 1e-6f;
    for (int i = 0; i < length; i++) {
      largest = Math.max(largest, Math.max(Math.abs(left[i]), Math.abs(right[i])));
    }
    float factor = peak / largest;
    for (int i = 0; i < length; i++) {
      left[i] *= factor;
      right[i] *= factor;
    }
  }
}
