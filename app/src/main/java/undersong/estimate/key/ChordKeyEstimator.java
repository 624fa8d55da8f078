package undersong.estimate.key;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.IntStream;
import undersong.estimate.Estimator;
import undersong.estimate.LearnedCertainty;
import undersong.feature.EarActivations;
import undersong.feature.Features;
import undersong.kernel.ChangeChain;
import undersong.reading.Candidate;
import undersong.reading.ChordSpan;
import undersong.reading.Chords;
import undersong.reading.Correction;
import undersong.reading.Corrections;
import undersong.reading.Derived;
import undersong.reading.Facet;
import undersong.reading.Form;
import undersong.reading.KeyRegion;
import undersong.reading.Keys;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;
import undersong.reading.Section;
import undersong.theory.ChordSymbol;
import undersong.theory.Key;
import undersong.theory.Mode;
import undersong.theory.NoteName;
import undersong.theory.Spelling;
import undersong.time.Span;

/**
 * Reads key regions off the chords: first tonic and third by a chain over bars, sections of one
 * letter together, then the mode of each region by the degrees it dwells on.
 *
 * <p><b>In:</b> METER, FORM, CHORDS, MELODY. <b>Out:</b> regions from the first sample to the last,
 * keys changing at bar lines. <b>Silence</b> gives no regions. <b>Cost:</b> O(bars * keys).
 *
 * <p>Source: key finding by chord counts and a chain with rare changes, after D. Temperley, "Music
 * and Probability", 2007, chapter 6. Departs from it: chords of songs instead of note profiles.
 */
public final class ChordKeyEstimator implements Estimator<Keys> {
  /** Where a listener's word begins or ends the key may change without more ado. */
  private static final double CHANGE_AT_WORD = 0.5;

  /** A region shorter than this is a tonicization, not a key. */
  private static final int SHORTEST_BARS = 4;

  /** The evidence is tempered, so its posterior is too modest. */
  private static final LearnedCertainty SURE = LearnedCertainty.of("keys", List.of("posterior"));

  /** What a key decided by letter gains in each section, about the price of two changes. */
  private static final double FAVOR = 8;

  /** What is said of a whole song weighs as much as this many nats of evidence. */
  private static final double HINT = 2;

  private static final int RUNNERS_UP = 3;
  private static final int MOST_ACCIDENTALS = 7;
  private static final double WORTH_NAMING = 0.02;

  private final KeySettings settings;

  public ChordKeyEstimator(KeySettings settings) {
    this.settings = settings;
  }

  /** The keys of a reading whose chords, bars and sections are known, with nothing heard. */
  public static Keys fromChords(Reading earlier) {
    double[] boundaries = KeyUnits.boundaries(earlier.get(Facet.METER), earlier.durationSeconds());
    return new Keys(
        new ChordKeyEstimator(KeySettings.DEFAULTS)
            .heard(
                Optional.empty(),
                boundaries,
                earlier.get(Facet.CHORDS),
                earlier.get(Facet.FORM),
                List.of(),
                List.of()));
  }

  @Override
  public Derived<Keys> estimate(Features features, Reading earlier, Corrections corrections) {
    Chords chords = earlier.get(Facet.CHORDS);
    double duration = earlier.durationSeconds();
    List<Correction> unplaced = new ArrayList<>();
    List<Correction.KeyOver> placed = new ArrayList<>();
    for (Correction.KeyOver said : corrections.ofKind(Correction.KeyOver.class)) {
      if (said.span().startSeconds() < duration) {
        placed.add(said);
      } else {
        unplaced.add(said);
      }
    }
    boolean tonal = chords.spans().stream().anyMatch(c -> c.symbol() instanceof ChordSymbol.Chord);
    if (!tonal && placed.isEmpty()) {
      return new Derived<>(new Keys(List.of()), unplaced);
    }
    double[] boundaries = KeyUnits.boundaries(earlier.get(Facet.METER), duration);
    List<KeyRegion> regions =
        heard(
            features.heard(),
            boundaries,
            chords,
            earlier.get(Facet.FORM),
            earlier.get(Facet.MELODY).notes(),
            placed);
    return new Derived<>(new Keys(SaidKeys.laidOver(regions, placed, duration)), unplaced);
  }

