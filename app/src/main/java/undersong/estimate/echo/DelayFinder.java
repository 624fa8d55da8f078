package undersong.estimate.echo;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.DoubleStream;
import undersong.feature.FrameMatrix;
import undersong.feature.StereoImage;
import undersong.feature.StereoPowers;
import undersong.kernel.CopySearch;
import undersong.reading.Echo;
import undersong.reading.NoteEvent;
import undersong.reading.NoteValue;
import undersong.reading.TimeSignature;
import undersong.time.BeatGrid;
import undersong.time.Span;

/**
 * True delays on the lead or a line: the notes of one machine's input all come back after the same
 * time, to the millisecond. Each note votes for lags by its {@link NoteCopies}; a lag holds where
 * its votes stand out among those of the lags about it, which chance alone gives.
 *
 * <p>Lags from 0.15 to 1.15 s. Delays are mostly set to a note value: other lags must stand out
 * more. Notes that are played again at the lag itself, as loud, say nothing. <b>Cost:</b> some 3 ms
 * a note, once.
 */
final class DelayFinder {
  private static final double SHORTEST_SECONDS = 0.15;
  private static final double LONGEST_SECONDS = 1.15;
  private static final double REACH_SECONDS = 0.0012;
  private static final float LEAST_SCORE = 0.15f;
  private static final double CHANCE_FROM_SECONDS = 0.012;
  private static final double CHANCE_TO_SECONDS = 0.08;
  private static final double CHANCE_STEP_SECONDS = 0.004;
  private static final double CHANCE_WEIGHT = 1.5;

  /** Limits were found on 86 copies of songs for setting thresholds. */
  private static final double LEAST_EXCESS = 0.39;

  private static final double LEAST_RATIO = 3.5;
  private static final double LEAST_EXCESS_ELSEWHERE = 0.9;
  private static final double LEAST_RATIO_ELSEWHERE = 5.5;
  private static final double CLEARLY = 1.5;

  /** Votes that nothing beside the note explains need less of an excess. */
  private static final double ALONE_SHARE = 0.85;

  private static final int FEWEST_NOTES = 3;

  /** So many notes that stand out so far need not return alone. */
  private static final int MANY_NOTES = 6;

  private static final double CLEAR_RATIO = 6;
  private static final double CLEAR_EXCESS = 0.8;
  private static final float LEAST_OF_STRETCH = 0.2f;
  private static final int LAGS_BETWEEN = 3;
  private static final int MOST_REPEATS = 6;
  private static final double FAINT = 0.05;

  /** Note values that delays are set to, in whole notes. */
  private static final int[][] VALUES = {
    {1, 16}, {1, 12}, {1, 8}, {3, 16}, {1, 6}, {1, 4}, {3, 8}, {1, 3}, {1, 2}
  };

  private final StereoPowers powers;
  private final FrameMatrix wave;
  private final double rateHz;
  private final int reach;
  private final CopySearch search;
  private final Map<NoteEvent, NoteCopies> known = new HashMap<>();

  DelayFinder(StereoImage image, StereoPowers powers) {
    this.powers = powers;
    this.wave = image.lowWave();
    this.rateHz = StereoImage.WAVE_CLOCK.framesPerSecond();
    this.reach = (int) Math.round(REACH_SECONDS * rateHz);
    this.search = new CopySearch(rateHz);
  }

  /** One note with what returns of it. */
  private record Source(NoteEvent note, NoteCopies copies) {}

  /** A note that comes back after the lag that holds: how well, and at which levels. */
  private record Copied(NoteEvent note, float score, NoteCopies.Levels levels) {}

  /** A lag that may hold, and by how much its votes exceed chance. */
  private record Lag(int samples, Optional<NoteValue> value, double excess) {
    double leastExcess() {
      return value.isPresent() ? LEAST_EXCESS : LEAST_EXCESS_ELSEWHERE;
    }
  }

  /** Forgets what it measured of other notes. */
  void keepOnly(Collection<NoteEvent> notes) {
    known.keySet().retainAll(Set.copyOf(notes));
  }

