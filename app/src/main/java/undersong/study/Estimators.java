package undersong.study;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import undersong.estimate.Estimator;
import undersong.estimate.bass.ChainBassEstimator;
import undersong.estimate.beat.PulseChainBeatTracker;
import undersong.estimate.chord.TatumChordRecognizer;
import undersong.estimate.dynamics.BarLoudness;
import undersong.estimate.echo.ReturningSounds;
import undersong.estimate.form.BlockMatchForm;
import undersong.estimate.form.FormSettings;
import undersong.estimate.harmony.KeyedHarmonyEstimator;
import undersong.estimate.key.ChordKeyEstimator;
import undersong.estimate.key.KeySettings;
import undersong.estimate.line.HeardLines;
import undersong.estimate.line.LineSettings;
import undersong.estimate.melody.HeardMelody;
import undersong.estimate.melody.MelodySettings;
import undersong.estimate.meter.BarChainMeterEstimator;
import undersong.estimate.motif.CellMotifs;
import undersong.estimate.motif.MotifSettings;
import undersong.estimate.repeat.AlignedRepeats;
import undersong.estimate.repeat.RepeatSettings;
import undersong.estimate.role.PlaceAndPayoffRoles;
import undersong.estimate.space.PlacedSpace;
import undersong.estimate.texture.LayeredTexture;
import undersong.estimate.texture.RestSettings;
import undersong.estimate.tuning.PeakTuningEstimator;
import undersong.estimate.voice.FreeSettings;
import undersong.estimate.voice.HeardVoices;
import undersong.estimate.voice.VoiceSettings;
import undersong.reading.Bass;
import undersong.reading.Beats;
import undersong.reading.ChordSpan;
import undersong.reading.Chords;
import undersong.reading.Derived;
import undersong.reading.Dynamics;
import undersong.reading.Echoes;
import undersong.reading.Facet;
import undersong.reading.FacetValue;
import undersong.reading.Form;
import undersong.reading.Harmony;
import undersong.reading.Keys;
import undersong.reading.Lines;
import undersong.reading.Melody;
import undersong.reading.Member;
import undersong.reading.Meter;
import undersong.reading.Motifs;
import undersong.reading.Repeats;
import undersong.reading.Roles;
import undersong.reading.Space;
import undersong.reading.Texture;
import undersong.reading.Tuning;
import undersong.reading.Voices;
import undersong.theory.ChordSymbol;
import undersong.time.BeatGrid;
import undersong.time.Span;

/** Who derives which facet: the one place where an estimator is given its task. Immutable. */
public final class Estimators {
  /** Raise whenever a facet would come out differently from equal features and corrections. */
  private static final String STANDARD_VERSION = "63";

  private final String version;
  private final Map<Facet<?>, Task<?>> tasks;

  private Estimators(String version, Map<Facet<?>, Task<?>> tasks) {
    this.version = version;
    this.tasks = Collections.unmodifiableMap(tasks);
  }

  /**
   * One estimator's task.
   *
   * @param heeds facets whose corrections it listens to beside those against its own: it is given
   *     these and no others, and runs again when they change
   */
  record Task<V extends FacetValue>(Facet<V> facet, Estimator<V> estimator, Set<Facet<?>> heeds) {
    boolean hears(Facet<?> corrected) {
      return corrected == facet || heeds.contains(corrected);
    }
  }

  /** The estimators the program works with. */
  public static Estimators standard() {
    return silent()
        .with(Facet.TUNING, new PeakTuningEstimator())
        .with(Facet.BEATS, new PulseChainBeatTracker())
        .with(Facet.METER, new BarChainMeterEstimator())
        .with(Facet.FORM, new BlockMatchForm(FormSettings.DEFAULTS))
        .with(Facet.BASS, new ChainBassEstimator())
        .with(Facet.MELODY, new HeardMelody(MelodySettings.DEFAULTS))
        .with(Facet.CHORDS, new TatumChordRecognizer())
        .with(Facet.KEYS, new ChordKeyEstimator(KeySettings.DEFAULTS))
        .with(Facet.HARMONY, new KeyedHarmonyEstimator())
        .with(Facet.VOICES, new HeardVoices(VoiceSettings.DEFAULTS, FreeSettings.DEFAULTS))
        .with(Facet.LINES, new HeardLines(LineSettings.DEFAULTS))
        .with(Facet.DYNAMICS, new BarLoudness())
        .with(Facet.SPACE, new PlacedSpace())
        .with(Facet.TEXTURE, new LayeredTexture(RestSettings.DEFAULTS))
        .with(Facet.ECHOES, new ReturningSounds())
        .with(Facet.REPEATS, new AlignedRepeats(RepeatSettings.DEFAULTS))
        .with(Facet.MOTIFS, new CellMotifs(MotifSettings.DEFAULTS))
        .with(Facet.ROLES, new PlaceAndPayoffRoles())
        .version(STANDARD_VERSION);
  }

