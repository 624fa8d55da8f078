package undersong.render;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import undersong.reading.Bar;
import undersong.reading.ChordSpan;
import undersong.reading.Chords;
import undersong.reading.Facet;
import undersong.reading.Form;
import undersong.reading.KeyRegion;
import undersong.reading.Meter;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;
import undersong.reading.Section;
import undersong.reading.TimeSignature;
import undersong.render.score.PartRole;
import undersong.render.score.Truth;
import undersong.theory.ChordSymbol.Chord;
import undersong.theory.Key;
import undersong.theory.LeadSheet;

class DemoSongsTest {
  private static final List<DemoSong> SONGS = DemoSongs.all();

  /** The catalogue's ids that the demo plants. */
  private static final Set<String> CATALOGUE =
      Set.of(
          ("harmonic-minor-dominant borrowed-chord secondary-dominant modal-colour"
                  + " chromatic-inner-line guide-tone-switch withheld-third pedal-point"
                  + " stepwise-bass-line tension-tone reinterpreted-tone deceptive-cadence"
                  + " half-cadence plagal-chain unresolved-ending key-lift modulation chord-loop"
                  + " broken-loop surprising-chord pattern-sequence riff parallel-harmony"
                  + " octave-doubling register-lift call-and-response melodic-peak"
                  + " anticipated-changes syncopated-bass three-three-two half-time-feel stop-time"
                  + " meter-change tempo-change harmonic-rhythm-change irregular-phrase"
                  + " climax-at-end layered-repeat drop-chorus breakout-chorus build chorus-first"
                  + " cold-ending fade-out alternating-pan wide-double echo delay-throw resung-echo"
                  + " width-change filter-sweep riser sub-bass-entry drum-dropout ducking"
                  + " plucked-layer vocal-stack swell layer-follows")
              .split(" ", -1));

  static List<DemoSong> songs() {
    return SONGS;
  }

  @Test
  void threeSongsDifferInKeyMeterTempoAndSwing() {
    assertThat(SONGS).hasSize(3);
    assertThat(SONGS)
        .extracting(s -> s.truth().reading().get(Facet.KEYS).mainKey().orElseThrow())
        .extracting(Key::mode)
        .doesNotHaveDuplicates();
    assertThat(SONGS).extracting(s -> s.score().bpm()).doesNotHaveDuplicates();
    assertThat(SONGS).extracting(s -> s.score().meter()).contains(new TimeSignature(3, false));
    assertThat(SONGS).filteredOn(s -> s.score().swingRatio() > 1.2).hasSize(1);
    assertThat(SONGS).filteredOn(s -> s.score().tuningCents() != 0).hasSize(1);
  }

  @ParameterizedTest
  @MethodSource("songs")
  void lastsBetweenOneAndTwoMinutes(DemoSong song) {
    assertThat(song.score().durationSeconds()).isBetween(60.0, 120.0);
  }

  @Test
  void plantsAtLeastTwentyFiveTechniquesOfTheCatalogue() {
    Set<String> ids = new TreeSet<>();
    SONGS.forEach(song -> ids.addAll(song.truth().techniqueIds()));
    assertThat(ids).hasSizeGreaterThanOrEqualTo(45);
    assertThat(CATALOGUE).containsAll(ids);
  }

  @ParameterizedTest
  @MethodSource("songs")
  void barsAndSectionsAddUp(DemoSong song) {
    Reading truth = song.truth().reading();
    Meter meter = truth.get(Facet.METER);
    Form form = truth.get(Facet.FORM);
    List<Bar> bars = meter.bars();
    assertThat(truth.get(Facet.BEATS).grid().medianBpm())
        .isCloseTo(song.score().bpm(), within(1e-6));
    assertThat(bars.stream().mapToInt(Bar::beats).sum() + 1)
        .isEqualTo(truth.get(Facet.BEATS).grid().size());
    int next = 1;
    for (Section section : form.sections()) {
      assertThat(section.firstBar()).isEqualTo(next);
      next = section.lastBar() + 1;
    }
    assertThat(next).isEqualTo(bars.size() + 1);
    assertThat(truth.get(Facet.ROLES).sections()).hasSameSizeAs(form.sections());
  }

  @ParameterizedTest
  @MethodSource("songs")
  void chordsAndKeysCoverTheWholeRecording(DemoSong song) {
    Reading truth = song.truth().reading();
    List<ChordSpan> chords = truth.get(Facet.CHORDS).spans();
    assertThat(chords.get(0).span().startSeconds()).isZero();
    assertThat(chords.get(chords.size() - 1).span().endSeconds())
        .isEqualTo(truth.durationSeconds());
    List<KeyRegion> keys = truth.get(Facet.KEYS).regions();
    assertThat(keys.get(0).span().startSeconds()).isZero();
    assertThat(keys.get(keys.size() - 1).span().endSeconds()).isEqualTo(truth.durationSeconds());
  }

  @ParameterizedTest
  @MethodSource("songs")
  void theBassPlaysTheBassOfEveryChordThatIsAccompanied(DemoSong song) {
    Reading truth = song.truth().reading();
    for (ChordSpan chord : truth.get(Facet.CHORDS).spans()) {
      if (!(chord.symbol() instanceof Chord named)) {
        continue;
      }
      truth
          .get(Facet.BASS)
          .noteAt(chord.span().startSeconds() + 1e-4)
          .ifPresent(
              note ->
                  assertThat(note.pitchClass())
                      .as("bass at %s of %s", chord, song.id())
                      .isEqualTo(named.bass().pitchClass()));
    }
  }

