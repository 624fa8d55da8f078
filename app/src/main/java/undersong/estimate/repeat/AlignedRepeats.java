package undersong.estimate.repeat;

import java.util.ArrayList;
import java.util.List;
import undersong.estimate.Estimator;
import undersong.feature.Features;
import undersong.reading.Bar;
import undersong.reading.Chords;
import undersong.reading.Corrections;
import undersong.reading.Derived;
import undersong.reading.Facet;
import undersong.reading.Meter;
import undersong.reading.Reading;
import undersong.reading.Repeat;
import undersong.reading.Repeats;
import undersong.reading.Section;
import undersong.time.BeatGrid;

/**
 * Lays each section that returns beside its earlier copies and tells what is different.
 *
 * <p><b>In:</b> form, bars, beats; the notes of all parts; chords; loudness, places, layers; the
 * ear's note activations, where there are any, so that what was only just missed in one copy is not
 * told as added in the other. <b>Out:</b> one repeat per section that returns. <b>Silence</b>, no
 * pulse, or no section that returns: none. <b>Cost:</b> O(notes * notes near them) per copy, plus
 * O(copies^2) alignments.
 */
public final class AlignedRepeats implements Estimator<Repeats> {
  /** A copy with a bar for this share of the later one's is no fragment. */
  private static final double WHOLE = 0.75;

  private final RepeatSettings settings;

  public AlignedRepeats(RepeatSettings settings) {
    this.settings = settings;
  }

  @Override
  public Derived<Repeats> estimate(Features features, Reading earlier, Corrections corrections) {
    Meter meter = earlier.get(Facet.METER);
    BeatGrid grid = earlier.get(Facet.BEATS).grid();
    if (meter.bars().isEmpty() || grid.isEmpty()) {
      return Derived.of(Repeats.NONE);
    }
    Parts parts = Parts.of(earlier);
    NewNotes news = news(features, earlier, parts);
    BarRoots roots = new BarRoots(meter, grid, earlier.get(Facet.CHORDS));
    List<Repeat> repeats = new ArrayList<>();
    List<Section> sections = earlier.get(Facet.FORM).sections();
    for (int s = 0; s < sections.size(); s++) {
      List<Alignment> alignments = alignments(sections, s, meter, roots);
      if (!alignments.isEmpty()) {
        repeats.add(repeat(earlier, parts, news, sections.get(s), alignments));
      }
    }
    return Derived.of(new Repeats(repeats));
  }

  private Repeat repeat(
      Reading reading, Parts parts, NewNotes news, Section section, List<Alignment> alignments) {
    BeatGrid grid = reading.get(Facet.BEATS).grid();
    Chords chords = reading.get(Facet.CHORDS);
    Meter meter = reading.get(Facet.METER);
    Alignment alignment = against(alignments, settings);
    int against = alignments.indexOf(alignment) + 1;
    List<Repeat.AlignedBar> bars = bars(section, meter, alignments);
    if (alignment.laterBars().isEmpty()) {
      return new Repeat(
          section.span(),
          section.letter(),
          alignments.size() + 1,
          against,
          bars,
          List.of(),
          List.of(),
          List.of(),
          List.of(),
          List.of(),
          List.of());
    }
    LayerChanges layers = new LayerChanges(alignment, settings);
    List<Repeat.LayerChange> layerChanges = new ArrayList<>(layers.parts(parts, news));
    layerChanges.addAll(layers.sounds(reading.get(Facet.TEXTURE)));
    List<ChordChanges.Pair> pairs = new ChordChanges(alignment, chords, grid).pairs();
    return new Repeat(
        section.span(),
        section.letter(),
        alignments.size() + 1,
        against,
        bars,
        notes(alignment, parts, chords, grid, news),
        ChordChanges.changes(pairs, settings),
        layerChanges,
        layers.places(reading.get(Facet.SPACE)),
        layers.levels(reading.get(Facet.DYNAMICS), meter),
        new SettledMembers(parts, grid).among(pairs, settings));
  }

  private NewNotes news(Features features, Reading reading, Parts parts) {
    return features
        .heard()
        .<NewNotes>map(ear -> new NoteEvidence(ear, parts, reading, settings.onsetBeats()))
        .orElseGet(() -> new ReadNotes(parts, settings.onsetBeats()));
  }

  private List<Repeat.NoteChange> notes(
      Alignment alignment, Parts parts, Chords chords, BeatGrid grid, NewNotes news) {
    return alignment.otherRoots() > settings.mostOtherRoots()
        ? List.of()
        : new NoteChanges(alignment, parts, chords, grid, news, settings).all();
  }

  /** A section laid beside each of its earlier copies, oldest first. */
  static List<Alignment> alignments(
      List<Section> sections, int section, Meter meter, BarRoots roots) {
    Section later = sections.get(section);
    return sections.subList(0, section).stream()
        .filter(before -> before.letter().equals(later.letter()))
        .map(before -> Alignment.of(later, before, meter, roots))
        .toList();
  }

  /**
   * The copy before, unless it is a fragment or has other chords and an older one is and has not.
   */
  static Alignment against(List<Alignment> alignments, RepeatSettings settings) {
    for (int i = alignments.size() - 1; i >= 0; i--) {
      Alignment alignment = alignments.get(i);
      if (alignment.coverage() >= WHOLE && alignment.otherRoots() <= settings.mostOtherRoots()) {
        return alignment;
      }
    }
    return alignments.get(alignments.size() - 1);
  }

  private static List<Repeat.AlignedBar> bars(
      Section section, Meter meter, List<Alignment> alignments) {
    List<Repeat.AlignedBar> bars = new ArrayList<>();
    for (Bar bar : meter.bars()) {
      if (bar.number() >= section.firstBar() && bar.number() <= section.lastBar()) {
        List<Integer> earlier = new ArrayList<>();
        for (Alignment alignment : alignments) {
          int under = alignment.earlierBar(bar.number());
          if (under != 0) {
            earlier.add(under);
          }
        }
        bars.add(new Repeat.AlignedBar(bar.number(), earlier));
      }
    }
    return bars;
  }
}
