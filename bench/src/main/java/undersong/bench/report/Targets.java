package undersong.bench.report;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** The metrics of the page, what each means, what is aimed at, and what others published. */
final class Targets {
  /**
   * @param clean aimed at on clean renderings; NaN = no aim
   * @param lowerIsBetter for errors and costs
   */
  record Target(String words, double clean, double worn, boolean lowerIsBetter) {}

  private static final double NONE = Double.NaN;
  private static final Map<String, Target> ALL = new LinkedHashMap<>();

  static {
    rise("beats.f", "beats F, 70 ms, after 5 s", 0.97, 0.96);
    rise("beats.fAnyLevel", "the same at the best metrical level", NONE, NONE);
    rise("beats.cemgil", "beats Cemgil", NONE, NONE);
    rise("beats.cmlt", "beats CMLt", NONE, NONE);
    rise("beats.amlt", "beats AMLt", NONE, NONE);
    rise("beats.informationGain", "beats information gain", NONE, NONE);
    rise("tempo.accuracy1", "tempo within 4 %", NONE, NONE);
    rise("tempo.accuracy2", "the same, half, double, third, triple forgiven", NONE, NONE);
    rise("downbeats.f", "downbeats F, 70 ms, after 5 s", 0.93, 0.90);
    rise("meter.right", "time signature right", NONE, NONE);
    fall("tuning.errorCents", "tuning error, cents", NONE, NONE);
    rise("key.weighted", "key by time, weighted", 0.95, 0.93);
    rise("key.byName", "tonic and name of mode, by time, where the mode is stated", 0.85, 0.85);
    rise("key.changesPlaced", "key changes within 2 bars", NONE, NONE);
    rise("chords.root", "chords, root", 0.97, 0.93);
    rise("chords.majmin", "chords, major and minor", 0.96, 0.91);
    rise("chords.majminBass", "chords, major and minor with bass", NONE, NONE);
    rise("chords.triads", "chords, triads", NONE, NONE);
    rise("chords.sevenths", "chords, sevenths", 0.85, 0.75);
    rise("chords.mirex", "chords, three notes in common", NONE, NONE);
    rise("chords.segmentation", "chords, segmentation", NONE, NONE);
    rise("chords.invertedRecall", "recall on inverted chords (root, third, bass)", 0.70, 0.60);
    rise("open.told", "open harmony told", 0.85, 0.85);
    fall("open.falselyOpen", "thirds falsely called open", 0.02, 0.02);
    fall("arrival.medianBeats", "chord arrival, median error in beats", 0.1, 0.1);
    fall("arrival.worstBeats", "chord arrival, 90th percentile", NONE, NONE);
    rise("arrival.earlyTold", "early chords told as early", NONE, NONE);
    rise("bass.f", "bass notes F, onset and pitch", 0.92, 0.85);
    rise("bass.fChroma", "the same, octaves forgiven", NONE, NONE);
    rise("melody.rawPitch", "melody raw pitch", 0.93, 0.86);
    rise("melody.rawChroma", "melody raw chroma", NONE, NONE);
    rise("melody.voicingRecall", "melody voicing recall", NONE, NONE);
    fall("melody.falseAlarms", "melody false alarms", NONE, NONE);
    rise("melody.overall", "melody overall", 0.85, 0.78);
    rise("melody.notesF", "melody notes F, onset and pitch", NONE, NONE);
    rise("form.f05Trimmed", "boundaries F, 0.5 s, trimmed", 0.60, 0.60);
    rise("form.f3Trimmed", "boundaries F, 3 s, trimmed", 0.78, 0.78);
    rise("form.pairwiseF", "sections, pairwise F", NONE, NONE);
    rise("form.entropyF", "sections, over- and under-segmentation F", NONE, NONE);
    rise("second.notesF", "second voice, notes F, onset and pitch", 0.65, 0.65);
    fall("second.falsePerMinute", "voice notes a minute where nobody joins in", NONE, NONE);
    rise("lines.notesF", "lines of the accompaniment, notes F", NONE, NONE);
    fall("lines.falsePerMinute", "line notes a minute where there are none", NONE, NONE);
    rise("space.placementFound", "audible notes for which a place was told", NONE, NONE);
    fall("space.placementError", "placement error, panning index", 0.08, 0.08);
    rise("space.alternatingF", "short lines told on their side, F", 0.90, 0.90);
    fall("space.widthErrorDb", "sides against middle by section, error in dB", NONE, NONE);
    rise("echo.delayF", "echoes F, lag within 50 ms", 0.85, 0.85);
    fall("echo.lagErrorMs", "echo lag error, ms", 5, 5);
    fall("echo.delayFalsePerMinute", "echoes told a minute where there are none", NONE, NONE);
    rise("echo.againF", "lines performed again F, lag within 150 ms", NONE, NONE);
    fall(
        "echo.againFalsePerMinute",
        "second performances told a minute where there are none",
        NONE,
        NONE);
    rise("echo.doubleF", "doubles F, lag within 35 ms", NONE, NONE);
    fall("echo.doubleFalsePerMinute", "doubles told a minute where there are none", NONE, NONE);
    fall("echo.confused", "of copies told, told as another kind", 0.10, 0.10);
    fall("room.decayRatio", "decay time of the room, median ratio it is off by", NONE, NONE);
    rise("room.decayWithin", "of decay times told, within a quarter", NONE, NONE);
    rise("room.decayTold", "bands of wet sections whose decay is told", NONE, NONE);
    fall("room.wetErrorDb", "reverb against the rest by section, error in dB", NONE, NONE);
    rise("room.changesF", "sections 4 dB wetter or drier than before F, 3 s", NONE, NONE);
    fall("room.changesFalsePerMinute", "such changes told a minute where none is", NONE, NONE);
    rise(
        "layers.entriesExitsF", "entries and exits of drums, bass, lead F, half a bar", 0.85, 0.85);
    rise("texture.sweepF", "filter sweeps F, half of each covered", NONE, NONE);
    fall("texture.sweepFalsePerMinute", "sweeps told a minute where there are none", NONE, NONE);
    rise("texture.duckingF", "ducking F, by time", NONE, NONE);
    fall("texture.duckingDepthErrorDb", "ducking depth error, dB", NONE, NONE);
    fall("texture.duckingFalseShare", "share of time called ducked where none is", NONE, NONE);
    rise("repeats.newNotesF", "new notes in repeats F, pitch class and time", 0.80, 0.80);
    fall("repeats.falsePerMinute", "new notes told a minute where there are none", NONE, NONE);
    fall("loudness.integratedErrorLu", "loudness against FFmpeg's meter, LU", 0.1, 0.1);
    fall("loudness.rangeErrorLu", "loudness range against FFmpeg's meter, LU", 1, 1);
    fall("speed.realTimeFactor", "time taken over length", NONE, NONE);
    fall("memory.heapMegabytes", "heap in use afterwards, MB", NONE, NONE);
  }

  /** Published figures beside ours; the data sets differ, so they only give a sense of scale. */
  static final List<String> ANCHORS =
      List.of(
          "Chords, major and minor: four annotators of the same songs agree 73-76 % (Koops and"
              + " others 2019, 50 Billboard songs); the two authors of RS200 agree 90 % (their own"
              + " figure on roots, 2011).",
          "Section boundaries: two SALAMI listeners agree with F 0.71 at 0.5 s and 0.78 at 3 s"
              + " (figures given with our definition of metrics).");

  private Targets() {}

  private static void rise(String metric, String words, double clean, double worn) {
    ALL.put(metric, new Target(words, clean, worn, false));
  }

  private static void fall(String metric, String words, double clean, double worn) {
    ALL.put(metric, new Target(words, clean, worn, true));
  }

  static Map<String, Target> all() {
    return ALL;
  }
}
