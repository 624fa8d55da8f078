package undersong.estimate.line;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.OptionalDouble;
import undersong.estimate.LearnedCertainty;
import undersong.feature.Features;
import undersong.reading.Facet;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;
import undersong.time.BeatGrid;

/**
 * Tells the notes of lines that move by themselves from those of chords that are struck or held
 * together: by what begins with a note, how it stands to that in height and place, and whether
 * notes near it come alone or in chords. How high it lies as such is left out: music at large does
 * not hold its lines above its chords.
 *
 * <p>A logistic regression, fitted by {@code training/lines.py} on the rows of {@code
 * undersong.bench.decode.LineRows}. Cost: O(notes * notes within a beat).
 */
public final class MovingNotes {
  /**
   * What is weighed: log-odds of the note; the logarithm of how many begin with it and one; how far
   * it stands from them in place and lies above them in semitones; whether one lies an octave
   * below; how often its pitch began in the beat before; of the notes around it that lie within an
   * octave, the step from the nearest before, the chords' sizes before and after, and how much they
   * are alone and in its place, at best before and after and in all before.
   */
  public static final List<String> EVIDENCE =
      List.of(
          "sure",
          "together",
          "place-apart",
          "above",
          "octave-below",
          "same-before",
          "step",
          "chord-before",
          "chord-after",
          "alone-before",
          "alone-after",
          "all-alone-before");

  private static final String FACET = "line-notes";
  private static final double NEAR_BEATS = 1.1;
  private static final double SAME_PITCH = 0.5;
  private static final double OCTAVE = 12;
  private static final double UNKNOWN_PLACE = 0.5;
  private static final double USUAL_BEAT_SECONDS = 0.5;

  private final LearnedCertainty weights = LearnedCertainty.of(FACET, EVIDENCE);
  private final List<HeardNote> notes;
  private final double nearSeconds;
  private final double togetherSeconds;
  private final int[] company;

  /**
   * @param notes by start
   */
  MovingNotes(List<HeardNote> notes, BeatGrid grid, LineSettings settings) {
    this.notes = notes;
    this.nearSeconds = NEAR_BEATS * (grid.isEmpty() ? USUAL_BEAT_SECONDS : 60 / grid.medianBpm());
    this.togetherSeconds = settings.togetherSeconds();
    this.company = new int[notes.size()];
    for (int i = 0; i < company.length; i++) {
      company[i] = within(i, togetherSeconds).size();
    }
  }

  /** A note with what speaks for its being of a line. */
  public record Weighed(NoteEvent note, List<Double> evidence) {
    public Weighed {
      evidence = List.copyOf(evidence);
    }
  }

  /** What there is to learn from: all the accompaniment's notes; none without a trained ear. */
  public static List<Weighed> weighed(Features features, Reading reading) {
    LineSettings settings = LineSettings.DEFAULTS;
    List<HeardNote> heard =
        features
            .heard()
            .map(ear -> Accompaniment.notes(ear, features, settings))
            .map(notes -> Accompaniment.without(notes, HeardLines.known(reading)))
            .orElse(List.of());
    MovingNotes moving = new MovingNotes(heard, reading.get(Facet.BEATS).grid(), settings);
    List<Weighed> weighed = new ArrayList<>();
    for (int i = 0; i < heard.size(); i++) {
      List<Double> evidence = Arrays.stream(moving.evidence(i)).boxed().toList();
      weighed.add(new Weighed(heard.get(i).event(), evidence));
    }
    return weighed;
  }

  /** Probability that a note belongs to a line. */
  double probability(int note) {
    return weights.of(evidence(note));
  }

  /** In the order of {@link #EVIDENCE}. */
  private double[] evidence(int note) {
    HeardNote it = notes.get(note);
    double above = 0;
    double octaveBelow = 0;
    double places = 0;
    int placed = 0;
    for (HeardNote other : within(note, togetherSeconds)) {
      double higher = it.pitch() - other.pitch();
      above += higher / company[note];
      octaveBelow = Math.abs(higher - OCTAVE) < SAME_PITCH ? 1 : octaveBelow;
      if (other.placement().isPresent()) {
        places += other.placement().getAsDouble();
        placed++;
      }
    }
    boolean known = placed > 0 && it.placement().isPresent();
    Around around = around(note);
    return new double[] {
      LearnedCertainty.logOdds(it.event().probability()),
      Math.log1p(company[note]),
      known ? Math.abs(it.placement().getAsDouble() - places / placed) : 0,
      above,
      octaveBelow,
      around.same,
      around.step,
      around.chordBefore,
      around.chordAfter,
      around.aloneBefore,
      around.aloneAfter,
      around.allAloneBefore
    };
  }

  /** What is heard about a beat before and after. */
  private static final class Around {
    private double same;
    private double step = OCTAVE;
    private double chordBefore;
    private double chordAfter;
    private double aloneBefore;
    private double aloneAfter;
    private double allAloneBefore;
  }

  private Around around(int note) {
    HeardNote it = notes.get(note);
    Around around = new Around();
    int first = first(note, nearSeconds);
    for (int i = first; i < notes.size(); i++) {
      HeardNote other = notes.get(i);
      double later = other.start() - it.start();
      double step = Math.abs(other.pitch() - it.pitch());
      if (later > nearSeconds) {
        break;
      }
      if (Math.abs(later) <= togetherSeconds || step > OCTAVE) {
        continue;
      }
      if (step < SAME_PITCH) {
        around.same += later < 0 ? 1 : 0;
        continue;
      }
      double alone = samePlace(it.placement(), other.placement()) / (1 + company[i]);
      if (later < 0) {
        around.step = Math.min(around.step, step);
        around.chordBefore = Math.max(around.chordBefore, company[i]);
        around.aloneBefore = Math.max(around.aloneBefore, alone);
        around.allAloneBefore += alone;
      } else {
        around.chordAfter = Math.max(around.chordAfter, company[i]);
        around.aloneAfter = Math.max(around.aloneAfter, alone);
      }
    }
    return around;
  }

  private static double samePlace(OptionalDouble one, OptionalDouble other) {
    return one.isPresent() && other.isPresent()
        ? Math.max(0, 1 - 2 * Math.abs(one.getAsDouble() - other.getAsDouble()))
        : UNKNOWN_PLACE;
  }

  /** The other notes that begin within so long of one. */
  private List<HeardNote> within(int note, double seconds) {
    List<HeardNote> near = new ArrayList<>();
    double start = notes.get(note).start();
    int i = first(note, seconds);
    for (; i < notes.size() && notes.get(i).start() - start <= seconds; i++) {
      if (i != note) {
        near.add(notes.get(i));
      }
    }
    return near;
  }

  /** The first note that begins no more than so long before one. */
  private int first(int note, double seconds) {
    int first = note;
    while (first > 0 && notes.get(note).start() - notes.get(first - 1).start() <= seconds) {
      first--;
    }
    return first;
  }
}