  private List<KeyRegion> heard(
      Optional<EarActivations> ear,
      double[] boundaries,
      Chords chords,
      Form form,
      List<NoteEvent> melody,
      List<Correction.KeyOver> said) {
    float[][] emission = TonicEvidence.of(chords, form, boundaries);
    TuneEvidence.add(melody, boundaries, settings.tuneWeight(), emission);
    ear.ifPresent(heard -> HeardKeys.add(heard, boundaries, settings, emission));
    int[] pinned = pins(emission, boundaries, said);
    float[][] enters = new float[emission.length][TonicEvidence.KEYS];
    float[] change = changes(form, boundaries, pinned);
    float[][] motion = KeyCounts.standard().motion(settings.changeToNear());
    ChangeChain chain = new ChangeChain(IntStream.range(0, motion.length).toArray(), motion);
    int[] alone = chain.path(emission, enters, change);
    int[] together =
        KeysByLetter.decided(alone, emission, motion, -settings.changeOfLetter(), form, boundaries);
    int[] path = settled(together, pinned);
    favor(together, alone, emission);
    float[][] posteriors = chain.posteriors(emission, enters, change);
    List<KeyRegion> regions = new ArrayList<>();
    int from = 0;
    for (int unit = 1; unit <= path.length; unit++) {
      if (unit == path.length || path[unit] != path[from]) {
        Span span = new Span(boundaries[from], boundaries[unit]);
        int key = path[from];
        Map<Mode, Double> modes =
            ear.map(heard -> HeardKeys.modes(heard, span, key % 12, key >= 12)).orElse(Map.of());
        ModeTeller.Told told =
            ModeTeller.tell(key % 12, key >= 12, span, chords.spans(), melody, modes);
        NoteName tonic = written(key, told.mode(), span, chords);
        regions.add(region(key, tonic, span, means(posteriors, from, unit), told));
        from = unit;
      }
    }
    return regions;
  }

  /** What was decided by all sections of a letter is evidence in each of them. */
  private static void favor(int[] together, int[] alone, float[][] emission) {
    int from = 0;
    for (int unit = 1; unit <= together.length; unit++) {
      if (unit == together.length
          || together[unit] != together[from]
          || alone[unit] != alone[from]) {
        for (int i = from; together[from] != alone[from] && i < unit; i++) {
          emission[i][together[i]] += (float) (FAVOR / (unit - from));
        }
        from = unit;
      }
    }
  }

  /** Log-score of a change of key before each unit: keys change where sections begin. */
  private float[] changes(Form form, double[] boundaries, int[] pinned) {
    float[] change = new float[boundaries.length - 1];
    Arrays.fill(change, (float) Math.log(settings.changeElsewhere()));
    Set<Integer> lifts = ChordPieces.starts(lifted(form), boundaries);
    for (int unit : ChordPieces.starts(form.sections(), boundaries)) {
      boolean lift = lifts.contains(unit);
      change[unit] = (float) Math.log(lift ? settings.changeAtLift() : settings.changeAtSection());
    }
    for (int unit = 1; unit < change.length; unit++) {
      if (pinned[unit] != pinned[unit - 1]) {
        change[unit] = (float) Math.log(CHANGE_AT_WORD);
      }
    }
    return change;
  }

  /**
   * Sections that stand at another height, against the first of their letter, than the section
   * before.
   */
  private static List<Section> lifted(Form form) {
    List<Section> sections = form.sections();
    return IntStream.range(1, sections.size())
        .filter(
            i -> sections.get(i).transposedSemitones() != sections.get(i - 1).transposedSemitones())
        .mapToObj(sections::get)
        .toList();
  }

  /**
   * Key of the units that mostly lie in a said span, the newest word's, else -1. What was heard
   * there counts no more, what was said is a hint for the rest of the song.
   */
  private static int[] pins(
      float[][] emission, double[] boundaries, List<Correction.KeyOver> said) {
    int[] pinned = new int[emission.length];
    Arrays.fill(pinned, -1);
    for (Correction.KeyOver over : said) {
      int wanted = over.key().tonic().pitchClass() + (over.key().mode().hasMinorThird() ? 12 : 0);
      for (int unit = 0; unit < emission.length; unit++) {
        Span span = new Span(boundaries[unit], boundaries[unit + 1]);
        if (span.overlapSeconds(over.span()) > span.lengthSeconds() / 2) {
          pinned[unit] = wanted;
        }
      }
    }
    for (int unit = 0; unit < emission.length; unit++) {
      if (pinned[unit] >= 0) {
        Arrays.fill(emission[unit], 0);
        emission[unit][pinned[unit]] = (float) (HINT / emission.length);
      }
    }
    return pinned;
  }

