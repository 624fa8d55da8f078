package undersong.feature.ear;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import undersong.feature.EarActivations;
import undersong.feature.EarHead;
import undersong.feature.EarSpectra;
import undersong.feature.EarSpectraSink;
import undersong.feature.FrameMatrix;

/**
 * One recording being heard. The first stage runs on stretches of ten seconds and a little around
 * them as their spectra arrive. What it makes for the second stage is collected; once a block of
 * four stretches has been seen, and as far ahead as the second stage looks, that block is thought
 * about and its lines are followed. So every frame is answered as if the whole recording had been
 * heard at once, and memory stays the same however long it is: some eight stretches.
 */
public final class Hearing implements EarSpectraSink {
  static final int STRETCH_FRAMES = 500;
  static final int BLOCK_FRAMES = 4 * STRETCH_FRAMES;

  /** The first stage sees 5 frames to either side, the third one more. */
  private static final int MARGIN_FRAMES = 8;

  private final ListeningModel model;
  private final Map<EarHead, HeadCollector> collectors = new EnumMap<>(EarHead.class);
  private final SpectraWindow window =
      new SpectraWindow(STRETCH_FRAMES + 2 * MARGIN_FRAMES, MARGIN_FRAMES);
  private final JoinedFrames joined = new JoinedFrames();
  private final Deque<Looked> looked = new ArrayDeque<>();
  private final Optional<PlayersHearing> players;
  private int thought;

  public Hearing(ListeningModel model) {
    this.model = model;
    for (EarHead head : EarHead.values()) {
      if (!EarHead.PLAYERS.contains(head)) {
        collectors.put(head, new HeadCollector(head, model.temperature(head)));
      }
    }
    players =
        model.hears(EarHead.VOICE_ONSET)
            ? Optional.of(new PlayersHearing(model))
            : Optional.empty();
  }

  @Override
  public void accept(EarSpectra chunk) {
    int taken = 0;
    while (taken < chunk.frames()) {
      taken += window.fill(chunk, taken);
      if (window.full()) {
        look(STRETCH_FRAMES);
        window.slide(STRETCH_FRAMES);
        if (joined.end() >= thought + BLOCK_FRAMES + model.thinkReachFrames()) {
          think(thought + BLOCK_FRAMES);
        }
      }
    }
  }

  /** Hears what is left and gives everything that was heard. Call once, after the last chunk. */
  public EarActivations finish() {
    int end = window.end();
    while (joined.end() < end) {
      int count = Math.min(STRETCH_FRAMES, end - joined.end());
      look(count);
      window.slide(count);
    }
    while (thought < end) {
      think(Math.min(end, thought + BLOCK_FRAMES));
    }
    Map<String, FrameMatrix> heads = new LinkedHashMap<>();
    collectors.forEach((head, collector) -> heads.put(head.output(), collector.finish()));
    players.ifPresent(p -> p.finish().forEach((head, heard) -> heads.put(head.output(), heard)));
    return new EarActivations(model.version(), heads);
  }

  /** Looks at the window and takes over the {@code count} frames that come next. */
  private void look(int count) {
    Looked stretch = model.look(window.spectra());
    looked.add(stretch);
    int from = joined.end() - stretch.firstFrame();
    joined.append(stretch.joined(), from, count, stretch.frames());
  }

  /** Thinks about the frames up to {@code end} and follows their lines, stretch by stretch. */
  private void think(int end) {
    int from = Math.max(0, thought - model.thinkReachFrames());
    int to = Math.min(joined.end(), end + model.thinkReachFrames());
    Thought block = model.think(joined.channels(from, to), to - from);
    collect(block.logits(), thought - from, end - from);
    while (thought < end) {
      try (Looked stretch = looked.remove()) {
        int first = stretch.firstFrame();
        int last = first + stretch.frames();
        int count = Math.min(STRETCH_FRAMES, end - thought);
        Thought about = block.contextOf(first - from, last - from);
        collect(model.follow(stretch, about), thought - first, thought - first + count);
        if (players.isPresent()) {
          players
              .get()
              .accept(
                  stretch.planeValues(), about.context(), about.frames(), thought - first, count);
        }
        thought += count;
      }
    }
    joined.forget(thought - model.thinkReachFrames());
  }

  private void collect(Map<EarHead, float[]> logits, int begin, int end) {
    logits.forEach((head, values) -> collectors.get(head).add(values, begin, end));
  }
}
