package undersong.work;

import java.util.concurrent.atomic.AtomicBoolean;

/** A wish to stop that long work looks at between blocks. */
public final class Cancellation {
  private final AtomicBoolean wished = new AtomicBoolean();

  public void cancel() {
    wished.set(true);
  }

  /** Throws {@link Trouble.Cancelled} once somebody has called {@link #cancel}. */
  public void check() {
    if (wished.get()) {
      throw new Trouble.Cancelled();
    }
  }
}
