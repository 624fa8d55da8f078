package undersong.estimate.form;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import undersong.estimate.Estimator;
import undersong.feature.Features;
import undersong.reading.Correction;
import undersong.reading.CorrectionEntry;
import undersong.reading.Corrections;
import undersong.reading.Derived;
import undersong.reading.Facet;
import undersong.reading.Form;
import undersong.reading.Reading;
import undersong.reading.Section;
import undersong.time.Span;

/**
 * Form by block matching over bars.
 *
 * <p><b>Silence</b> gives one section. Without pulse, two-second steps stand in for bars and
 * sections carry bar numbers 0. Silence before the first note and a last chord ringing out belong
 * to the section beside them. <b>Cost:</b> O(bars squared * longest section).
 *
 * <p>A boundary said by the listener begins a section at the nearest bar line; where a bar line is
 * more than a bar away it is unplaced. Sameness said for one section carries its like along.
 */
public final class BlockMatchForm implements Estimator<Form> {
  private final FormSettings withEar;

  public BlockMatchForm(FormSettings settings) {
    withEar = settings;
  }

  /** The bars of a recording compared with each other: what deciding begins from. */
  public Compared compare(Features features, Reading earlier) {
    FormSettings settings = features.heard().isPresent() ? withEar : withEar.withoutEar();
    BarSpans spans = BarSpans.of(earlier.get(Facet.METER), earlier.durationSeconds());
    SelfSimilarity bars =
        new SelfSimilarity(
            BarDescriptions.of(features, spans, earlier.get(Facet.TUNING).cents()),
            settings.harmonyShare(),
            settings.tuneShare());
    double[] heard =
        features
            .heard()
            .map(ear -> HeardBoundaries.of(ear, spans))
            .orElseGet(() -> new double[spans.size()]);
    return new Compared(
        spans,
        bars,
        BoundaryEvidence.of(bars, heard),
        new SoundingBars(features.bandLevelsDb(), spans),
        earlier.durationSeconds());
  }

  @Override
  public Derived<Form> estimate(Features features, Reading earlier, Corrections corrections) {
    FormSettings settings = features.heard().isPresent() ? withEar : withEar.withoutEar();
    return decide(compare(features, earlier), settings, corrections);
  }

  /** Decides over compared bars, with other settings than those they were compared with. */
  public static Derived<Form> decide(
      Compared compared, FormSettings settings, Corrections corrections) {
    BarSpans spans = compared.spans;
    SelfSimilarity bars = compared.bars;
    SectionCuts cuts = new SectionCuts(bars, settings, compared.evidence);

    List<Correction> unplaced = new ArrayList<>();
    Set<Integer> forced = new HashSet<>();
    Set<Integer> forbidden = new HashSet<>(compared.sounding.noStarts());
    for (CorrectionEntry entry : corrections.of(Facet.FORM).entries()) {
      placeBoundary(entry.correction(), spans, forced, forbidden, unplaced);
    }

    // Where a listener says that a section begins while the last chord rings, it is music.
    int until = compared.sounding.untilRinging();
    int size = forced.stream().anyMatch(bar -> bar >= until) ? bars.size() : until;
    List<Integer> starts =
        SectionSplits.split(bars, cuts.cut(forced, forbidden, size), forbidden, size);
    List<SectionLetters.Match> matches = SectionLetters.match(bars, starts, settings, size);
    int[] groups = groups(matches);
    List<Span> sectionSpans = new ArrayList<>();
    for (int section = 0; section < starts.size(); section++) {
      sectionSpans.add(
          spans.covering(
              starts.get(section),
              lastBar(starts, section, spans),
              compared.sounding.beginSeconds(),
              compared.durationSeconds));
    }
    Map<Integer, String> said = new LinkedHashMap<>();
    for (Correction.SamenessOver same : corrections.ofKind(Correction.SamenessOver.class)) {
      int section = sectionAt(sectionSpans, same.span().middleSeconds());
      if (section < 0) {
        unplaced.add(same);
      } else {
        said.remove(section);
        said.put(section, same.letter());
      }
    }
    String[] letters = letters(groups, said);
    SectionCertainty sure = new SectionCertainty(compared.evidence, size);
    return new Derived<>(sections(starts, matches, letters, sectionSpans, spans, sure), unplaced);
  }

