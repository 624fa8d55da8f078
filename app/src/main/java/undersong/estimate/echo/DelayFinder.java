package undersong.estimate.echo;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
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

  /** Of what a scan found, notes that are this much softer after the lag show its levels. */
  private static final double LEAST_GAIN = 0.1;

  private static final double MOST_GAIN = 0.9;
  private static final int MOST_SHOWN = 40;

  /** What a scan must say of a stretch to be as likely true as not, and how fast that grows. */
  private static final double EVEN_EVIDENCE = 6;

  private static final double EVIDENCE_WIDTH = 3;

  private final DelayEchoes maker;
  private final FrameMatrix wave;
  private final double rateHz;
  private final int reach;
  private final CopySearch search;
  private final Map<NoteEvent, NoteCopies> known = new HashMap<>();

  DelayFinder(StereoImage image, StereoPowers powers) {
    this.maker = new DelayEchoes(powers);
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
      sources.add(new Source(note, copies(note)));
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
    for (NoteValue note : DelayLags.values()) {
      int lag = (int) Math.round(DelayLags.seconds(grid, signature, note) * rateHz);
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
          Map<NoteEvent, NoteCopies.Levels> levels = new LinkedHashMap<>();
          here.forEach(copied -> levels.put(copied.note, copied.levels));
          double start = here.get(0).note.span().startSeconds();
          double end = here.get(here.size() - 1).note.span().endSeconds();
          echoes.add(
              maker.echo(
                  new DelayEchoes.Delay(median, Math.sqrt(squares), lag.value, probability),
                  levels,
                  new Span(start, end),
                  durationSeconds));
        }
        first = i;
      }
    }
    return echoes;
  }

  /**
   * What a scan of the mix found, with levels of those notes that come back softer.
   *
   * @param notes of the lead and of lines
   */
  Echo told(DelayScan.Found found, List<NoteEvent> notes, double durationSeconds) {
    List<NoteEvent> here =
        notes.stream()
            .filter(n -> n.span().startSeconds() >= found.startSeconds())
            .filter(n -> n.span().startSeconds() < found.endSeconds())
            .toList();
    Map<NoteEvent, NoteCopies.Levels> levels = new LinkedHashMap<>();
    int step = 1 + here.size() / MOST_SHOWN;
    for (int i = 0; i < here.size(); i += step) {
      NoteCopies.Levels levelsOf = copies(here.get(i)).levels();
      double gain = levelsOf.gainAfter(found.lagSeconds());
      if (gain >= LEAST_GAIN && gain <= MOST_GAIN) {
        levels.put(here.get(i), levelsOf);
      }
    }
    double probability =
        Math.min(0.95, 1 / (1 + Math.exp(-(found.evidence() - EVEN_EVIDENCE) / EVIDENCE_WIDTH)));
    return maker.echo(
        new DelayEchoes.Delay(found.lagSeconds(), 0, Optional.of(found.value()), probability),
        levels,
        new Span(found.startSeconds(), Math.min(durationSeconds, found.endSeconds())),
        durationSeconds);
  }

  private NoteCopies copies(NoteEvent note) {
    int longest = (int) (LONGEST_SECONDS * rateHz) + reach;
    return known.computeIfAbsent(note, n -> NoteCopies.of(n, wave, search, longest));
  }
}
