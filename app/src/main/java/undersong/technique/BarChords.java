package undersong.technique;

import java.util.Arrays;
import java.util.Optional;
import java.util.stream.IntStream;
import undersong.reading.Bar;
import undersong.reading.Facet;
import undersong.reading.Meter;
import undersong.reading.Reading;
import undersong.theory.ChordSymbol;
import undersong.time.Span;

/**
 * The chords bar by bar, to tell whether two sections are built on the same ones whatever the form
 * calls them. Each bar is asked a quarter and three quarters of its way through.
 */
public final class BarChords {
  private static final double[] PLACES = {0.25, 0.75};
  private static final int NO_CHORD = -1;

  private final Meter meter;
  private final int[][] tokens;

  private BarChords(Meter meter, int[][] tokens) {
    this.meter = meter;
    this.tokens = tokens;
  }

  /** Reads METER and CHORDS. */
  public static BarChords of(Reading reading) {
    Meter meter = reading.get(Facet.METER);
    int[][] tokens = new int[meter.bars().size()][PLACES.length];
    for (int bar = 0; bar < tokens.length; bar++) {
      for (int place = 0; place < PLACES.length; place++) {
        Span span = meter.bars().get(bar).span();
        double seconds = span.startSeconds() + PLACES[place] * span.lengthSeconds();
        tokens[bar][place] =
            reading
                .get(Facet.CHORDS)
                .chordAt(seconds)
                .map(chord -> token(chord.symbol()))
                .orElse(NO_CHORD);
      }
    }
    return new BarChords(meter, tokens);
  }

  /** Root and kind of third. */
  private static int token(ChordSymbol symbol) {
    if (!(symbol instanceof ChordSymbol.Chord chord)) {
      return NO_CHORD;
    }
    int third = chord.quality().hasMajorThird() ? 1 : chord.quality().hasMinorThird() ? 2 : 0;
    return 3 * chord.root().pitchClass() + third;
  }

  /**
   * Share of the shorter section's places at which both have the same chord, laid side by side from
   * their first bars; 0 where either has no bars.
   */
  public double likeness(SongSection one, SongSection other) {
    int first = index(one.section().firstBar());
    int second = index(other.section().firstBar());
    return likeness(first, second, Math.min(one.bars(), other.bars()));
  }

  /** The same for two stretches of so many bars, each given by the index of its first. */
  double likeness(int first, int second, int bars) {
    return likeness(first, second, bars, 0);
  }

  /**
   * Where before a section its chords sound so many semitones lower: how like the likest stretch of
   * as many bars is.
   */
  public double likenessBefore(SongSection section, int semitonesUp) {
    int second = index(section.section().firstBar());
    double best = 0;
    for (int first = 0; first + section.bars() <= second; first++) {
      best = Math.max(best, likeness(first, second, section.bars(), semitonesUp));
    }
    return best;
  }

  /**
   * The first of the likest stretches of {@link #likenessBefore}, from its first bar to its last.
   */
  public Optional<Span> likestBefore(SongSection section, int semitonesUp) {
    int second = index(section.section().firstBar());
    double best = likenessBefore(section, semitonesUp);
    for (int first = 0; first + section.bars() <= second; first++) {
      if (likeness(first, second, section.bars(), semitonesUp) == best) {
        return Optional.of(
            new Span(
                meter.bars().get(first).span().startSeconds(),
                meter.bars().get(first + section.bars() - 1).span().endSeconds()));
      }
    }
    return Optional.empty();
  }

  /** How many different chords a section has. */
  public int variety(SongSection section) {
    int first = index(section.section().firstBar());
    return (int)
        IntStream.range(first, Math.min(first + section.bars(), tokens.length))
            .flatMap(bar -> Arrays.stream(tokens[bar]))
            .filter(token -> token != NO_CHORD)
            .distinct()
            .count();
  }

  private static int up(int token, int semitones) {
    return token == NO_CHORD ? NO_CHORD : (token + 3 * semitones) % 36;
  }

  private double likeness(int first, int second, int bars, int semitonesUp) {
    int same = 0;
    int all = 0;
    for (int bar = 0; bar < bars; bar++) {
      for (int place = 0; place < PLACES.length; place++) {
        if (first + bar < tokens.length && second + bar < tokens.length) {
          int here = up(tokens[first + bar][place], semitonesUp);
          all++;
          same += here != NO_CHORD && here == tokens[second + bar][place] ? 1 : 0;
        }
      }
    }
    return all == 0 ? 0 : (double) same / all;
  }

  private int index(int barNumber) {
    Bar first = meter.bars().get(0);
    return Math.max(0, barNumber - first.number());
  }
}
