package undersong.guide;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.OptionalLong;
import java.util.Set;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import undersong.exchange.JamsWriter;
import undersong.exchange.SongFacts;
import undersong.lesson.Lesson;
import undersong.lesson.sketch.Sketch;
import undersong.notation.NotationSettings;
import undersong.reading.ChordSpan;
import undersong.reading.Correction;
import undersong.reading.Facet;
import undersong.reading.HarmonyEvent;
import undersong.reading.Reading;
import undersong.render.DemoRenderer;
import undersong.render.DemoSongs;
import undersong.render.WavFile;
import undersong.study.Answer;
import undersong.study.Search;
import undersong.study.Studied;
import undersong.study.Study;
import undersong.technique.Finding;
import undersong.technique.FindingDraft;
import undersong.technique.Pulse;
import undersong.technique.Technique;
import undersong.technique.TechniqueFinder;
import undersong.theory.ChordSymbol;
import undersong.theory.LeadSheet;
import undersong.theory.Numerals;
import undersong.time.Span;

/**
 * What docs/guide.md shows, run: each example there is cut from here by {@link GuideSnippetsTest}.
 */
class GuideTest {
  private static Study study;
  private static Path song;
  private static Studied studied;

  @BeforeAll
  static void studyADemoSong(@TempDir Path folder) throws IOException {
    song = folder.resolve("song.wav");
    WavFile.write(DemoRenderer.render(DemoSongs.named("low-water")), song);
    study = Study.on(folder.resolve("shelf.db"));
    studied = study.study(song);
  }

  @AfterAll
  static void close() {
    study.close();
  }

  @Test
  void theWholePath(@TempDir Path folder) {
    Reading reading;
    List<Finding> findings;
    // [path]
    try (Study study = Study.on(folder.resolve("shelf.db"))) {
      Studied studied = study.study(song);
      reading = studied.stored().reading();
      findings = study.findings(studied.song().id());
    }
    double bpm = reading.get(Facet.BEATS).grid().medianBpm();
    // [/path]
    double written = DemoSongs.named("low-water").score().bpm();
    assertThat(bpm).isCloseTo(written, within(written / 100));
    assertThat(findings).anyMatch(f -> f.technique() == Technique.WITHHELD_THIRD);
  }

  @Test
  void aFacetIsAskedForByName() {
    // [facets]
    Reading reading = studied.stored().reading();
    for (HarmonyEvent chord : reading.get(Facet.HARMONY).events()) {
      String numeral = chord.numeral().map(n -> Numerals.print(n, chord.key())).orElse("-");
      System.out.printf("%6.2f s  %s%n", chord.span().startSeconds(), numeral);
    }
    // [/facets]
    assertThat(reading.get(Facet.HARMONY).events()).hasSizeGreaterThan(20);
  }

  @Test
  void theListenerHasTheLastWord() {
    // [correct]
    long songId = studied.song().id();
    Answer answer =
        study.correct(
            songId, new Correction.ChordOver(new Span(20.6, 22.4), LeadSheet.parse("Gm")));
    answer.changes().forEach(System.out::println); // what followed: harmony, findings' ground
    study.undo(songId);
    // [/correct]
    assertThat(answer.changes()).isNotEmpty();
    assertThat(study.reading(songId).stored().reading()).isEqualTo(studied.stored().reading());
  }

  @Test
  void aReadingLeavesAsJams(@TempDir Path folder) throws IOException {
    // [export]
    String jams = JamsWriter.print(studied.stored().reading(), SongFacts.UNKNOWN);
    Files.writeString(folder.resolve("song.jams"), jams, StandardCharsets.UTF_8);
    // [/export]
    assertThat(jams).contains("\"namespace\"").contains("key_mode");
  }

  @Test
  void theShelfIsAskedAndALessonDrafted() {
    // [lesson]
    long songId = studied.song().id();
    for (Search.Hit hit : study.search().find("song with withheld-third")) {
      System.out.println(hit.entry().song().title() + " " + hit.places());
    }
    Lesson lesson = study.lessons().draft(songId, 10, NotationSettings.DEFAULTS);
    Sketch sketch = study.lessons().sketch(Technique.PEDAL_POINT, 1, OptionalLong.of(songId));
    // [/lesson]
    assertThat(lesson.items()).isNotEmpty();
    assertThat(sketch.reading().get(Facet.MELODY).notes()).isNotEmpty();
  }

  // [finder]
  /** A chord whose third nobody sounds. */
  static final class NoThird implements TechniqueFinder {
    @Override
    public Set<Technique> techniques() {
      return Set.of(Technique.WITHHELD_THIRD);
    }

    @Override
    public Set<Facet<?>> reads() {
      return Set.of(Facet.BEATS, Facet.METER, Facet.CHORDS);
    }

    @Override
    public List<Finding> find(Reading reading) {
      Pulse pulse = Pulse.of(reading);
      return reading.get(Facet.CHORDS).spans().stream()
          .filter(chord -> chord.symbol() instanceof ChordSymbol.Chord && !chord.third().sounds())
          .map(chord -> finding(chord, pulse))
          .toList();
    }

    private static Finding finding(ChordSpan chord, Pulse pulse) {
      return FindingDraft.of(Technique.WITHHELD_THIRD, chord.span())
          .bars(pulse.bars(chord.span()))
          .sure(chord.probability(), pulse.barsProbability())
          .says("summary") // a sentence of catalogue.properties
          .read(Facet.CHORDS, chord.span(), chord.symbol().toString())
          .make();
    }
  }

  // [/finder]

  @Test
  void aFinderReadsFacetsAndGivesFindings() {
    List<Finding> found = new NoThird().find(studied.stored().reading());
    assertThat(found).isNotEmpty(); // the song begins on a bass alone
    assertThat(found.get(0).span().startSeconds()).isLessThan(6);
  }
}
