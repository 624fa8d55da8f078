package undersong.estimate.repeat;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import undersong.feature.Features;
import undersong.reading.Bar;
import undersong.reading.Facet;
import undersong.reading.Meter;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;
import undersong.reading.Section;

/**
 * Every note of sections that return and that no part begins in the earlier copy, with what speaks
 * for its being new: what there is to learn from.
 */
public final class WeighedNotes {
  public static final List<String> EVIDENCE = NoteEvidence.EVIDENCE;

  private WeighedNotes() {}

  /**
   * @param evidence in the order of {@link #EVIDENCE}
   */
  public record Weighed(NoteEvent note, List<Double> evidence) {
    public Weighed {
      evidence = List.copyOf(evidence);
    }
  }

  /** In the order of the sections and of time; none without a trained ear. */
  public static List<Weighed> of(Features features, Reading reading) {
    RepeatSettings settings = RepeatSettings.DEFAULTS;
    Meter meter = reading.get(Facet.METER);
    List<Weighed> weighed = new ArrayList<>();
    if (meter.bars().isEmpty() || features.heard().isEmpty()) {
      return weighed;
    }
    Parts parts = Parts.of(reading);
    BarRoots roots =
        new BarRoots(meter, reading.get(Facet.BEATS).grid(), reading.get(Facet.CHORDS));
    NoteEvidence evidence =
        new NoteEvidence(features.heard().get(), parts, reading, settings.onsetBeats());
    List<Section> sections = reading.get(Facet.FORM).sections();
    for (int s = 0; s < sections.size(); s++) {
      List<Alignment> alignments = AlignedRepeats.alignments(sections, s, meter, roots);
      if (alignments.isEmpty()) {
        continue;
      }
      Alignment alignment = AlignedRepeats.against(alignments, settings);
      if (alignment.otherRoots() > settings.mostOtherRoots()) {
        continue;
      }
      for (Bar bar : alignment.laterBars()) {
        for (PlacedNote note : NoteChanges.beginning(parts, bar)) {
          double there = alignment.earlierBeat(note.startBeat(), bar);
          if (!evidence.isBegun(note, there, -alignment.semitones())) {
            double[] weights = evidence.of(note, there, -alignment.semitones());
            weighed.add(new Weighed(note.event(), Arrays.stream(weights).boxed().toList()));
          }
        }
      }
    }
    return weighed;
  }
}
