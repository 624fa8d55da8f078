package undersong.desk;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.PosixFilePermissions;
import java.security.MessageDigest;
import java.security.SecureRandom;
import java.util.HexFormat;
import undersong.work.Trouble;

/**
 * The word that a writer must know. Kept in a file that only its owner may read, so that scripts
 * can find it and windows that were open stay good when the server starts again.
 */
final class Token {
  private static final int BYTES = 24;

  private final String text;

  private Token(String text) {
    this.text = text;
  }

  /** The token kept in this folder; a new one where there is none. */
  static Token in(Path folder) {
    Path file = folder.resolve("desk.token");
    try {
      if (Files.isRegularFile(file)) {
        String kept = Files.readString(file).strip();
        if (kept.length() == 2 * BYTES) {
          return new Token(kept);
        }
      }
      Files.createDirectories(folder);
      byte[] random = new byte[BYTES];
      new SecureRandom().nextBytes(random);
      String text = HexFormat.of().formatHex(random);
      Path partial = Files.createTempFile(folder, "desk", ".partial");
      if (Files.getFileStore(partial).supportsFileAttributeView("posix")) {
        Files.setPosixFilePermissions(partial, PosixFilePermissions.fromString("rw-------"));
      }
      Files.writeString(partial, text);
      Files.move(partial, file, StandardCopyOption.REPLACE_EXISTING);
      return new Token(text);
    } catch (IOException refused) {
      throw new Trouble.WrongUsage(
          "The desk's token cannot be kept in %s (%s). Maybe the folder is read-only."
              .formatted(file, refused));
    }
  }

  String text() {
    return text;
  }

  /** Takes as long for a wrong word as for the right one. */
  boolean is(String word) {
    return MessageDigest.isEqual(
        text.getBytes(StandardCharsets.UTF_8), word.getBytes(StandardCharsets.UTF_8));
  }
}
