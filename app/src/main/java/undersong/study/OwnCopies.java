package undersong.study;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import undersong.audio.Recording;
import undersong.work.Trouble;

/** Recordings copied beside the shelf because somebody asked for it; found again by their sound. */
final class OwnCopies {
  private static final int TOLD_APART_BY = 24;

  private final Path folder;

  /**
   * @param folder made when the first is copied
   */
  OwnCopies(Path folder) {
    this.folder = folder;
  }

  /**
   * The copy, under the recording's own name; made unless it is there. Throws {@link
   * Trouble.WrongUsage} where it cannot be made.
   */
  Path of(Recording recording) {
    String hash = recording.contentHash();
    Path own = folder.resolve(hash.substring(0, Math.min(TOLD_APART_BY, hash.length())));
    Path copy = own.resolve(BringingIn.plainName(recording.path().getFileName().toString()));
    if (Files.exists(copy)) {
      return copy;
    }
    try {
      Files.createDirectories(own);
      // A copy that was cut short must never pass for the recording.
      Path partial = Files.createTempFile(own, "in-", ".partial");
      try {
        Files.copy(recording.path(), partial, StandardCopyOption.REPLACE_EXISTING);
        return Files.move(partial, copy, StandardCopyOption.ATOMIC_MOVE);
      } finally {
        Files.deleteIfExists(partial);
      }
    } catch (IOException refused) {
      throw new Trouble.WrongUsage(
          "%s cannot be copied to %s (%s); maybe the disk is full."
              .formatted(recording.path(), copy, refused.getMessage()));
    }
  }
}
