package undersong.study;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.time.InstantSource;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.atomic.AtomicLong;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import undersong.audio.AudioReader;
import undersong.audio.Recording;
import undersong.render.PlainTones;
import undersong.render.StereoAudio;
import undersong.render.WavWriter;
import undersong.render.focus.Focus;
import undersong.render.focus.FocusRenderer;
import undersong.render.focus.LevelMatch;
import undersong.render.focus.RenderingFiles;
import undersong.shelf.Song;
import undersong.shelf.StoredReading;
import undersong.time.Span;
import undersong.work.Cancellation;
import undersong.work.Trouble;

/** Sound made from a recording or its reading, for listening: kept in files. */
final class Renderings {
  /** Raise whenever a rendering would sound different. */
  private static final String VERSION = "1";

  private static final long LIMIT_BYTES = 1L << 30;

  private final RenderingFiles files;

  Renderings(Path folder, InstantSource clock) {
    this.files = new RenderingFiles(folder, LIMIT_BYTES, clock);
  }

  /** The recording itself, decoded. */
  Path whole(Recording recording, Cancellation cancellation) {
    return files.file(
        name(recording, "whole", new Span(0, recording.durationSeconds())),
        file -> {
          // Its header comes first and says how many frames follow; decoding tells, not the tags.
          AtomicLong total = new AtomicLong();
          AudioReader.stream(recording, cancellation, (block, frames) -> total.addAndGet(frames));
          try (WavWriter writer = new WavWriter(file, total.get())) {
            AudioReader.stream(
                recording, cancellation, (block, frames) -> write(block, frames, writer));
          } catch (UncheckedIOException full) {
            throw full.getCause();
          }
        });
  }

  private static void write(float[] block, int frames, WavWriter writer) {
    try {
      for (int i = 0; i < frames; i++) {
        writer.write(block[2 * i], block[2 * i + 1]);
      }
    } catch (IOException full) {
      throw new UncheckedIOException(full);
    }
  }

  /** A span cut where the recording ends. */
  static Span insideOf(Song song, Span span) {
    if (span.startSeconds() >= song.durationSeconds()) {
      throw new Trouble.WrongUsage(
          "The stretch from %s s lies behind the end of song %d, which lasts %.2f s. Maybe it was meant for another song."
              .formatted(span.startSeconds(), song.id(), song.durationSeconds()));
    }
    return new Span(span.startSeconds(), Math.min(span.endSeconds(), song.durationSeconds()));
  }

  Path focus(Recording recording, Focus focus, Span span, Cancellation cancellation) {
    return files.file(
        name(recording, focus.name(), span),
        file ->
            LevelMatch.write(
                sink -> AudioReader.stream(recording, span, cancellation, sink),
                (samples, sink) -> FocusRenderer.render(samples, focus, sink),
                file));
  }

  Path check(
      Recording recording,
      StoredReading reading,
      Set<PlainTones.Layer> layers,
      Span span,
      Cancellation cancellation) {
    String what =
        new TreeSet<>(layers).stream().map(Enum::name).collect(Collectors.joining("-"))
            + "-"
            + reading.revision();
    return tones(
        recording,
        what,
        span,
        () -> PlainTones.render(reading.reading(), layers, span),
        cancellation);
  }

  /**
   * Tones over a span of the recording, at its level.
   *
   * @param what says everything that the tones depend on
   */
  Path tones(
      Recording recording,
      String what,
      Span span,
      Supplier<StereoAudio> rendering,
      Cancellation cancellation) {
    return files.file(
        name(recording, what, span),
        file ->
            LevelMatch.write(
                sink -> AudioReader.stream(recording, span, cancellation, sink),
                (samples, sink) -> {
                  samples.to((interleaved, frames) -> cancellation.check()); // to meter it
                  StereoAudio tones = rendering.get();
                  float[] both = new float[2 * tones.size()];
                  for (int i = 0; i < tones.size(); i++) {
                    both[2 * i] = tones.left(i);
                    both[2 * i + 1] = tones.right(i);
                  }
                  sink.accept(both, tones.size());
                },
                file));
  }

  private static String name(Recording recording, String what, Span span) {
    return "%s-%s-%d-%d-%s"
        .formatted(
            recording.contentHash().substring(0, Math.min(64, recording.contentHash().length())),
            what,
            Math.round(1e6 * span.startSeconds()),
            Math.round(1e6 * span.endSeconds()),
            VERSION);
  }
}