  private static void placeBoundary(
      Correction correction,
      BarSpans spans,
      Set<Integer> forced,
      Set<Integer> forbidden,
      List<Correction> unplaced) {
    boolean wanted = correction instanceof Correction.BoundaryAt;
    double seconds;
    if (correction instanceof Correction.BoundaryAt at) {
      seconds = at.seconds();
    } else if (correction instanceof Correction.NoBoundaryAt at) {
      seconds = at.seconds();
    } else {
      return;
    }
    int bar = spans.nearestStart(seconds);
    Span span = spans.spans().get(bar);
    boolean far = Math.abs(span.startSeconds() - seconds) > span.lengthSeconds();
    if (far || bar == 0) {
      unplaced.add(correction);
      return;
    }
    (wanted ? forbidden : forced).remove(bar);
    (wanted ? forced : forbidden).add(bar);
  }

  private static int[] groups(List<SectionLetters.Match> matches) {
    int[] groups = new int[matches.size()];
    for (int section = 0; section < groups.length; section++) {
      int like = matches.get(section).section();
      groups[section] = like == section ? section : groups[like];
    }
    return groups;
  }

  /** Letters in order of appearance; what the listener said goes over a whole group. */
  private static String[] letters(int[] groups, Map<Integer, String> said) {
    Map<Integer, String> saidOfGroup = new HashMap<>();
    said.forEach((section, letter) -> saidOfGroup.put(groups[section], letter));
    Set<String> taken = new HashSet<>(said.values());
    Map<Integer, String> letterOfGroup = new HashMap<>(saidOfGroup);
    String[] letters = new String[groups.length];
    int next = 0;
    for (int section = 0; section < groups.length; section++) {
      String letter = said.getOrDefault(section, letterOfGroup.get(groups[section]));
      while (letter == null) {
        String candidate = letter(next++);
        if (taken.add(candidate)) {
          letter = candidate;
          letterOfGroup.put(groups[section], candidate);
        }
      }
      letters[section] = letter;
    }
    return letters;
  }

  /** A to Z, then A1, B1 ... */
  private static String letter(int number) {
    return (char) ('A' + number % 26) + (number < 26 ? "" : String.valueOf(number / 26));
  }

  private static Form sections(
      List<Integer> starts,
      List<SectionLetters.Match> matches,
      String[] letters,
      List<Span> sectionSpans,
      BarSpans spans,
      SectionCertainty sure) {
    Map<String, Integer> seen = new HashMap<>();
    Map<Integer, Integer> lifts = new HashMap<>();
    List<Section> sections = new ArrayList<>();
    for (int section = 0; section < starts.size(); section++) {
      SectionLetters.Match match = matches.get(section);
      int lift =
          match.section() == section
              ? 0
              : match.semitones() + lifts.getOrDefault(match.section(), 0);
      lifts.put(section, lift);
      sections.add(
          new Section(
              sectionSpans.get(section),
              spans.numbers().get(starts.get(section)),
              spans.numbers().get(lastBar(starts, section, spans)),
              letters[section],
              seen.merge(letters[section], 1, Integer::sum),
              lift,
              sure.of(starts.get(section), lastBar(starts, section, spans))));
    }
    return new Form(sections);
  }

  private static int lastBar(List<Integer> starts, int section, BarSpans spans) {
    return section + 1 < starts.size() ? starts.get(section + 1) - 1 : spans.size() - 1;
  }

  private static int sectionAt(List<Span> sections, double seconds) {
    for (int section = 0; section < sections.size(); section++) {
      if (sections.get(section).contains(seconds)) {
        return section;
      }
    }
    return -1;
  }

  /** Bars compared with each other; opaque but for the evidence for boundaries. */
  public static final class Compared {
    private final BarSpans spans;
    private final SelfSimilarity bars;
    private final double[][] evidence;
    private final SoundingBars sounding;
    private final double durationSeconds;

    private Compared(
        BarSpans spans,
        SelfSimilarity bars,
        double[][] evidence,
        SoundingBars sounding,
        double durationSeconds) {
      this.spans = spans;
      this.bars = bars;
      this.evidence = evidence;
      this.sounding = sounding;
      this.durationSeconds = durationSeconds;
    }

    /** What says how sure a section is, as {@link SectionCertainty#EVIDENCE} names it. */
    public double[] certaintyEvidence(Section section) {
      int first = spans.nearestStart(section.span().startSeconds());
      double end = section.span().endSeconds();
      int last = end >= durationSeconds ? spans.size() - 1 : spans.nearestStart(end) - 1;
      return new SectionCertainty(evidence, sounding.untilRinging()).evidence(first, last);
    }

    /** {@code [bar][number]}, in the order of {@link FormSettings#boundaryWeights()}. */
    public double[][] boundaryEvidence() {
      double[][] copy = new double[evidence.length][];
      for (int bar = 0; bar < copy.length; bar++) {
        copy[bar] = evidence[bar].clone();
      }
      return copy;
    }
  }
}
