package undersong.desk;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import undersong.reading.Correction;
import undersong.reading.SampleCorrections;
import undersong.theory.HarteSyntax;
import undersong.time.Span;
import undersong.work.Trouble;

class CorrectionJsonTest {
  private static final ObjectMapper JSON = new ObjectMapper();

  static List<Correction> ofEveryKind() {
    return SampleCorrections.ofEveryKind();
  }

  @ParameterizedTest
  @MethodSource("ofEveryKind")
  void whatIsPrintedIsReadBack(Correction correction) {
    ObjectNode printed = CorrectionJson.print(correction);
    assertThat(CorrectionJson.parse(printed)).isEqualTo(correction);
    printed
        .properties()
        .forEach(
            field -> assertThat(field.getValue().isObject()).as("%s is plain", field).isFalse());
  }

  @ParameterizedTest
  @MethodSource("ofEveryKind")
  void everyKindHasWordsOfItsOwn(Correction correction) {
    String words = new CorrectionWords(Wording.DEFAULTS).of(correction);
    assertThat(words).isNotBlank().doesNotContain("[", "Correction");
  }

  /** Both spellings of one chord; the right-hand side after Harte et al., ISMIR 2005. */
  @ParameterizedTest
  @CsvSource({
    "Gm7/Bb, G:min7/b3",
    "G:min7/b3, G:min7/b3",
    "' F#dim7 ', F#:dim7",
    "C/3, C:maj/3",
    "N.C., N",
    "N, N",
    "D5, D:5"
  })
  void chordsAreTypedEitherWay(String typed, String harte) throws Exception {
    ObjectNode node = JSON.createObjectNode().put("kind", "ChordOver").put("chord", typed);
    node.putArray("span").add(1).add(2);
    Correction.ChordOver over = (Correction.ChordOver) CorrectionJson.parse(node);
    assertThat(HarteSyntax.print(over.chord())).isEqualTo(harte);
  }

  @Test
  void pitchesKeysAndRolesAreWords() throws Exception {
    assertThat(parse("{'kind':'BassNoteOver','span':[1,2],'pitch':'F#2'}"))
        .isEqualTo(new Correction.BassNoteOver(new Span(1, 2), 42));
    assertThat(CorrectionJson.print(parse("{'kind':'KeyOver','span':[0,9],'key':'A minor'}")))
        .hasToString("{\"kind\":\"KeyOver\",\"span\":[0.0,9.0],\"key\":\"A natural minor\"}");
    assertThat(parse("{'kind':'LayerOver','span':[0,9],'layer':'sub bass','sounds':true}"))
        .isInstanceOf(Correction.LayerOver.class);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "{}                                                         | kind",
        "{'kind':'Nonsense'}                                        | Nonsense",
        "{'kind':'BeatAt'}                                          | seconds",
        "{'kind':'BeatAt','seconds':'soon'}                         | seconds",
        "{'kind':'BeatAt','seconds':1,'more':2}                     | more",
        "{'kind':'ChordOver','span':[1,2],'chord':'H7'}             | H7",
        "{'kind':'ChordOver','span':[2,1],'chord':'C'}              | 2.0",
        "{'kind':'KeyOver','span':[1,2],'key':'C something'}        | C something",
        "{'kind':'TempoLevel','factor':5}                           | 5.0",
        "{'kind':'MeterOver','span':[1,2],'signature':'4/7'}        | 4/7",
        "{'kind':'NameOver','span':[1,2],'role':'middle bit'}       | MIDDLE_BIT",
        "{'kind':'BassNoteOver','span':[1,2],'pitch':'X9'}          | X9",
        "{'kind':'BassNoteOver','span':[1,2],'midiPitch':900}       | 900",
        "{'kind':'BassNoteOver','span':[1,2]}                       | midiPitch",
      })
  void whatMakesNoSenseIsNamed(String json, String named) {
    assertThatThrownBy(() -> parse(json))
        .isInstanceOf(Trouble.WrongUsage.class)
        .hasMessageContaining(named)
        .hasMessageNotContaining("undersong.");
  }

  private static Correction parse(String json) throws Exception {
    return CorrectionJson.parse(JSON.readTree(json.replace('\'', '"')));
  }
}
