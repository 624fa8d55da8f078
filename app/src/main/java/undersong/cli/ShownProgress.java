package undersong.cli;

import java.io.PrintWriter;
import me.tongfei.progressbar.ProgressBar;
import me.tongfei.progressbar.ProgressBarBuilder;
import me.tongfei.progressbar.ProgressBarStyle;
import undersong.work.Progress;

/** Shows progress: a bar on a terminal, one plain line for each stage elsewhere. */
abstract class ShownProgress implements Progress, AutoCloseable {
  private ShownProgress() {}

  /**
   * @param name of what is worked on, shown in front
   */
  @SuppressWarnings("SystemConsoleNull") // isTerminal asks what newer versions answer
  static ShownProgress of(String name, PrintWriter err) {
    return System.console() != null && isTerminal() ? new Bar(name) : new Lines(name, err);
  }

  @Override
  public abstract void close();

  /** From Java 22 on a console is there even when nobody sees it; it then says so itself. */
  private static boolean isTerminal() {
    try {
      Object answer = java.io.Console.class.getMethod("isTerminal").invoke(System.console());
      return Boolean.TRUE.equals(answer);
    } catch (NoSuchMethodException olderJava) {
      return true;
    } catch (ReflectiveOperationException refused) {
      return false;
    }
  }

  private static final class Bar extends ShownProgress {
    private static final int STEPS = 1000;
    private final ProgressBar bar;
    private String stage = "";

    Bar(String name) {
      bar =
          new ProgressBarBuilder()
              .setTaskName(name)
              .setInitialMax(STEPS)
              .setStyle(ProgressBarStyle.ASCII)
              .hideEta()
              .build();
    }

    @Override
    public synchronized void at(String newStage, double share) {
      if (!newStage.equals(stage)) {
        stage = newStage;
        bar.setExtraMessage(" " + stage);
      }
      bar.stepTo(Math.round(STEPS * Math.max(0, Math.min(1, share))));
    }

    @Override
    public void close() {
      bar.close();
    }
  }

  private static final class Lines extends ShownProgress {
    private final String name;
    private final PrintWriter err;
    private String stage = "";

    Lines(String name, PrintWriter err) {
      this.name = name;
      this.err = err;
    }

    @Override
    public synchronized void at(String newStage, double share) {
      if (!newStage.equals(stage)) {
        stage = newStage;
        err.println(name + ": " + stage);
        err.flush();
      }
    }

    @Override
    public void close() {}
  }
}