  /** Hears nothing: every facet gets the value it has in silence. */
  public static Estimators silent() {
    Member absent = Member.ABSENT;
    return new Estimators("silent", Map.of())
        .with(Facet.TUNING, (f, earlier, c) -> Derived.of(new Tuning(0, 0)))
        .with(
            Facet.BEATS,
            (f, earlier, c) -> Derived.of(new Beats(BeatGrid.NO_PULSE, 2, 1, 0, List.of())))
        .with(Facet.METER, (f, earlier, c) -> Derived.of(new Meter(List.of(), 0, List.of())))
        .with(Facet.FORM, (f, earlier, c) -> Derived.of(new Form(List.of())))
        .with(Facet.BASS, (f, earlier, c) -> Derived.of(new Bass(List.of())))
        .with(Facet.MELODY, (f, earlier, c) -> Derived.of(Melody.NONE))
        .with(
            Facet.CHORDS,
            (f, earlier, c) ->
                Derived.of(
                    new Chords(
                        List.of(
                            new ChordSpan(
                                new Span(0, earlier.durationSeconds()),
                                ChordSymbol.NONE,
                                absent,
                                absent,
                                absent,
                                0,
                                List.of(),
                                java.util.Optional.empty())))))
        .with(Facet.KEYS, (f, earlier, c) -> Derived.of(new Keys(List.of())))
        .with(Facet.HARMONY, (f, earlier, c) -> Derived.of(new Harmony(List.of(), List.of())))
        .with(Facet.VOICES, (f, earlier, c) -> Derived.of(Voices.NONE))
        .with(Facet.LINES, (f, earlier, c) -> Derived.of(Lines.NONE))
        .with(
            Facet.DYNAMICS,
            (f, earlier, c) -> Derived.of(new Dynamics(-120, 0, List.of(), List.of())))
        .with(Facet.SPACE, (f, earlier, c) -> Derived.of(Space.NONE))
        .with(Facet.TEXTURE, (f, earlier, c) -> Derived.of(Texture.NONE))
        .with(Facet.ECHOES, (f, earlier, c) -> Derived.of(Echoes.NONE))
        .with(Facet.REPEATS, (f, earlier, c) -> Derived.of(Repeats.NONE))
        .with(Facet.MOTIFS, (f, earlier, c) -> Derived.of(Motifs.NONE))
        .with(Facet.ROLES, (f, earlier, c) -> Derived.of(new Roles(List.of())));
  }

  /** These, with one facet given to another estimator. */
  public <V extends FacetValue> Estimators with(
      Facet<V> facet, Estimator<V> estimator, Facet<?>... heeds) {
    Map<Facet<?>, Task<?>> more = new LinkedHashMap<>(tasks);
    more.put(facet, new Task<>(facet, estimator, Set.of(heeds)));
    return new Estimators(version, more);
  }

  /** These, under another version: values made under different versions do not mix. */
  public Estimators version(String newVersion) {
    return new Estimators(newVersion, tasks);
  }

  public String version() {
    return version;
  }

  /** Who derives a facet. */
  @SuppressWarnings("unchecked") // a task is put beside its own facet only
  public <V extends FacetValue> Estimator<V> estimator(Facet<V> facet) {
    return (Estimator<V>) of(facet).estimator();
  }

  Task<?> of(Facet<?> facet) {
    Task<?> task = tasks.get(facet);
    if (task == null) {
      throw new IllegalStateException(
          "Facet %s has no estimator; every facet needs one, if only a silent one."
              .formatted(facet));
    }
    return task;
  }
}