  /**
   * @param part notes that one machine may have been given
   */
  List<Echo> of(
      List<NoteEvent> part, BeatGrid grid, TimeSignature signature, double durationSeconds) {
    int longest = (int) (LONGEST_SECONDS * rateHz) + reach;
    List<Source> sources = new ArrayList<>();
    for (NoteEvent note : part) {
      sources.add(
          new Source(
              note, known.computeIfAbsent(note, n -> NoteCopies.of(n, wave, search, longest))));
    }
    double[] votes = votes(sources, longest);
    for (Lag lag : candidates(votes, grid, signature)) {
      List<Copied> agreeing = new ArrayList<>();
      double alone = 0;
      double later = 0;
      for (Source source : sources) {
        float score = source.copies.scoreAbout(lag.samples, reach);
        double seconds = lag.samples / rateHz;
        if (score > LEAST_SCORE) {
          agreeing.add(new Copied(source.note, score, source.copies.levels()));
          if (source.copies.returnsLater(seconds)) {
            later += score - LEAST_SCORE;
            alone += source.copies.returnsAlone(seconds) ? score - LEAST_SCORE : 0;
          }
        }
      }
      double all = votes[lag.samples];
      double chance = all - lag.excess;
      boolean clear =
          agreeing.size() >= MANY_NOTES
              && all >= CLEAR_RATIO / CHANCE_WEIGHT * chance
              && later - chance >= CLEAR_EXCESS;
      double excess = clear ? later - chance : alone - chance;
      if (agreeing.size() >= FEWEST_NOTES && excess >= ALONE_SHARE * lag.leastExcess()) {
        return told(agreeing, new Lag(lag.samples, lag.value, excess), durationSeconds);
      }
    }
    return List.of();
  }

  /** Sum over the notes of their scores at each lag, as far as they exceed what is usual. */
  private double[] votes(List<Source> sources, int longest) {
    double[] votes = new double[longest];
    for (Source source : sources) {
      for (int lag : source.copies.lags()) {
        if (source.copies.score(lag) > LEAST_SCORE) {
          // each vote counts once for every lag it is near to, by the best one there
          for (int i = Math.max(0, lag - reach); i <= Math.min(longest - 1, lag + reach); i++) {
            boolean best = source.copies.scoreAbout(i, reach) == source.copies.score(lag);
            votes[i] += best ? source.copies.score(lag) - LEAST_SCORE : 0;
          }
        }
      }
    }
    return votes;
  }

  /** Lags whose votes stand out, the likeliest first. */
  private List<Lag> candidates(double[] votes, BeatGrid grid, TimeSignature signature) {
    List<Lag> lags = new ArrayList<>();
    for (int[] value : VALUES) {
      NoteValue note = new NoteValue(value[0], value[1]);
      int lag = (int) Math.round(seconds(grid, signature, note) * rateHz);
      double chance = chance(votes, lag);
      if (inside(lag)
          && votes[lag] >= LEAST_RATIO * chance
          && votes[lag] - CHANCE_WEIGHT * chance >= LEAST_EXCESS) {
        lags.add(new Lag(lag, Optional.of(note), votes[lag] - CHANCE_WEIGHT * chance));
      }
    }
    lags.sort(Comparator.comparingDouble(Lag::excess).reversed());
    Lag elsewhere = elsewhere(votes);
    if (elsewhere != null && (lags.isEmpty() || elsewhere.excess > CLEARLY * lags.get(0).excess)) {
      lags.add(0, elsewhere);
    }
    return lags;
  }

  /** The lag that stands out most wherever it lies; null where none does enough. */
  private Lag elsewhere(double[] votes) {
    Lag best = null;
    for (int lag = 0; lag < votes.length; lag++) {
      if (inside(lag) && (best == null || votes[lag] > best.excess)) {
        double chance = chance(votes, lag);
        double excess = votes[lag] - CHANCE_WEIGHT * chance;
        if (excess >= LEAST_EXCESS_ELSEWHERE
            && votes[lag] >= LEAST_RATIO_ELSEWHERE * chance
            && (best == null || excess > best.excess)) {
          best = new Lag(lag, Optional.empty(), excess);
        }
      }
    }
    return best;
  }

  private boolean inside(int lag) {
    return lag >= SHORTEST_SECONDS * rateHz && lag < LONGEST_SECONDS * rateHz;
  }

  /** Mean of the votes at lags some way off to both sides. */
  private double chance(double[] votes, int lag) {
    double sum = 0;
    int count = 0;
    for (double away = CHANCE_FROM_SECONDS;
        away <= CHANCE_TO_SECONDS;
        away += CHANCE_STEP_SECONDS) {
      for (int side = -1; side <= 1; side += 2) {
        int at = lag + side * (int) Math.round(away * rateHz);
        if (at > SHORTEST_SECONDS * rateHz && at < votes.length) {
          sum += votes[at];
          count++;
        }
      }
    }
    return count == 0 ? 0 : sum / count;
  }

