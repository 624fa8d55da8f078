package undersong.bench.render;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;

/** Mixes parts to stereo as their strips say, and for worn copies does what wear does. */
final class Mixer {
  private static final double PING_PONG_PLACEMENT = 0.8;
  private static final int PAN_STEP = 32;

  private final int length;
  private final float[] left;
  private final float[] right;
  private final float[] roomLeft;
  private final float[] roomRight;
  private final List<double[]> partEnergies = new ArrayList<>();
  private double[] dryEnergy = {};
  private double[] wetEnergy = {};
  private final List<ChannelEqualizer> equalizers = new ArrayList<>();

  private Mixer(int length) {
    this.length = length;
    this.left = new float[length];
    this.right = new float[length];
    this.roomLeft = new float[length];
    this.roomRight = new float[length];
  }

  float[] left() {
    return left;
  }

  float[] right() {
    return right;
  }

  /** Levels in the mix as it stands. */
  MixLevels levels() {
    return new MixLevels(left, right, partEnergies, dryEnergy, wetEnergy);
  }

  /** What the left and the right channel of a worn mix went through; none for a clean one. */
  List<ChannelEqualizer> equalizers() {
    return equalizers;
  }

  /**
   * @param rooms where and how the room changes; none = one room throughout
   */
  static Mixer clean(List<Part> parts, List<float[]> signals, Ducker ducker, List<RoomSend> rooms) {
    Mixer mixer = new Mixer(signals.get(0).length);
    mixer.add(parts, signals, ducker, rooms, false);
    return mixer;
  }

  /** Brings the loudest sample to 1.5 dB under full scale. */
  void finish() {
    normalize(0.84f);
  }

