package undersong.technique;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import undersong.time.Span;

/**
 * One event, one finding: where several names fit the same notes the most specific is told and the
 * others stand under it. The order is ours; it is told in the catalogue.
 */
final class Precedence {
  /** A finding stands under another that covers this share of what it is about. */
  private static final double COVERED = 0.6;

  private static final Map<Technique, Set<Technique>> ABOVE =
      Map.ofEntries(
          Map.entry(
              Technique.PLAGAL_CHAIN,
              Set.of(
                  Technique.BORROWED_CHORD,
                  Technique.MODAL_COLOUR,
                  Technique.CHORD_LOOP,
                  Technique.SURPRISING_CHORD)),
          Map.entry(
              Technique.CHROMATIC_INNER_LINE,
              Set.of(
                  Technique.GUIDE_TONE_SWITCH, Technique.BORROWED_CHORD, Technique.MODAL_COLOUR)),
          Map.entry(
              Technique.GUIDE_TONE_SWITCH,
              Set.of(Technique.BORROWED_CHORD, Technique.MODAL_COLOUR)),
          Map.entry(
              Technique.MODAL_COLOUR,
              Set.of(Technique.BORROWED_CHORD, Technique.CHORD_LOOP, Technique.SURPRISING_CHORD)),
          Map.entry(
              Technique.SECONDARY_DOMINANT,
              Set.of(Technique.BORROWED_CHORD, Technique.SURPRISING_CHORD)),
          // What has a name is told by it; that it also surprises stands under it.
          Map.entry(Technique.BORROWED_CHORD, Set.of(Technique.SURPRISING_CHORD)),
          Map.entry(Technique.BROKEN_LOOP, Set.of(Technique.SURPRISING_CHORD)),
          Map.entry(
              Technique.REINTERPRETED_TONE, Set.of(Technique.TENSION_TONE, Technique.PEDAL_POINT)),
          Map.entry(Technique.UNRESOLVED_ENDING, Set.of(Technique.TENSION_TONE)),
          Map.entry(Technique.THREE_THREE_TWO, Set.of(Technique.SYNCOPATED_BASS)),
          Map.entry(Technique.ANTICIPATED_CHANGES, Set.of(Technique.SYNCOPATED_BASS)),
          Map.entry(Technique.KEY_LIFT, Set.of(Technique.MODULATION, Technique.MELODIC_PEAK)),
          // At home in the new key, they are strangers in the old one only.
          Map.entry(
              Technique.MODULATION, Set.of(Technique.BORROWED_CHORD, Technique.SURPRISING_CHORD)),
          Map.entry(Technique.DELAY_THROW, Set.of(Technique.ECHO)),
          Map.entry(
              Technique.CLIMAX_AT_END, Set.of(Technique.BREAKOUT_CHORUS, Technique.MELODIC_PEAK)));

  private Precedence() {}

  /** The findings that are told, the others listed under those that stand for them. */
  static List<Finding> settle(List<Finding> findings) {
    List<Finding> told = new ArrayList<>();
    for (Finding finding : findings) {
      if (findings.stream().noneMatch(other -> standsFor(other, finding))) {
        Set<Technique> under = new LinkedHashSet<>(finding.under());
        collect(finding, findings, under);
        told.add(finding.withUnder(List.copyOf(under)));
      }
    }
    return told;
  }

  /** What stands under a finding stands also under the one above it. */
  private static void collect(Finding specific, List<Finding> findings, Set<Technique> under) {
    for (Finding general : findings) {
      if (standsFor(specific, general)) {
        under.add(general.technique());
        collect(general, findings, under);
      }
    }
  }

  private static boolean standsFor(Finding specific, Finding general) {
    // A doubtful guess must not hide what is sure.
    return ABOVE.getOrDefault(specific.technique(), Set.of()).contains(general.technique())
        && specific.probability() >= Math.min(0.5, general.probability())
        && specific.span().overlaps(general.span())
        && covered(notes(general), notes(specific)) >= COVERED;
  }

  /** What a finding is about: the places it reads, or all of its span. */
  private static List<Span> notes(Finding finding) {
    List<Span> read =
        finding.evidence().stream()
            .filter(Evidence.Read.class::isInstance)
            .map(piece -> ((Evidence.Read) piece).span())
            .sorted(Comparator.comparingDouble(Span::startSeconds))
            .toList();
    List<Span> joined = new ArrayList<>();
    for (Span span : read) {
      int last = joined.size() - 1;
      if (last >= 0 && span.startSeconds() <= joined.get(last).endSeconds()) {
        double end = Math.max(joined.get(last).endSeconds(), span.endSeconds());
        joined.set(last, new Span(joined.get(last).startSeconds(), end));
      } else {
        joined.add(span);
      }
    }
    return joined.isEmpty() ? List.of(finding.span()) : joined;
  }

  /** Share of some places that lies within others; neither overlap among themselves. */
  private static double covered(List<Span> places, List<Span> others) {
    double all = 0;
    double inside = 0;
    for (Span place : places) {
      all += place.lengthSeconds();
      for (Span other : others) {
        inside += place.overlapSeconds(other);
      }
    }
    return inside / all;
  }
}