  private List<Echo> told(List<Copied> agreeing, Lag lag, double durationSeconds) {
    double[] lags =
        agreeing.stream().mapToDouble(s -> s.levels.refinedSeconds(lag.samples, reach)).toArray();
    double[] sorted = lags.clone();
    Arrays.sort(sorted);
    double median = sorted[sorted.length / 2];
    double squares = 0;
    for (double each : lags) {
      squares += (each - median) * (each - median) / lags.length;
    }
    double probability = Math.min(0.95, 1 / (1 + Math.exp(-(lag.excess - LEAST_EXCESS) / 0.15)));
    List<Echo> echoes = new ArrayList<>();
    int first = 0;
    for (int i = 1; i <= agreeing.size(); i++) {
      if (i == agreeing.size()
          || agreeing.get(i).note.span().startSeconds()
              > agreeing.get(i - 1).note.span().endSeconds() + LAGS_BETWEEN * median) {
        List<Copied> here = agreeing.subList(first, i);
        if (here.stream().mapToDouble(Copied::score).sum() >= LEAST_OF_STRETCH) {
          echoes.add(
              stretch(here, median, Math.sqrt(squares), lag.value, probability, durationSeconds));
        }
        first = i;
      }
    }
    return echoes;
  }

  private Echo stretch(
      List<Copied> sources,
      double lag,
      double wander,
      Optional<NoteValue> value,
      double probability,
      double durationSeconds) {
    List<Echo.Repeat> repeats = new ArrayList<>();
    double before = 1;
    for (int i = 1; i <= MOST_REPEATS; i++) {
      int copy = i;
      double gain = median(sources.stream().mapToDouble(s -> s.levels.gainAfter(copy * lag)));
      if (gain < FAINT || gain > before) {
        break;
      }
      double place = median(sources.stream().mapToDouble(s -> place(s.note, copy * lag)));
      repeats.add(new Echo.Repeat(rounded(20 * Math.log10(gain)), rounded(place), 0));
      before = gain;
    }
    double end =
        sources.get(sources.size() - 1).note.span().endSeconds()
            + Math.max(1, repeats.size()) * lag;
    return new Echo(
        Echo.Kind.DELAY,
        new Span(sources.get(0).note.span().startSeconds(), Math.min(durationSeconds, end)),
        rounded(lag),
        rounded(wander),
        0,
        value,
        rounded(median(sources.stream().mapToDouble(s -> place(s.note, 0)))),
        repeats,
        probability);
  }

  private static double median(DoubleStream values) {
    double[] sorted = values.sorted().toArray();
    return sorted[sorted.length / 2];
  }

  /** Constant-power place of what the note's partials add some time after its onset. */
  private double place(NoteEvent note, double after) {
    double hertz = 440 * Math.pow(2, (note.midiPitch() - 69) / 12);
    int frame = StereoImage.CLOCK.frameAt(note.span().startSeconds() + after);
    double left = 0;
    double right = 0;
    for (int partial = 1; partial <= 6 && frame >= 2 && frame + 1 < powers.frames(); partial++) {
      int bin = StereoImage.binOf(partial * hertz);
      left += Math.max(0, powers.left(frame + 1, bin) - powers.left(frame - 2, bin));
      right += Math.max(0, powers.right(frame + 1, bin) - powers.right(frame - 2, bin));
    }
    return left + right > 0 ? StereoPowers.place(left, right) : 0;
  }

  /**
   * Length of a note value at the song's usual tempo, 0 where there is none: mean of the middle
   * three fifths of the beats, since those before the first and after the last sound are guessed.
   */
  private static double seconds(BeatGrid grid, TimeSignature signature, NoteValue value) {
    double beats = value.wholeNotes() / (signature.compound() ? 3.0 / 8 : 1.0 / 4);
    double[] lengths = new double[Math.max(0, grid.size() - 1)];
    for (int i = 0; i < lengths.length; i++) {
      lengths[i] = grid.secondsAt(i + 1) - grid.secondsAt(i);
    }
    Arrays.sort(lengths);
    int cut = lengths.length / 5;
    return beats * Arrays.stream(lengths, cut, lengths.length - cut).average().orElse(0);
  }

  private static double rounded(double value) {
    return Math.round(1e4 * value) / 1e4;
  }
}
