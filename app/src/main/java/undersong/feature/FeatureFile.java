package undersong.feature;

import java.io.BufferedInputStream;
import java.io.BufferedOutputStream;
import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.zip.CRC32;
import java.util.zip.CheckedOutputStream;
import java.util.zip.Deflater;
import java.util.zip.DeflaterOutputStream;
import java.util.zip.InflaterInputStream;
import undersong.time.FrameClock;

/**
 * Features as bytes: a mark, the version, then everything compressed, then a checksum of all before
 * it. Matrices are stored as 16-bit differences from frame to frame, high bytes apart from low
 * ones, since music mostly goes on as it was.
 */
final class FeatureFile {
  private static final int MARK = 0x55534631;
  private static final int CHECKSUM_BYTES = Long.BYTES;

  private FeatureFile() {}

  static void write(Features features, String version, Path file) throws IOException {
    CRC32 checksum = new CRC32();
    try (OutputStream disk = new BufferedOutputStream(Files.newOutputStream(file))) {
      Deflater deflater = new Deflater(Deflater.BEST_SPEED);
      DeflaterOutputStream packed =
          new DeflaterOutputStream(new CheckedOutputStream(disk, checksum), deflater, 1 << 16);
      DataOutputStream out = new DataOutputStream(packed);
      out.writeInt(MARK);
      out.writeUTF(version);
      writeFeatures(features, out);
      out.flush();
      packed.finish();
      deflater.end();
      new DataOutputStream(disk).writeLong(checksum.getValue());
    }
  }

  /** Empty where the file is of another version, damaged, or something else altogether. */
  static Optional<Features> read(Path file, String version) throws IOException {
    long payload = Files.size(file) - CHECKSUM_BYTES;
    if (payload <= 0 || !checksumFits(file, payload)) {
      return Optional.empty();
    }
    try (InputStream disk = new BufferedInputStream(Files.newInputStream(file));
        DataInputStream in =
            new DataInputStream(new BufferedInputStream(new InflaterInputStream(disk), 1 << 16))) {
      if (in.readInt() != MARK || !in.readUTF().equals(version)) {
        return Optional.empty();
      }
      return Optional.of(readFeatures(in));
    }
  }

  private static boolean checksumFits(Path file, long payload) throws IOException {
    CRC32 checksum = new CRC32();
    try (DataInputStream in =
        new DataInputStream(new BufferedInputStream(Files.newInputStream(file)))) {
      byte[] bytes = new byte[1 << 16];
      for (long left = payload; left > 0; ) {
        int count = (int) Math.min(left, bytes.length);
        in.readFully(bytes, 0, count);
        checksum.update(bytes, 0, count);
        left -= count;
      }
      return in.readLong() == checksum.getValue();
    }
  }

  private static void writeFeatures(Features features, DataOutputStream out) throws IOException {
    out.writeUTF(features.contentHash());
    out.writeDouble(features.durationSeconds());
    write(features.onsetStrength(), out);
    write(features.bandOnsets(), out);
    write(features.tempogram(), out);
    write(features.longSpectrum(), out);
    write(features.shortSpectrum(), out);
    write(features.loudness().momentaryLufs(), out);
    write(features.loudness().shortTermLufs(), out);
    out.writeDouble(features.loudness().integratedLufs());
    out.writeDouble(features.loudness().rangeLu());
    write(features.bandLevelsDb(), out);
    write(features.sideLevelsDb(), out);
    write(features.centroidHz(), out);
    write(features.rollOffHz(), out);
    write(features.flatness(), out);
    write(features.image().levelDb(), out);
    write(features.image().balance(), out);
    write(features.image().likeness(), out);
    write(features.image().quickLevelsDb(), out);
    write(features.image().lowWave(), out);
    out.writeBoolean(features.heard().isPresent());
    if (features.heard().isPresent()) {
      EarActivations heard = features.heard().get();
      out.writeUTF(heard.modelVersion());
      out.writeInt(heard.heads().size());
      for (Map.Entry<String, FrameMatrix> head : new TreeMap<>(heard.heads()).entrySet()) {
        out.writeUTF(head.getKey());
        write(head.getValue(), out);
      }
    }
  }

