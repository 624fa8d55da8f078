package undersong.work;

/**
 * Failures that a person can do something about. Each message gives the name, the value, the rule
 * and a likely cause; faces translate them (exit codes, HTTP states). Bugs stay ordinary
 * exceptions.
 */
public abstract sealed class Trouble extends RuntimeException {
  private Trouble(String message, Throwable cause) {
    super(message, cause);
  }

  /** The file is broken, empty, silent, encrypted, or holds no sound. */
  public static final class UnreadableRecording extends Trouble {
    public UnreadableRecording(String message) {
      super(message, null);
    }

    public UnreadableRecording(String message, Throwable cause) {
      super(message, cause);
    }
  }

  /** No such song on this shelf. */
  public static final class NotOnShelf extends Trouble {
    public NotOnShelf(String message) {
      super(message, null);
    }
  }

  /** The words or values given make no sense here. */
  public static final class WrongUsage extends Trouble {
    public WrongUsage(String message) {
      super(message, null);
    }
  }

  /** What was said referred to a reading that has changed since. */
  public static final class MovedOn extends Trouble {
    private final int revision;

    public MovedOn(String message, int revision) {
      super(message, null);
      this.revision = revision;
    }

    /** Where the song stands now. */
    public int revision() {
      return revision;
    }
  }

  /** Somebody asked the work to stop. */
  public static final class Cancelled extends Trouble {
    public Cancelled() {
      super("Stopped on request; nothing was stored.", null);
    }
  }
}
