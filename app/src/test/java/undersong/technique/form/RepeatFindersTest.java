package undersong.technique.form;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import undersong.reading.BarTexture;
import undersong.reading.Derived;
import undersong.reading.Facet;
import undersong.reading.Reading;
import undersong.reading.Repeat;
import undersong.reading.Repeats;
import undersong.reading.SectionRole;
import undersong.reading.Texture;
import undersong.technique.Calibration;
import undersong.technique.Finding;
import undersong.technique.Technique;
import undersong.technique.Techniques;
import undersong.technique.Texts;
import undersong.technique.WrittenSong;
import undersong.technique.harmony.HarmonyFinders;
import undersong.theory.LeadSheet;
import undersong.time.Span;

class RepeatFindersTest {
  private static final Span SECOND = new Span(8, 16);

  private static Reading reading(
      List<Repeat.LayerChange> layers,
      List<Repeat.ChordChange> chords,
      List<Repeat.Settled> settled) {
    Repeat repeat =
        new Repeat(
            SECOND,
            "A",
            2,
            1,
            List.of(
                new Repeat.AlignedBar(5, List.of(1)),
                new Repeat.AlignedBar(6, List.of(2)),
                new Repeat.AlignedBar(7, List.of(3)),
                new Repeat.AlignedBar(8, List.of(4))),
            List.of(),
            chords,
            layers,
            List.of(),
            List.of(),
            settled);
    return WrittenSong.in("E minor")
        .section(SectionRole.VERSE, "A", "E5 | E5 | D | E5")
        .section(SectionRole.VERSE, "A", "Em | Em | D | Em")
        .reading()
        .with(Facet.REPEATS, Derived.of(new Repeats(List.of(repeat))));
  }

  private static Repeat.LayerChange layer(String name, boolean entered) {
    return new Repeat.LayerChange(SECOND, 5, name, entered, 0.9);
  }

  private static Repeat.Settled third() {
    return new Repeat.Settled(
        Repeat.ChordMember.THIRD,
        LeadSheet.parse("E5"),
        LeadSheet.parse("Em"),
        "line-1",
        7,
        2,
        List.of(5, 6, 8),
        SECOND,
        0.9);
  }

  private static List<String> words(List<Finding> findings, Technique technique) {
    Texts english = Texts.in(Locale.ENGLISH);
    return findings.stream()
        .filter(finding -> finding.technique() == technique)
        .map(finding -> english.say(finding.summary()))
        .toList();
  }

  @Test
  void tellsWhatIsAddedAndWhatItDoesToTheHarmony() {
    Reading reading =
        reading(
            List.of(layer("line-1", true), layer("sub bass", true)), List.of(), List.of(third()));
    List<Finding> findings = new Techniques(FormFinders.all(), Calibration.NONE).in(reading);
    assertThat(words(findings, Technique.LAYERED_REPEAT))
        .containsExactly(
            "verse 2 brings the same music back with something added: line 1, the lowest octave;"
                + " where E5 was left open, Em sounds now.");
  }

  @Test
  void aLayerThatLeavesOrOtherChordsMakeNoLayeredRepeat() {
    Repeat.ChordChange change =
        new Repeat.ChordChange(
            new Span(8, 10), 5, 1, LeadSheet.parse("E5"), LeadSheet.parse("C"), 0.9);
    Repeat.ChordChange other =
        new Repeat.ChordChange(
            new Span(10, 12), 6, 1, LeadSheet.parse("E5"), LeadSheet.parse("G"), 0.9);
    assertThat(
            WrittenSong.told(
                FormFinders.all(), reading(List.of(layer("kick", false)), List.of(), List.of())))
        .noneMatch(words -> words.startsWith("layered-repeat"));
    assertThat(
            WrittenSong.told(
                FormFinders.all(),
                reading(List.of(layer("kick", true)), List.of(change, other), List.of())))
        .noneMatch(words -> words.startsWith("layered-repeat"));
  }

  /** Bars of the first copy as they are, those of the second with so many dB more in each band. */
  private static Texture second(double... moreDb) {
    List<BarTexture> bars = new ArrayList<>();
    for (int bar = 0; bar < 8; bar++) {
      List<Double> levels = new ArrayList<>();
      for (double more : moreDb) {
        levels.add(-30 + (bar < 4 ? 0.2 * bar : 0.2 * (bar - 4) + more));
      }
      bars.add(new BarTexture(1, levels, 1000, 4000, 0.02));
    }
    return new Texture(List.of(), bars, List.of(), List.of());
  }

  @Test
  void aBandThatIsFullerBarForBarIsSomethingAddedButALouderCopyIsNot() {
    Reading same = reading(List.of(), List.of(), List.of());
    Reading fuller = same.with(Facet.TEXTURE, Derived.of(second(0, 0.1, 0.5, 3.5, 0.4, 0)));
    assertThat(
            words(
                new Techniques(FormFinders.all(), Calibration.NONE).in(fuller),
                Technique.LAYERED_REPEAT))
        .containsExactly(
            "verse 2 brings the same music back with something added: something in the middle (800"
                + " to 2500 Hz).");
    Reading louder = same.with(Facet.TEXTURE, Derived.of(second(3, 3, 3, 3.5, 3, 3)));
    assertThat(WrittenSong.told(FormFinders.all(), louder))
        .noneMatch(words -> words.startsWith("layered-repeat"));
  }

  @Test
  void aThirdSettledLaterIsToldWhereItIsLeftOut() {
    List<Finding> findings =
        new Techniques(HarmonyFinders.all(), Calibration.NONE)
            .in(reading(List.of(), List.of(), List.of(third())));
    assertThat(words(findings, Technique.WITHHELD_THIRD))
        .contains("The third of E5 is left out here; verse 2 settles it: G on beat 2 makes it Em.");
    assertThat(findings)
        .anySatisfy(
            finding -> {
              assertThat(finding.technique()).isEqualTo(Technique.WITHHELD_THIRD);
              assertThat(finding.bars().orElseThrow().first()).isEqualTo(1);
              assertThat(finding.bars().orElseThrow().last()).isEqualTo(4);
            });
  }
}