  private static Features readFeatures(DataInputStream in) throws IOException {
    return new Features(
        in.readUTF(),
        in.readDouble(),
        readSeries(in),
        readMatrix(in),
        readMatrix(in),
        readMatrix(in),
        readMatrix(in),
        new Loudness(readSeries(in), readSeries(in), in.readDouble(), in.readDouble()),
        readMatrix(in),
        readMatrix(in),
        readSeries(in),
        readSeries(in),
        readSeries(in),
        new StereoImage(
            readMatrix(in), readMatrix(in), readMatrix(in), readMatrix(in), readMatrix(in)),
        in.readBoolean() ? Optional.of(readHeard(in)) : Optional.empty());
  }

  private static EarActivations readHeard(DataInputStream in) throws IOException {
    String modelVersion = in.readUTF();
    Map<String, FrameMatrix> heads = new TreeMap<>();
    int count = in.readInt();
    for (int i = 0; i < count; i++) {
      heads.put(in.readUTF(), readMatrix(in));
    }
    return new EarActivations(modelVersion, heads);
  }

  private static void write(FrameClock clock, DataOutputStream out) throws IOException {
    out.writeInt(clock.sampleRateHz());
    out.writeInt(clock.hopSamples());
  }

  private static FrameClock readClock(DataInputStream in) throws IOException {
    return new FrameClock(in.readInt(), in.readInt());
  }

  private static void write(FrameSeries series, DataOutputStream out) throws IOException {
    write(series.clock(), out);
    out.writeInt(series.frames());
    for (int frame = 0; frame < series.frames(); frame++) {
      out.writeFloat(series.at(frame));
    }
  }

  private static FrameSeries readSeries(DataInputStream in) throws IOException {
    FrameClock clock = readClock(in);
    float[] values = new float[in.readInt()];
    for (int frame = 0; frame < values.length; frame++) {
      values[frame] = in.readFloat();
    }
    return new FrameSeries(clock, values);
  }

  private static void write(FrameMatrix matrix, DataOutputStream out) throws IOException {
    write(matrix.clock(), out);
    out.writeInt(matrix.bins());
    out.writeFloat(matrix.step());
    out.writeInt(matrix.frames());
    int bins = matrix.bins();
    int blockFrames = blockFrames(bins);
    byte[] high = new byte[blockFrames * bins];
    byte[] low = new byte[blockFrames * bins];
    for (int start = 0; start < matrix.frames(); start += blockFrames) {
      int count = Math.min(blockFrames, matrix.frames() - start) * bins;
      for (int i = 0; i < count; i++) {
        int at = start * bins + i;
        int difference = matrix.stepsAt(at) - (at < bins ? 0 : matrix.stepsAt(at - bins));
        int folded = ((short) difference << 1) ^ ((short) difference >> 15); // small both ways
        high[i] = (byte) (folded >> 8);
        low[i] = (byte) folded;
      }
      out.write(high, 0, count);
      out.write(low, 0, count);
    }
  }

  private static FrameMatrix readMatrix(DataInputStream in) throws IOException {
    FrameClock clock = readClock(in);
    int bins = in.readInt();
    float step = in.readFloat();
    int frames = in.readInt();
    short[] steps = new short[frames * bins];
    int blockFrames = blockFrames(bins);
    byte[] high = new byte[blockFrames * bins];
    byte[] low = new byte[blockFrames * bins];
    for (int start = 0; start < frames; start += blockFrames) {
      int count = Math.min(blockFrames, frames - start) * bins;
      in.readFully(high, 0, count);
      in.readFully(low, 0, count);
      for (int i = 0; i < count; i++) {
        int at = start * bins + i;
        int folded = ((high[i] & 0xff) << 8) | (low[i] & 0xff);
        int difference = (folded >>> 1) ^ -(folded & 1);
        steps[at] = (short) (difference + (at < bins ? 0 : steps[at - bins]));
      }
    }
    return FrameMatrix.ofSteps(clock, bins, step, steps);
  }

  private static int blockFrames(int bins) {
    return Math.max(1, (1 << 16) / bins);
  }
}