  /** Short regions that nobody asked for take the key before them, or else the one after. */
  private static int[] settled(int[] path, int[] pinned) {
    int[] out =
        IntStream.range(0, path.length).map(i -> pinned[i] >= 0 ? pinned[i] : path[i]).toArray();
    int from = 0;
    for (int unit = 1; unit <= out.length; unit++) {
      if (unit < out.length && out[unit] == out[from]) {
        continue;
      }
      boolean free = IntStream.range(from, unit).noneMatch(i -> pinned[i] >= 0);
      boolean whole = from == 0 && unit == out.length;
      if (unit - from < SHORTEST_BARS && free && !whole) {
        Arrays.fill(out, from, unit, from > 0 ? out[from - 1] : out[unit]);
      }
      from = unit;
    }
    return out;
  }

  private static double[] means(float[][] posteriors, int from, int to) {
    double[] means = new double[TonicEvidence.KEYS];
    for (int unit = from; unit < to; unit++) {
      for (int key = 0; key < means.length; key++) {
        means[key] += posteriors[unit][key] / (to - from);
      }
    }
    return means;
  }

  private static KeyRegion region(
      int key, NoteName tonic, Span span, double[] means, ModeTeller.Told told) {
    double raw = Math.min(1, means[key] * told.margin());
    double probability = SURE.of(LearnedCertainty.logOdds(raw));
    // What is left is shared among the others as they stand.
    double left = raw >= 1 ? 0 : (1 - probability) / (1 - raw);
    List<Candidate<Key>> others = new ArrayList<>();
    double otherMode = Math.min(1, means[key]) * (1 - told.margin());
    others.add(new Candidate<>(new Key(tonic, told.other()), left * otherMode));
    for (int other = 0; other < means.length; other++) {
      if (other != key && means[other] >= WORTH_NAMING) {
        Mode mode = other < 12 ? Mode.MAJOR : Mode.NATURAL_MINOR;
        others.add(new Candidate<>(new Key(tonic(other), mode), Math.min(1, left * means[other])));
      }
    }
    others.sort(Comparator.comparingDouble(candidate -> -candidate.probability()));
    return new KeyRegion(
        span,
        new Key(tonic, told.mode()),
        probability,
        others.subList(0, Math.min(RUNNERS_UP, others.size())));
  }

  /**
   * The tonic as the chords over it are written: C# where they are, though Db alone has the simpler
   * signature.
   */
  private static NoteName written(int key, Mode mode, Span span, Chords chords) {
    NoteName simple = tonic(key);
    NoteName best = simple;
    double most = alike(new Key(simple, mode), span, chords);
    for (int fifths : new int[] {simple.fifths() - 12, simple.fifths() + 12}) {
      Key other = new Key(new NoteName(fifths), mode);
      if (Math.abs(other.signatureFifths()) <= MOST_ACCIDENTALS
          && alike(other, span, chords) > most) {
        best = other.tonic();
        most = alike(other, span, chords);
      }
    }
    return best;
  }

  /** Seconds of chords whose roots are written as the key would write them. */
  private static double alike(Key key, Span span, Chords chords) {
    double seconds = 0;
    for (ChordSpan chord : chords.spans()) {
      if (chord.symbol() instanceof ChordSymbol.Chord one
          && one.root().equals(Spelling.name(one.root().pitchClass(), key))) {
        seconds += chord.span().overlapSeconds(span);
      }
    }
    return seconds;
  }

  /** The tonic whose signature is simple: Db to F# major, Eb to G# minor. */
  private static NoteName tonic(int key) {
    return key < 12 ? NoteName.ofPitchClass(key, 0) : NoteName.ofPitchClass(key - 12, 2);
  }
}
