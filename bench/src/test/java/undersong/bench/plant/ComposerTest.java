package undersong.bench.plant;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import undersong.reading.Facet;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;
import undersong.render.DemoSong;
import undersong.technique.Technique;
import undersong.theory.ChordSymbol;
import undersong.theory.ChordSymbol.Chord;

class ComposerTest {
  private static final List<PlantedSong> SONGS = Composer.songs("plant", 40, 7);

  @Test
  void everyTechniqueIsPlantedInThreeSongsAndAbsentFromFifteen() {
    Map<Technique, Long> songs =
        SONGS.stream()
            .flatMap(song -> song.planted().stream())
            .collect(Collectors.groupingBy(Function.identity(), Collectors.counting()));
    assertThat(songs.keySet()).isEqualTo(EnumSet.allOf(Technique.class));
    assertThat(songs.values()).allSatisfy(count -> assertThat(count).isBetween(3L, 25L));
  }

  @Test
  void whatIsPlantedStandsInTheScore() {
    for (PlantedSong song : SONGS) {
      DemoSong read = song.score();
      Set<String> told =
          read.truth().planted().stream()
              .map(planted -> planted.techniqueId())
              .collect(Collectors.toSet());
      assertThat(told)
          .as(song.id())
          .isEqualTo(song.planted().stream().map(Technique::id).collect(Collectors.toSet()));
      assertThat(read.score().durationSeconds()).isBetween(40.0, 130.0);
    }
  }

  @Test
  void someSongsHoldOnlyWhatIsPlain() {
    assertThat(SONGS).filteredOn(song -> song.planted().isEmpty()).hasSize(5);
  }

  @Test
  void equalSeedsComposeEqualSongs() {
    assertThat(Composer.songs("plant", 5, 7)).isEqualTo(SONGS.subList(0, 5));
    assertThat(Composer.songs("plant", 5, 8)).isNotEqualTo(SONGS.subList(0, 5));
  }

  /** So that a chord heard wrong is the ear's doing, not the composer's. */
  @Test
  void inAPlainSongEveryBassNoteBelongsToItsChord() {
    for (PlantedSong song : SONGS.stream().filter(s -> s.planted().isEmpty()).toList()) {
      Reading truth = song.score().truth().reading();
      assertThat(truth.get(Facet.BASS).notes()).hasSizeGreaterThan(30);
      for (NoteEvent note : truth.get(Facet.BASS).notes()) {
        ChordSymbol chord =
            truth.get(Facet.CHORDS).chordAt(note.span().middleSeconds()).orElseThrow().symbol();
        assertThat(chord).as("%s at %s", song.id(), note.span()).isInstanceOf(Chord.class);
        assertThat(((Chord) chord).tones())
            .as("%s at %s: %s", song.id(), note.span(), chord)
            .anyMatch(tone -> tone.pitchClass() == note.pitchClass());
      }
    }
  }
}