  @ParameterizedTest
  @MethodSource("songs")
  void noLabelAssertsAThirdThatDoesNotSound(DemoSong song) {
    for (ChordSpan chord : song.truth().reading().get(Facet.CHORDS).spans()) {
      if (chord.symbol() instanceof Chord named) {
        assertThat(chord.third().sounds())
            .as("third of %s at %s in %s", LeadSheet.print(named), chord.span(), song.id())
            .isEqualTo(!named.quality().hasNoThird());
      }
    }
  }

  @ParameterizedTest
  @MethodSource("songs")
  void notesAndPlantsLieWithinTheSong(DemoSong song) {
    Truth truth = song.truth();
    double end = truth.reading().durationSeconds();
    for (Truth.Voice voice : truth.voices()) {
      assertThat(voice.notes()).isNotEmpty().hasSameSizeAs(voice.syllables());
      assertThat(voice.notes()).allMatch(note -> note.span().endSeconds() <= end);
    }
    assertThat(truth.reading().get(Facet.MELODY).notes()).hasSizeGreaterThan(80);
    Set<String> places = new HashSet<>();
    for (Truth.Planted planted : truth.planted()) {
      assertThat(planted.span().endSeconds()).isLessThanOrEqualTo(end);
      assertThat(planted.remark()).isNotBlank();
      assertThat(places.add(planted.techniqueId() + planted.firstBar()))
          .as("%s is planted twice in one place", planted)
          .isTrue();
    }
  }

  @Test
  void everyChorusOfTheSecondSongIsHalfABeatEarlyAndNothingElseIs() {
    DemoSong song = DemoSongs.named("count-the-ferries");
    Form form = song.truth().reading().get(Facet.FORM);
    for (Truth.Arrival arrival : song.truth().arrivals()) {
      // Half a beat early is half a beat before a bar line here, or before the middle of a bar.
      double expected = arrival.arrivalSeconds() + 0.25 * 60 / song.score().bpm();
      Section section = form.sectionAt(expected + 0.25 * 60 / song.score().bpm()).orElseThrow();
      assertThat(arrival.arrivalBeats())
          .as("chord at %s s in %s", arrival.arrivalSeconds(), section)
          .isEqualTo(section.letter().equals("B") ? -0.5 : 0);
    }
  }

  @Test
  void theFirstVerseWithholdsWhatTheSecondSays() {
    Reading truth = DemoSongs.named("low-water").truth().reading();
    Chords chords = truth.get(Facet.CHORDS);
    Form form = truth.get(Facet.FORM);
    Section first = form.sections().get(1);
    Section second = form.sections().get(2);
    assertThat(first.letter()).isEqualTo(second.letter());
    double bar = first.span().lengthSeconds() / 8;
    for (int i = 0; i < 7; i++) {
      double at = (i + 0.5) * bar;
      assertThat(chords.chordAt(first.span().startSeconds() + at).orElseThrow().third().sounds())
          .isFalse();
      assertThat(chords.chordAt(second.span().startSeconds() + at).orElseThrow().third().sounds())
          .isTrue();
    }
  }

  @Test
  void secondVoicesMoveInThirdsAndSixthsOrOctaves() {
    assertThat(shareOfIntervals("low-water", "second", "chorus-2", Set.of(3, 4, 8, 9)))
        .isGreaterThanOrEqualTo(0.7);
    assertThat(shareOfIntervals("tar-and-honey", "high", "chorus-2", Set.of(12))).isEqualTo(1);
  }

  @Test
  void thePatternOfTheHornComesOneStepHigher() {
    List<NoteEvent> horn = voice("tar-and-honey", "horn").notes();
    List<Double> first = horn.subList(0, 3).stream().map(NoteEvent::midiPitch).toList();
    assertThat(horn.subList(3, 6))
        .extracting(NoteEvent::midiPitch)
        .containsExactlyElementsOf(first.stream().map(p -> p + 2).toList());
  }

  private static Truth.Voice voice(String song, String part) {
    return DemoSongs.named(song).truth().voices().stream()
        .filter(voice -> voice.part().equals(part))
        .findFirst()
        .orElseThrow();
  }

  private static double shareOfIntervals(
      String id, String part, String section, Set<Integer> wanted) {
    DemoSong song = DemoSongs.named(id);
    var span =
        song.truth().planted().stream()
            .filter(p -> p.section().equals(section))
            .findFirst()
            .orElseThrow()
            .span();
    List<NoteEvent> melody = song.truth().voices().get(0).notes();
    assertThat(song.truth().voices().get(0).role()).isEqualTo(PartRole.MELODY);
    int together = 0;
    int fitting = 0;
    for (NoteEvent note : voice(id, part).notes()) {
      if (note.span().startSeconds() < span.startSeconds() - 1e-6) {
        continue;
      }
      for (NoteEvent lead : melody) {
        if (Math.abs(lead.span().startSeconds() - note.span().startSeconds()) < 1e-6
            && span.contains(lead.span().startSeconds())) {
          together++;
          fitting += wanted.contains((int) Math.abs(lead.midiPitch() - note.midiPitch())) ? 1 : 0;
        }
      }
    }
    assertThat(together).isGreaterThan(12);
    return (double) fitting / together;
  }

  private static org.assertj.core.data.Offset<Double> within(double by) {
    return org.assertj.core.data.Offset.offset(by);
  }
}
