package undersong.cli;

import java.io.PrintWriter;
import undersong.work.Trouble;

/** Failures as words on standard error and as exit codes. */
final class Failures {
  static final int WRONG_USAGE = 2;
  static final int UNREADABLE = 3;
  static final int NOT_ON_SHELF = 4;
  static final int INSIDE = 5;

  private Failures() {}

  /** Says what went wrong and gives the exit code; a bug is told with its stack. */
  static int report(Exception failure, PrintWriter err) {
    if (failure instanceof Trouble) {
      err.println("undersong: " + failure.getMessage());
    } else {
      err.println("undersong: something failed inside; this is a mistake in the program:");
      failure.printStackTrace(err);
    }
    return code(failure);
  }

  private static int code(Exception failure) {
    if (failure instanceof Trouble.WrongUsage) {
      return WRONG_USAGE;
    } else if (failure instanceof Trouble.UnreadableRecording) {
      return UNREADABLE;
    } else if (failure instanceof Trouble.NotOnShelf) {
      return NOT_ON_SHELF;
    }
    return INSIDE;
  }
}