  /** Louder drums, distorted chords, a live room, compression, saturation, bent EQ and noise. */
  static Mixer worn(
      List<Part> parts, List<float[]> signals, Ducker ducker, List<RoomSend> rooms, Random random) {
    Mixer mixer = new Mixer(signals.get(0).length);
    mixer.add(parts, signals, ducker, rooms, true);
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
      ChannelEqualizer equalizer = ChannelEqualizer.random(boostHz, random);
      equalizer.apply(channel);
      mixer.equalizers.add(equalizer);
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

  /** The one room of a song whose production says nothing of rooms. */
  static double usualDecaySeconds(boolean worn) {
    return worn ? 1.4 : 0.9;
  }

  private void add(
      List<Part> parts, List<float[]> signals, Ducker ducker, List<RoomSend> rooms, boolean worn) {
    for (int p = 0; p < parts.size(); p++) {
      Part part = parts.get(p);
      Strip strip = part.strip();
      float[] signal = signals.get(p).clone();
      level(signal, target(part.role()) + strip.levelDb());
      double room = strip.roomShare();
      if (worn) {
        room = Math.min(0.6, room * 1.8 + 0.05);
        if (part.role() == Part.Role.DRUMS) {
          gain(signal, 3.5);
        } else if (part.role() == Part.Role.COMPING) {
          distort(signal);
        }
      }
      for (Staging.Sweep sweep : strip.sweeps()) {
        Filters.sweepLowPass(
            signal,
            (int) (sweep.startSeconds() * Wave.RATE_HZ),
            (int) (sweep.endSeconds() * Wave.RATE_HZ),
            sweep.fromHz(),
            sweep.toHz());
      }
      if (strip.ducked()) {
        ducker.duck(signal);
      }
      partEnergies.add(MixLevels.energy(signal));
      pan(signal, strip::placementAt, room);
      for (Staging.Echo echo : strip.echoes()) {
        echo(signal, strip, echo, room);
      }
    }
    reverberate(rooms, usualDecaySeconds(worn));
  }

  private void reverberate(List<RoomSend> rooms, double usualDecaySeconds) {
    dryEnergy = MixLevels.energy(left, right);
    float[] wetLeft = new float[length];
    float[] wetRight = new float[length];
    if (rooms.isEmpty()) {
      addRoom(wetLeft, wetRight, roomLeft, roomRight, usualDecaySeconds);
    }
    for (double decay : rooms.stream().mapToDouble(RoomSend::decaySeconds).distinct().toArray()) {
      float[] gain = sendGain(rooms, decay);
      addRoom(wetLeft, wetRight, times(roomLeft, gain), times(roomRight, gain), decay);
    }
    wetEnergy = MixLevels.energy(wetLeft, wetRight);
    for (int i = 0; i < length; i++) {
      left[i] += wetLeft[i];
      right[i] += wetRight[i];
    }
  }

  private static void addRoom(
      float[] wetLeft, float[] wetRight, float[] sentLeft, float[] sentRight, double decay) {
    float[] roomLeft = Reverb.channel(sentLeft, true, decay);
    float[] roomRight = Reverb.channel(sentRight, false, decay);
    for (int i = 0; i < wetLeft.length; i++) {
      wetLeft[i] += roomLeft[i];
      wetRight[i] += roomRight[i];
    }
  }

  private static float[] times(float[] signal, float[] gain) {
    float[] product = new float[signal.length];
    for (int i = 0; i < product.length; i++) {
      product[i] = signal[i] * gain[i];
    }
    return product;
  }

  /** What is sent to the room of one decay; it rises and falls within some 10 ms. */
  private float[] sendGain(List<RoomSend> rooms, double decaySeconds) {
    float[] gain = new float[length];
    for (RoomSend room : rooms) {
      if (room.decaySeconds() == decaySeconds) {
        int from = Math.max(0, (int) (room.startSeconds() * Wave.RATE_HZ));
        int to = Math.min(length, (int) (room.endSeconds() * Wave.RATE_HZ));
        Arrays.fill(gain, from, Math.max(from, to), (float) Math.pow(10, room.sendDb() / 20));
      }
    }
    float smooth = gain.length == 0 ? 0 : gain[0];
    for (int i = 0; i < length; i++) {
      smooth += 0.003f * (gain[i] - smooth);
      gain[i] = smooth;
    }
    return gain;
  }

  /** Constant-power panning; a move takes a few milliseconds. */
  private void pan(float[] signal, DoubleUnaryOperator placementAt, double room) {
    double angle = (placementAt.applyAsDouble(0) + 1) * Math.PI / 4;
    for (int block = 0; block < length; block += PAN_STEP) {
      double wanted = (placementAt.applyAsDouble((double) block / Wave.RATE_HZ) + 1) * Math.PI / 4;
      angle += 0.2 * (wanted - angle);
      float gainLeft = (float) Math.cos(angle);
      float gainRight = (float) Math.sin(angle);
      for (int i = block; i < Math.min(length, block + PAN_STEP); i++) {
        left[i] += gainLeft * signal[i];
        right[i] += gainRight * signal[i];
        roomLeft[i] += (float) (room * gainLeft * signal[i]);
        roomRight[i] += (float) (room * gainRight * signal[i]);
      }
    }
  }

  private void echo(float[] signal, Strip strip, Staging.Echo echo, double room) {
    int delay = (int) Math.round(echo.delaySeconds() * Wave.RATE_HZ);
    int from = (int) (echo.startSeconds() * Wave.RATE_HZ);
    int to = Math.min(length, (int) (echo.endSeconds() * Wave.RATE_HZ));
    float[] copy = new float[length];
    System.arraycopy(signal, from, copy, from, Math.max(0, to - from));
    fade(copy, from, to);
    double place = strip.placementAt(echo.startSeconds());
    for (int repeat = 1; repeat <= echo.repeats(); repeat++) {
      Filters.lowPass(copy, echo.lowPassHz());
      gain(copy, repeat == 1 ? echo.firstDb() : echo.decayDb());
      int shift = repeat * delay;
      float[] shifted = new float[length];
      System.arraycopy(copy, 0, shifted, Math.min(length, shift), Math.max(0, length - shift));
      double side = repeat % 2 == 1 ? PING_PONG_PLACEMENT : -PING_PONG_PLACEMENT;
      pan(shifted, t -> echo.sides() ? side : place, room);
    }
  }

  /** Soft edges of 5 ms where a stretch is cut out. */
  private static void fade(float[] x, int from, int to) {
    int edge = Math.min(Wave.RATE_HZ / 200, (to - from) / 2);
    for (int i = 0; i < edge; i++) {
      float share = (float) i / edge;
      x[from + i] *= share;
      x[to - 1 - i] *= share;
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
      case LINE, ADDITION -> -22;
      case DOUBLE -> -22;
      case ANSWER -> -21;
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
