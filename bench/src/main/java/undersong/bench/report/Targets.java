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

  private static final Map<String, Target> ALL = new LinkedHashMap<>();

  static {
    rise("beats.f", "beats F, 70 ms, after 5 s", 0.97, 0.96);
    rise("beats.fAnyLevel", "the same at the best metrical level", Double.NaN, Double.NaN);
    rise("beats.cemgil", "beats Cemgil", Double.NaN, Double.NaN);
    rise("beats.cmlt", "beats CMLt", Double.NaN, Double.NaN);
    rise("beats.amlt", "beats AMLt", Double.NaN, Double.NaN);
    rise("beats.informationGain", "beats information gain", Double.NaN, Double.NaN);
    rise("tempo.accuracy1", "tempo within 4 %", Double.NaN, Double.NaN);
    rise(
        "tempo.accuracy2",
        "the same, half, double, third, triple forgiven",
        Double.NaN,
        Double.NaN);
    rise("downbeats.f", "downbeats F, 70 ms, after 5 s", 0.93, 0.90);
    rise("meter.right", "time signature right", Double.NaN, Double.NaN);
    fall("tuning.errorCents", "tuning error, cents", Double.NaN, Double.NaN);
    rise("key.weighted", "key by time, weighted", 0.95, 0.93);
    rise("key.byName", "tonic and name of mode, by time, where the mode is stated", 0.85, 0.85);
    rise("key.changesPlaced", "key changes within 2 bars", Double.NaN, Double.NaN);
    rise("chords.root", "chords, root", 0.97, 0.93);
    rise("chords.majmin", "chords, major and minor", 0.96, 0.91);
    rise("chords.majminBass", "chords, major and minor with bass", Double.NaN, Double.NaN);
    rise("chords.triads", "chords, triads", Double.NaN, Double.NaN);
    rise("chords.sevenths", "chords, sevenths", 0.85, 0.75);
    rise("chords.mirex", "chords, three notes in common", Double.NaN, Double.NaN);
    rise("chords.segmentation", "chords, segmentation", Double.NaN, Double.NaN);
    rise("chords.invertedRecall", "recall on inverted chords (root, third, bass)", 0.70, 0.60);
    rise("open.told", "open harmony told", 0.85, 0.85);
    fall("open.falselyOpen", "thirds falsely called open", 0.02, 0.02);
    fall("arrival.medianBeats", "chord arrival, median error in beats", 0.1, 0.1);
    fall("arrival.worstBeats", "chord arrival, 90th percentile", Double.NaN, Double.NaN);
    rise("arrival.earlyTold", "early chords told as early", Double.NaN, Double.NaN);
    rise("bass.f", "bass notes F, onset and pitch", 0.92, 0.85);
    rise("bass.fChroma", "the same, octaves forgiven", Double.NaN, Double.NaN);
    rise("melody.rawPitch", "melody raw pitch", 0.93, 0.86);
    rise("melody.rawChroma", "melody raw chroma", Double.NaN, Double.NaN);
    rise("melody.voicingRecall", "melody voicing recall", Double.NaN, Double.NaN);
    fall("melody.falseAlarms", "melody false alarms", Double.NaN, Double.NaN);
    rise("melody.overall", "melody overall", 0.85, 0.78);
    rise("melody.notesF", "melody notes F, onset and pitch", Double.NaN, Double.NaN);
    rise("form.f05Trimmed", "boundaries F, 0.5 s, trimmed", 0.60, 0.60);
    rise("form.f3Trimmed", "boundaries F, 3 s, trimmed", 0.78, 0.78);
    rise("form.pairwiseF", "sections, pairwise F", Double.NaN, Double.NaN);
    rise("form.entropyF", "sections, over- and under-segmentation F", Double.NaN, Double.NaN);
    fall("speed.realTimeFactor", "time taken over length", Double.NaN, Double.NaN);
    fall("memory.heapMegabytes", "heap in use afterwards, MB", Double.NaN, Double.NaN);
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
