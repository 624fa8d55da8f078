package undersong.estimate.echo;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import undersong.feature.StereoPowers;
import undersong.reading.HearingBand;
import undersong.time.Span;

/**
 * What is measured of the room, section by section, in a stereo recording: how much stands nowhere
 * between the sides, and how much of it lags behind the direct sound and how long.
 *
 * <p><b>Silence</b> and a recording of one channel: {@link Measured#NOTHING}. <b>Cost:</b> that of
 * {@link Ambience} and {@link DiffuseSound}, then O(frames) for spans not asked for before. Not
 * safe for several threads.
 */
public final class RoomEvidence {
  /** The bands whose decay is measured; in the others too little sounds. */
  public static final List<HearingBand> BANDS =
      List.of(HearingBand.LOW, HearingBand.LOW_MIDDLE, HearingBand.MIDDLE, HearingBand.HIGH_MIDDLE);

  /** Drier than this nothing differs between the sides: one channel, written twice. */
  private static final double MONO_DB = -38;

  /** A lagging part below this is none. */
  private static final double LEAST_LAGGING = 2e-4;

  /**
   * What stands nowhere is a room's where more of it lags behind than of a double's, and not much
   * less than all; chosen by a count such as {@code undersong.bench.decode.DoubleFit} makes. On 48
   * tuning copies all 33 doubles that were told rightly stay, and of 31 told wrongly 25 go.
   */
  private static final double LEAST_ROOM_DB = -16.5;

  private static final double MOST_TOGETHER_DB = 5.5;

  private final Ambience ambience;
  private final LaggingSound lagging;
  private final Map<Span, List<LaggingSound.Fit>> fits = new HashMap<>();

  /**
   * One section.
   *
   * @param decayOctaves of each of {@link #BANDS}, above one second
   * @param spreadOctaves how far they may be off, up to a factor that is the same for all
   * @param ambientDb level of what stands nowhere against the rest; NaN where nothing is known
   * @param wanderDb standard deviation of that level from moment to moment
   * @param lagDb level of what stands nowhere and lags behind, against the direct sound
   */
  public record Measured(
      List<Double> decayOctaves,
      List<Double> spreadOctaves,
      double ambientDb,
      double wanderDb,
      double lagDb) {
    public static final Measured NOTHING =
        new Measured(List.of(), List.of(), Double.NaN, 0, Double.NaN);

    public Measured {
      decayOctaves = List.copyOf(decayOctaves);
      spreadOctaves = List.copyOf(spreadOctaves);
    }

    public boolean isNothing() {
      return decayOctaves.isEmpty();
    }
  }

  public RoomEvidence(StereoPowers powers) {
    ambience = new Ambience(powers);
    lagging = new LaggingSound(new DiffuseSound(powers));
  }

  /**
   * @param sections in order; the whole recording where there is no form
   * @return one entry a section
   */
  public List<Measured> of(List<Span> sections, RoomDecay.Settings settings) {
    RoomDecay decay = new RoomDecay(settings);
    List<List<LaggingSound.Fit>> heard = new ArrayList<>();
    for (Span span : sections) {
      heard.add(fits.computeIfAbsent(span, this::fit));
    }
    List<Measured> measured = new ArrayList<>();
    for (int i = 0; i < sections.size(); i++) {
      measured.add(of(sections.get(i), heard.get(i), heard, decay));
    }
    return measured;
  }

  /** Whether what stands nowhere is that of a room, and needs no part played twice. */
  boolean explains(Span span) {
    return explains(
        of(List.of(span), RoomDecay.Settings.STANDARD).get(0), LEAST_ROOM_DB, MOST_TOGETHER_DB);
  }

  /**
   * The same, asked of what was measured.
   *
   * @param leastRoomDb of a room's lagging part
   * @param mostTogetherDb by how much all that stands nowhere may exceed it
   */
  public static boolean explains(Measured measured, double leastRoomDb, double mostTogetherDb) {
    return measured.lagDb() > leastRoomDb
        && measured.ambientDb() - measured.lagDb() < mostTogetherDb;
  }

  /**
   * The decay that fits best in each of {@link #BANDS}, in octaves above one second; empty where
   * too little sounds.
   */
  public List<Double> bestOctaves(Span span) {
    List<LaggingSound.Fit> here = fits.computeIfAbsent(span, this::fit);
    return here.stream().anyMatch(LaggingSound.Fit::isNothing)
        ? List.of()
        : here.stream().map(LaggingSound.Fit::bestOctaves).toList();
  }

  private List<LaggingSound.Fit> fit(Span span) {
    return BANDS.stream().map(band -> lagging.of(span, band)).toList();
  }

  private Measured of(
      Span span,
      List<LaggingSound.Fit> here,
      List<List<LaggingSound.Fit>> everywhere,
      RoomDecay decay) {
    double[] level = ambience.levelAndWander(span);
    if (level.length == 0
        || level[0] < MONO_DB
        || here.stream().allMatch(LaggingSound.Fit::isNothing)) {
      return Measured.NOTHING;
    }
    RoomDecay.Expected expected = decay.of(here, everywhere);
    double lag = 0;
    int bands = 0;
    for (int b = 0; b < BANDS.size(); b++) {
      if (!here.get(b).isNothing()) {
        double ratio = here.get(b).lagging().get(decay.tried(expected.octaves(), b));
        lag += 10 * Math.log10(ratio + LEAST_LAGGING);
        bands++;
      }
    }
    return new Measured(
        expected.bandOctaves(), expected.bandSpreads(), level[0], level[1], lag / bands);
  }
}
