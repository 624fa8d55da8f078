package undersong.technique.rhythm;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import undersong.reading.Bar;
import undersong.reading.Facet;
import undersong.reading.Reading;
import undersong.technique.Certainty;
import undersong.technique.ChordPath;
import undersong.technique.ChordStep;
import undersong.technique.Finding;
import undersong.technique.FindingDraft;
import undersong.technique.Pulse;
import undersong.technique.SongSection;
import undersong.technique.Technique;
import undersong.technique.TechniqueFinder;
import undersong.time.Span;

/** Most chord changes of a section arrive the same distance before the place they belong to. */
final class AnticipatedChanges implements TechniqueFinder {
  private final Settings settings;

  AnticipatedChanges(Settings settings) {
    this.settings = settings;
  }

  /**
   * @param leastShare of the changes that must be early
   * @param leastBeats by which
   * @param mostBeats by which; earlier they belong elsewhere
   * @param spreadBeats within which their distances must agree
   * @param leastChanges in the section
   * @param blockBars that are looked at by themselves where a section is not early as a whole
   */
  record Settings(
      double leastShare,
      double leastBeats,
      double mostBeats,
      double spreadBeats,
      int leastChanges,
      int blockBars) {
    static final Settings DEFAULTS = new Settings(0.7, 0.2, 1.05, 0.2, 3, 8);
  }

  @Override
  public Set<Technique> techniques() {
    return Set.of(Technique.ANTICIPATED_CHANGES);
  }

  @Override
  public Set<Facet<?>> reads() {
    return Set.of(Facet.BEATS, Facet.METER, Facet.CHORDS, Facet.HARMONY, Facet.FORM, Facet.ROLES);
  }

  @Override
  public List<Finding> find(Reading reading) {
    Pulse pulse = Pulse.of(reading);
    if (!pulse.isThere()) {
      return List.of();
    }
    ChordPath path = ChordPath.of(reading);
    List<Finding> findings = new ArrayList<>();
    for (SongSection section : SongSection.of(reading)) {
      Optional<Finding> whole = early(section, section.span(), path, pulse);
      whole.ifPresent(findings::add);
      if (whole.isEmpty()) {
        blocks(section, pulse)
            .forEach(block -> early(section, block, path, pulse).ifPresent(findings::add));
      }
    }
    return findings;
  }

  /** A long section is often two, or changes halfway: its parts of eight bars. */
  private List<Span> blocks(SongSection section, Pulse pulse) {
    List<Span> bars =
        pulse.meter().bars().stream()
            .filter(
                bar ->
                    bar.number() >= section.section().firstBar()
                        && bar.number() <= section.section().lastBar())
            .map(Bar::span)
            .toList();
    List<Span> blocks = new ArrayList<>();
    int size = settings.blockBars();
    for (int from = 0; bars.size() >= 2 * size && from + size <= bars.size(); from += size) {
      blocks.add(new Span(bars.get(from).startSeconds(), bars.get(from + size - 1).endSeconds()));
    }
    return blocks;
  }

  private Optional<Finding> early(SongSection section, Span span, ChordPath path, Pulse pulse) {
    List<ChordStep> changes = changes(path, span, pulse);
    double lag = commonLag(changes);
    List<ChordStep> early = changes.stream().filter(step -> agrees(step, lag)).toList();
    boolean enough =
        changes.size() >= settings.leastChanges()
            && early.size() >= settings.leastShare() * changes.size();
    return enough
        ? Optional.of(finding(section, span, changes, early, lag, pulse))
        : Optional.empty();
  }

  /** Chords that arrive in a span, or so shortly before it that they belong to it. */
  private static List<ChordStep> changes(ChordPath path, Span span, Pulse pulse) {
    List<ChordStep> changes = new ArrayList<>();
    double start = pulse.grid().positionAt(span.startSeconds());
    double end = pulse.grid().positionAt(span.endSeconds());
    ChordStep before = null;
    for (ChordStep step : path.steps()) {
      // A chord that only goes on over the border arrives nowhere in this section.
      boolean arrives =
          Math.abs(step.span().startSeconds() - step.event().span().startSeconds()) < 0.05;
      double arrival = Math.min(0, step.event().arrivalBeats());
      double place = pulse.grid().positionAt(step.span().startSeconds()) - arrival;
      boolean another = before == null || !before.chord().equals(step.chord());
      if (arrives && another && place >= start - 0.15 && place < end - 0.15) {
        changes.add(step);
      }
      before = step;
    }
    return changes;
  }

  /** The distance most early changes share, negative; 0 where none is early. */
  private double commonLag(List<ChordStep> changes) {
    double best = 0;
    long most = 0;
    for (ChordStep candidate : changes) {
      double lag = candidate.event().arrivalBeats();
      long agreeing = changes.stream().filter(step -> agrees(step, lag)).count();
      if (agreeing > most) {
        most = agreeing;
        best = lag;
      }
    }
    return best;
  }

  private boolean agrees(ChordStep step, double lag) {
    double arrival = step.event().arrivalBeats();
    return -arrival >= settings.leastBeats()
        && -arrival <= settings.mostBeats()
        && Math.abs(arrival - lag) <= settings.spreadBeats();
  }

  private Finding finding(
      SongSection section,
      Span span,
      List<ChordStep> changes,
      List<ChordStep> early,
      double lag,
      Pulse pulse) {
    double mean =
        early.stream().mapToDouble(step -> -step.event().arrivalBeats()).average().orElse(-lag);
    double share = (double) early.size() / changes.size();
    int needed = (int) Math.ceil(settings.leastShare() * early.size());
    FindingDraft draft =
        FindingDraft.of(Technique.ANTICIPATED_CHANGES, span)
            .bars(pulse.bars(span))
            .sure(
                pulse.barsProbability(),
                Certainty.atLeast(needed, early.stream().map(ChordStep::sureOfRoot).toList()),
                Certainty.beyond(share, settings.leastShare() - 0.1, 0.1))
            .strength(0.4 + 0.6 * share * Math.min(1, changes.size() / 8.0))
            .group(section.letter())
            .says(
                early.size() == changes.size() ? "summary.all" : "summary",
                early.size(),
                changes.size(),
                section.words(),
                mean)
            .hear("hear")
            .atLeast("share", 100 * share, 100 * settings.leastShare(), "%")
            .atLeast("lead", mean, settings.leastBeats(), "beats");
    for (ChordStep step : early) {
      draft.read(Facet.HARMONY, step.span(), step.chordText());
    }
    return draft.make();
  }
}
