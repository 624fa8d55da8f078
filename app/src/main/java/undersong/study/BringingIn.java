package undersong.study;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.InstantSource;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.function.Consumer;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import undersong.shelf.Arrival;
import undersong.shelf.Arrival.State;
import undersong.shelf.Shelf;
import undersong.shelf.ShelfEntry;
import undersong.shelf.Song;
import undersong.work.Cancellation;
import undersong.work.Trouble;

/**
 * Recordings handed over one after the other: each is copied into a folder of ours, waits its turn,
 * and is studied. What was copied outlives a killed program; the next one begins it again.
 *
 * <p>Only one program at a time goes on with what others left, so that nothing is studied twice.
 */
public final class BringingIn implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(BringingIn.class);
  private static final int LONGEST_NAME = 120;

  /** A recording that ends the program each time must not do so forever. */
  private static final String BEGUN_AGAIN = "begun again";

  private final Study study;
  private final Shelf shelf;
  private final Path folder;
  private final InstantSource clock;
  private final Consumer<Step> listener;
  private final BlockingQueue<Long> queue = new LinkedBlockingQueue<>();
  private final Map<Long, Cancellation> cancellations = new ConcurrentHashMap<>();
  private final Map<Long, Step> running = new ConcurrentHashMap<>();
  private final Thread worker;
  private final Optional<FileChannel> leftovers;
  private volatile boolean closed;

  /**
   * One arrival, and how far it has come.
   *
   * @param stage in words; empty unless it is being worked on
   * @param share 0 to 1 of this stage
   */
  public record Step(Arrival arrival, String stage, double share) {}

  /**
   * @param folder for the copies; made if absent
   * @param listener told of every step, from the working thread; must return fast
   */
  BringingIn(Study study, Shelf shelf, Path folder, InstantSource clock, Consumer<Step> listener) {
    this.study = study;
    this.shelf = shelf;
    this.folder = folder;
    this.clock = clock;
    this.listener = listener;
    this.leftovers = claimLeftovers();
    if (leftovers.isPresent()) {
      takeUpLeftovers();
    }
    this.worker = new Thread(this::work, "bringing-in");
    worker.setDaemon(true);
    worker.start();
  }

  /**
   * Takes a copy of a recording and puts it in the queue. Whether it can be read at all shows when
   * its turn comes.
   *
   * @param name as the file was called; only its last part is used
   */
  public Step receive(String name, InputStream bytes) {
    String plain = plainName(name);
    try {
      Files.createDirectories(folder);
      Path own = Files.createTempDirectory(folder, "in-");
      Path partial = own.resolve("partial");
      try {
        try (var out = Files.newOutputStream(partial)) {
          bytes.transferTo(out);
        }
        Path file = Files.move(partial, own.resolve(plain));
        Arrival arrival = shelf.arrivals().add(plain, file, clock.instant());
        queue.add(arrival.id());
        return told(new Step(arrival, "", 0));
      } catch (IOException | RuntimeException broken) {
        delete(own);
        throw broken;
      }
    } catch (IOException broken) {
      throw new UncheckedIOException(
          "%s could not be copied to %s; maybe the disk is full or the sender went away."
              .formatted(plain, folder),
          broken);
    }
  }

  /** Everything that waits, runs, or has ended and was not taken off the list; oldest first. */
  public List<Step> list() {
    return shelf.arrivals().list().stream()
        .map(arrival -> running.getOrDefault(arrival.id(), new Step(arrival, "", 0)))
        .toList();
  }

  /** Stops what waits or runs; takes what has ended off the list. */
  public void cancel(long id) {
    Arrival arrival =
        shelf
            .arrivals()
            .find(id)
            .orElseThrow(
                () ->
                    new Trouble.NotOnShelf(
                        "Nothing that is brought in has the number %d.".formatted(id)));
    if (arrival.state().ended()) {
      shelf.arrivals().forget(id);
      return;
    }
    Cancellation cancellation = cancellations.get(id);
    if (cancellation != null) {
      cancellation.cancel();
    } else {
      end(arrival, State.CANCELLED, OptionalLong.empty(), "");
    }
  }

  private void work() {
    while (!closed) {
      try {
        long id = queue.take();
        shelf
            .arrivals()
            .find(id)
            .filter(arrival -> arrival.state() == State.WAITING)
            .ifPresent(this::study);
      } catch (InterruptedException told) {
        return;
      } catch (RuntimeException failure) {
        LOG.error("Bringing in stumbled and goes on with the next", failure);
      }
    }
  }

  private void study(Arrival arrival) {
    Cancellation cancellation = new Cancellation();
    cancellations.put(arrival.id(), cancellation);
    try {
      Arrival working = mark(arrival, State.WORKING, OptionalLong.empty(), arrival.message());
      Map<Long, Path> before =
          study.songs("").stream()
              .map(ShelfEntry::song)
              .collect(Collectors.toMap(Song::id, Song::path));
      Studied studied =
          study.study(
              arrival.path(),
              Song.Words.NONE,
              (stage, share) -> {
                Step step = new Step(working, stage, share);
                running.put(arrival.id(), step);
                told(step);
              },
              cancellation);
      long song = studied.song().id();
      Path earlier = before.get(song);
      if (earlier != null && earlier.startsWith(folder) && !earlier.equals(arrival.path())) {
        delete(earlier.getParent());
      }
      end(arrival, State.DONE, OptionalLong.of(song), "");
    } catch (Trouble.Cancelled stopped) {
      if (!closed) {
        end(arrival, State.CANCELLED, OptionalLong.empty(), "");
      }
    } catch (Trouble refused) {
      end(arrival, State.FAILED, OptionalLong.empty(), words(refused, arrival));
    } catch (RuntimeException bug) {
      LOG.error("{} could not be studied", arrival.path(), bug);
      end(
          arrival,
          State.FAILED,
          OptionalLong.empty(),
          "Something failed inside; this is a mistake in the program.");
    } finally {
      cancellations.remove(arrival.id());
      running.remove(arrival.id());
    }
  }

  /** Our copy's place says nothing to whoever handed it over. */
  private static String words(Trouble refused, Arrival arrival) {
    return String.valueOf(refused.getMessage())
        .replace(arrival.path().toAbsolutePath().toString(), arrival.name())
        .replace(arrival.path().toString(), arrival.name());
  }

  private void end(Arrival arrival, State state, OptionalLong song, String message) {
    running.remove(arrival.id());
    Arrival ended = mark(arrival, state, song, message);
    if (state != State.DONE) {
      delete(arrival.path().getParent());
    }
    told(new Step(ended, "", 0));
  }

  private Arrival mark(Arrival arrival, State state, OptionalLong song, String message) {
    shelf.arrivals().mark(arrival.id(), state, song, message);
    return new Arrival(arrival.id(), arrival.name(), arrival.path(), state, song, message);
  }

  private Step told(Step step) {
    listener.accept(step);
    return step;
  }

  private Optional<FileChannel> claimLeftovers() {
    try {
      Files.createDirectories(folder);
      FileChannel channel =
          FileChannel.open(
              folder.resolve("in.lock"), StandardOpenOption.CREATE, StandardOpenOption.WRITE);
      FileLock lock = tryLock(channel);
      if (lock == null) {
        channel.close();
        return Optional.empty();
      }
      return Optional.of(channel);
    } catch (IOException refused) {
      LOG.warn("Recordings cannot be brought in: {} cannot be written", folder, refused);
      return Optional.empty();
    }
  }

  private static FileLock tryLock(FileChannel channel) throws IOException {
    try {
      return channel.tryLock();
    } catch (OverlappingFileLockException ownedInThisProgram) {
      return null;
    }
  }

  private void takeUpLeftovers() {
    for (Arrival arrival : shelf.arrivals().list()) {
      if (arrival.state() == State.WORKING && arrival.message().equals(BEGUN_AGAIN)) {
        end(
            arrival,
            State.FAILED,
            OptionalLong.empty(),
            "The program ended twice while it worked on %s. Maybe the file is broken in a way it cannot survive, or memory ran out."
                .formatted(arrival.name()));
      } else if (!arrival.state().ended()) {
        String note = arrival.state() == State.WORKING ? BEGUN_AGAIN : "";
        mark(arrival, State.WAITING, OptionalLong.empty(), note);
        queue.add(arrival.id());
      }
    }
    List<Path> known = shelf.arrivals().list().stream().map(a -> a.path().getParent()).toList();
    List<Path> songs =
        study.songs("").stream().map(entry -> entry.song().path().getParent()).toList();
    try (Stream<Path> copies = Files.list(folder)) {
      copies
          .filter(Files::isDirectory)
          .filter(copy -> !known.contains(copy) && !songs.contains(copy.toAbsolutePath()))
          .forEach(BringingIn::delete);
    } catch (IOException refused) {
      LOG.warn("What was copied halfway stays in {}", folder, refused);
    }
  }

  /** The last part of a name, with nothing in it that a file system could take otherwise. */
  static String plainName(String name) {
    String last = name.substring(Math.max(name.lastIndexOf('/'), name.lastIndexOf('\\')) + 1);
    String plain = last.replaceAll("[^\\p{L}\\p{N} ._()&'+,!-]", "_").strip();
    plain = plain.replaceAll("^\\.+", "");
    if (plain.length() > LONGEST_NAME) {
      plain = plain.substring(plain.length() - LONGEST_NAME).strip();
    }
    return plain.isEmpty() || plain.equals("partial") ? "recording" : plain;
  }

  private static void delete(Path copy) {
    try (Stream<Path> files = Files.list(copy)) {
      for (Path file : files.toList()) {
        Files.deleteIfExists(file);
      }
      Files.deleteIfExists(copy);
    } catch (IOException refused) {
      LOG.warn("The copy in {} could not be deleted: {}", copy, refused.toString());
    }
  }

  @Override
  public void close() {
    closed = true;
    cancellations.values().forEach(Cancellation::cancel);
    worker.interrupt();
    try {
      worker.join(10_000);
      if (leftovers.isPresent()) {
        leftovers.get().close();
      }
    } catch (InterruptedException told) {
      Thread.currentThread().interrupt();
    } catch (IOException refused) {
      LOG.warn("The lock on {} could not be let go: {}", folder, refused.toString());
    }
  }
}
