package undersong.study;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import undersong.work.Trouble;

/**
 * Whose word it is that is kept: the name that stands on corrections, verdicts, remarks and
 * lessons. Remembered on this machine for each shelf, not on the shelf itself.
 */
public final class Speaker {
  /** Where nobody said their name. */
  public static final String UNNAMED = "listener";

  private static final int LONGEST_NAME = 80;

  private final Path file;
  private Optional<String> name;

  Speaker(Path folder) {
    this.file = folder.resolve("speaker.txt");
    this.name = remembered(file);
  }

  /** Refuses what is no name; gives it without blanks around it. */
  public static String checked(String name) {
    String plain = name.strip();
    if (plain.isEmpty()
        || plain.length() > LONGEST_NAME
        || plain.chars().anyMatch(Character::isISOControl)) {
      throw new Trouble.WrongUsage(
          "Who speaks must be a name of 1 to %d letters on one line; this one has %d."
              .formatted(LONGEST_NAME, plain.length()));
    }
    return plain;
  }

  public synchronized String name() {
    return name.orElse(UNNAMED);
  }

  /** Whether somebody said who speaks. */
  public synchronized boolean isNamed() {
    return name.isPresent();
  }

  /** Speaks under this name until the program ends; what is remembered stays. */
  public synchronized void speakAs(String newName) {
    name = Optional.of(checked(newName));
  }

  /** Speaks under this name from now on, in later programs too. */
  public synchronized void remember(String newName) {
    speakAs(newName);
    try {
      Files.createDirectories(file.getParent());
      Files.writeString(file, name.get());
    } catch (IOException refused) {
      throw new Trouble.WrongUsage(
          "Your name cannot be remembered in %s: %s. Maybe the folder is read-only."
              .formatted(file, refused));
    }
  }

  private static Optional<String> remembered(Path file) {
    try {
      return Files.exists(file) ? Optional.of(checked(Files.readString(file))) : Optional.empty();
    } catch (IOException | Trouble.WrongUsage unreadable) {
      return Optional.empty();
    }
  }
}
