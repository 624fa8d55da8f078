package undersong.technique;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.junit.jupiter.api.Test;
import undersong.estimate.SoundedFeatures;
import undersong.estimate.harmony.KeyedHarmonyEstimator;
import undersong.reading.Corrections;
import undersong.reading.Facet;
import undersong.reading.Reading;
import undersong.render.DemoSong;
import undersong.render.DemoSongs;
import undersong.render.score.Truth;
import undersong.technique.harmony.HarmonyFinders;
import undersong.technique.melody.MelodyFinders;
import undersong.technique.rhythm.RhythmFinders;

/**
 * What was planted in the demo songs is found in their true readings, as far as a score says it
 * (what only sound says is tried on the rendered songs), and little else.
 */
class DemoFindingsTest {
  /** Planted, and told by chords, notes and form alone. */
  private static final Set<Technique> IN_THE_SCORE =
      EnumSet.of(
          Technique.HARMONIC_MINOR_DOMINANT,
          Technique.BORROWED_CHORD,
          Technique.SECONDARY_DOMINANT,
          Technique.MODAL_COLOUR,
          Technique.CHROMATIC_INNER_LINE,
          Technique.GUIDE_TONE_SWITCH,
          Technique.WITHHELD_THIRD,
          Technique.PEDAL_POINT,
          Technique.STEPWISE_BASS_LINE,
          Technique.TENSION_TONE,
          Technique.REINTERPRETED_TONE,
          Technique.DECEPTIVE_CADENCE,
          Technique.HALF_CADENCE,
          Technique.PLAGAL_CHAIN,
          Technique.UNRESOLVED_ENDING,
          Technique.KEY_LIFT,
          Technique.CHORD_LOOP,
          Technique.REGISTER_LIFT,
          Technique.MELODIC_PEAK,
          Technique.ANTICIPATED_CHANGES,
          Technique.SYNCOPATED_BASS,
          Technique.THREE_THREE_TWO);

  private static List<Finding> found(DemoSong song) {
    Reading truth = song.truth().reading();
    Reading reading =
        truth.with(
            Facet.HARMONY,
            new KeyedHarmonyEstimator()
                .estimate(new SoundedFeatures(1, 0).features(), truth, Corrections.NONE));
    List<TechniqueFinder> finders = new ArrayList<>(HarmonyFinders.all());
    finders.addAll(MelodyFinders.all());
    finders.addAll(RhythmFinders.all());
    return new Techniques(finders, Calibration.NONE).in(reading);
  }

  private static boolean tells(Finding finding, Truth.Planted planted) {
    boolean named =
        finding.technique().id().equals(planted.techniqueId())
            || finding.under().stream().anyMatch(t -> t.id().equals(planted.techniqueId()));
    double shorter = Math.min(finding.span().lengthSeconds(), planted.span().lengthSeconds());
    return named && finding.span().overlapSeconds(planted.span()) >= 0.5 * shorter;
  }

  @Test
  void findsWhatWasPlanted() {
    for (DemoSong song : DemoSongs.all()) {
      List<Finding> findings = found(song);
      for (Truth.Planted planted : song.truth().planted()) {
        if (IN_THE_SCORE.contains(Technique.named(planted.techniqueId()))) {
          assertThat(findings)
              .as(
                  "%s: %s, bars %d-%d",
                  song.id(), planted.techniqueId(), planted.firstBar(), planted.lastBar())
              .anyMatch(finding -> tells(finding, planted));
        }
      }
    }
  }

  /** Not all that can be said of a song was planted; but most of what is said must have been. */
  @Test
  void findsLittleElse() {
    int planted = 0;
    int all = 0;
    for (DemoSong song : DemoSongs.all()) {
      for (Finding finding : found(song)) {
        if (IN_THE_SCORE.contains(finding.technique())) {
          all++;
          planted += song.truth().planted().stream().anyMatch(p -> tells(finding, p)) ? 1 : 0;
        }
      }
    }
    assertThat((double) planted / all).as("%d of %d", planted, all).isGreaterThan(0.65);
  }

  @Test
  void saysAllOfItInWords() {
    Texts english = Texts.in(Locale.ENGLISH);
    for (DemoSong song : DemoSongs.all()) {
      for (Finding finding : found(song)) {
        assertThat(english.summary(finding)).endsWith(".").doesNotContain("{").doesNotContain("''");
        finding.evidence().forEach(piece -> assertThat(english.say(piece)).doesNotContain("{"));
      }
    }
  }
}
