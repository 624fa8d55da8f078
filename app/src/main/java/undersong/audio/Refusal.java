package undersong.audio;

import java.nio.file.Path;
import java.util.List;
import undersong.work.Trouble.UnreadableRecording;

/** Why a file is not studied, in words that help to set it right. */
final class Refusal {
  private Refusal() {}

  static UnreadableRecording noFile(Path file) {
    return new UnreadableRecording(
        "%s is not a file. Maybe the name is misspelled or the file was moved.".formatted(file));
  }

  static UnreadableRecording empty(Path file) {
    return new UnreadableRecording(
        "%s is empty (0 bytes). Maybe a copy or download did not finish.".formatted(file));
  }

  static UnreadableRecording noSound(Path file) {
    return new UnreadableRecording(
        "%s holds no sound: it has no audio stream. Maybe it is a picture or a video without sound."
            .formatted(file));
  }

  static UnreadableRecording encrypted(Path file, String codec) {
    return new UnreadableRecording(
        "The sound of %s is encrypted (codec %s); only unlocked files can be studied. Maybe it was bought or rented with copy protection."
            .formatted(file, codec));
  }

  static UnreadableRecording silent(Path file, double loudestDbfs) {
    return new UnreadableRecording(
        "%s is silent: its loudest sample is at %.0f dBFS, and sound must reach %.0f dBFS. Maybe the wrong input was recorded."
            .formatted(file, loudestDbfs, AudioReader.SILENCE_DBFS));
  }

  static UnreadableRecording tooShort(Path file, double seconds) {
    return new UnreadableRecording(
        "%s lasts %.2f s; a recording must last at least %.0f s. Maybe it was cut off."
            .formatted(file, seconds, AudioReader.SHORTEST_SECONDS));
  }

  static UnreadableRecording tooLong(Path file, double seconds) {
    return new UnreadableRecording(
        "%s lasts %.2f hours; a recording may last at most %.0f hours. Maybe it holds a whole day; cut it into songs first."
            .formatted(file, seconds / 3600, AudioReader.LONGEST_SECONDS / 3600));
  }

  static UnreadableRecording cutShort(Path file, double declaredSeconds, double seconds) {
    return new UnreadableRecording(
        "%s says that it lasts %.1f s, but only %.1f s can be decoded. Maybe a copy or download did not finish."
            .formatted(file, declaredSeconds, seconds));
  }

  /** For a tool that ended badly; its own last words are passed on. */
  static UnreadableRecording broken(Path file, MediaProcess process) {
    if (process.stalled()) {
      return new UnreadableRecording(
          "Decoding %s gave nothing for %d s and was stopped. Maybe its disk does not answer, or the file is crafted."
              .formatted(file, MediaProcess.STALL_SECONDS));
    }
    String errors = process.errors();
    if (errors.contains("loading shared libraries")) {
      return new UnreadableRecording(
          "%s cannot be read because the decoder itself does not start%s. That library is missing on this machine; the packages to install stand in needs.sh."
              .formatted(file, lastLine(errors)));
    }
    if (errors.contains("whitelist")) {
      return new UnreadableRecording(
          "%s is no sound file of a kind that is opened here (%s). Maybe it is a playlist or a document."
              .formatted(file, "WAV, AIFF, FLAC, MP3, M4A, AAC, OGG, Opus, MP4, MKV, WebM"));
    }
    return new UnreadableRecording(
        "%s cannot be decoded%s. Maybe it is damaged, locked, or not a sound file at all."
            .formatted(file, lastLine(errors)));
  }

  private static String lastLine(String errors) {
    List<String> lines = errors.lines().map(String::strip).filter(l -> !l.isEmpty()).toList();
    return lines.isEmpty() ? "" : " (the decoder says: " + lines.get(lines.size() - 1) + ")";
  }
}
