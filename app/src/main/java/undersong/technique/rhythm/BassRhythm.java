package undersong.technique.rhythm;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import undersong.reading.Bar;
import undersong.reading.Facet;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;
import undersong.technique.BarRange;
import undersong.technique.Certainty;
import undersong.technique.Finding;
import undersong.technique.FindingDraft;
import undersong.technique.Pulse;
import undersong.technique.SongSection;
import undersong.technique.Technique;
import undersong.technique.TechniqueFinder;
import undersong.time.Span;

/** A bass that leans off the beat, and one that groups eight eighths as 3 + 3 + 2. */
final class BassRhythm implements TechniqueFinder {
  private static final Set<Integer> THREE_THREE_TWO = Set.of(0, 3, 6);

  /** A note that hangs over into a bar does not make it one with bass. */
  private static final double LEAST_SHARE_SOUNDING = 0.05;

  private final Settings settings;

  BassRhythm(Settings settings) {
    this.settings = settings;
  }

  /**
   * @param leastSyncopation of a bar on average, after Longuet-Higgins and Lee
   * @param leastShare of the bars that lean, or begin nothing outside a grouping 3 + 3 + 2
   * @param leastWholeShare of the bars that have all three notes of that grouping: where two notes
   *     of one pitch touch, one of them is easily missed
   * @param leastBars with bass in the section
   * @param blockBars that are looked at by themselves where a section does not lean as a whole
   */
  record Settings(
      double leastSyncopation,
      double leastShare,
      double leastWholeShare,
      int leastBars,
      int blockBars) {
    static final Settings DEFAULTS = new Settings(1.5, 0.7, 0.45, 4, 8);
  }

  @Override
  public Set<Technique> techniques() {
    return Set.of(Technique.SYNCOPATED_BASS, Technique.THREE_THREE_TWO);
  }

  @Override
  public Set<Facet<?>> reads() {
    return Set.of(Facet.BEATS, Facet.METER, Facet.BASS, Facet.FORM, Facet.ROLES);
  }

  @Override
  public List<Finding> find(Reading reading) {
    Pulse pulse = Pulse.of(reading);
    if (!pulse.isThere()) {
      return List.of();
    }
    List<NoteEvent> bass = reading.get(Facet.BASS).notes();
    EighthGrid grid = new EighthGrid(reading, pulse);
    List<Finding> findings = new ArrayList<>();
    for (SongSection section : SongSection.of(reading)) {
      List<NoteEvent> notes =
          bass.stream()
              .filter(
                  note ->
                      note.span().startSeconds() >= section.span().startSeconds() - 0.3
                          && note.span().startSeconds() < section.span().endSeconds() + 0.3)
              .toList();
      List<Bar> bars =
          pulse.meter().bars().stream()
              .filter(
                  bar ->
                      bar.number() >= section.section().firstBar()
                          && bar.number() <= section.section().lastBar())
              .toList();
      double sure =
          notes.stream().mapToDouble(NoteEvent::probability).average().orElse(0)
              * pulse.barsProbability();
      List<Place> whole = List.of(new Place(section, bars));
      List<Place> blocks = blocks(section, bars, pulse.meter().usualBarsPerBar());
      for (boolean grouped : new boolean[] {false, true}) {
        List<Finding> told = told(grouped, whole, notes, grid, sure);
        findings.addAll(told.isEmpty() ? told(grouped, blocks, notes, grid, sure) : told);
      }
    }
    return findings;
  }

  /** The bars of a section, or some of them. */
  private record Place(SongSection section, List<Bar> bars) {
    Span span() {
      return new Span(
          bars.get(0).span().startSeconds(), bars.get(bars.size() - 1).span().endSeconds());
    }

    Optional<BarRange> barRange() {
      return Optional.of(new BarRange(bars.get(0).number(), bars.get(bars.size() - 1).number()));
    }
  }

  /** A long section is often two, or changes halfway: its parts of eight bars. */
  private List<Place> blocks(SongSection section, List<Bar> bars, int usualBarsPerBar) {
    List<Place> blocks = new ArrayList<>();
    int size = settings.blockBars() / usualBarsPerBar;
    for (int from = 0; bars.size() >= 2 * size && from + size <= bars.size(); from += size) {
      blocks.add(new Place(section, bars.subList(from, from + size)));
    }
    return blocks;
  }

  /** Without the bars before the bass enters and after its last note. */
  private static Place fromFirstToLast(Place place, List<NoteEvent> notes) {
    List<Bar> bars = place.bars().stream().dropWhile(bar -> !sounds(bar, notes)).toList();
    int last = bars.size();
    while (last > 0 && !sounds(bars.get(last - 1), notes)) {
      last--;
    }
    return last == 0 ? place : new Place(place.section(), bars.subList(0, last));
  }

  private static boolean sounds(Bar bar, List<NoteEvent> notes) {
    double least = LEAST_SHARE_SOUNDING * bar.span().lengthSeconds();
    return notes.stream().anyMatch(note -> note.span().overlapSeconds(bar.span()) > least);
  }

  private List<Finding> told(
      boolean grouped, List<Place> places, List<NoteEvent> notes, EighthGrid grid, double sure) {
    List<Finding> told = new ArrayList<>();
    for (Place place : places) {
      Tally tally = tally(place.bars(), notes, grid);
      if (tally.bars() >= settings.leastBars()) {
        Place heard = fromFirstToLast(place, notes);
        (grouped ? grouped(heard, tally, sure) : syncopated(heard, tally, sure))
            .ifPresent(told::add);
      }
    }
    return told;
  }

  /**
   * @param bars with bass in them
   * @param syncopation of all of them
   * @param leaning bars with any
   * @param whole bars of eight eighths, or twice eight sixteenths, grouped 3 + 3 + 2
   * @param grouped those, and bars in which one note of the grouping is missing
   */
  private record Tally(int bars, int syncopation, int leaning, int whole, int grouped) {}

  private static Tally tally(List<Bar> bars, List<NoteEvent> notes, EighthGrid grid) {
    int sounding = 0;
    int sum = 0;
    int leaning = 0;
    int whole = 0;
    int grouped = 0;
    List<Rhythm> rhythms = rhythms(bars, notes, grid);
    for (int i = 0; i < rhythms.size(); i++) {
      boolean[] here = rhythms.get(i).onsets;
      if (isSilent(here)) {
        continue;
      }
      sounding++;
      boolean nextBegins = i + 1 == rhythms.size() || rhythms.get(i + 1).onsets[0];
      int syncopation = Syncopation.ofBar(here, nextBegins, rhythms.get(i).weights);
      sum += syncopation;
      leaning += syncopation > 0 ? 1 : 0;
      int notesOfGrouping = Math.max(notesOfGrouping(here), rhythms.get(i).groupedInHalves);
      whole += notesOfGrouping == 3 ? 1 : 0;
      grouped += notesOfGrouping >= 2 ? 1 : 0;
    }
    return new Tally(sounding, sum, leaning, whole, grouped);
  }

  /**
   * Onsets of a bar on its eighths, or of half a bar on its sixteenths where the beat seems felt
   * half as fast.
   */
  private static final class Rhythm {
    private final boolean[] onsets;
    private final int[] weights;
    private final int groupedInHalves;

    Rhythm(boolean[] onsets, int[] weights, int groupedInHalves) {
      this.onsets = onsets;
      this.weights = weights;
      this.groupedInHalves = groupedInHalves;
    }
  }

  private static List<Rhythm> rhythms(List<Bar> bars, List<NoteEvent> notes, EighthGrid grid) {
    List<Rhythm> rhythms = new ArrayList<>();
    for (Bar bar : bars) {
      if (grid.isFeltHalfAsFast() && bar.beats() == 4 && !bar.signature().compound()) {
        boolean[] onsets = grid.sixteenths(bar, notes);
        int[] weights = Syncopation.weights(4, 2);
        rhythms.add(new Rhythm(Arrays.copyOfRange(onsets, 0, 8), weights, 0));
        rhythms.add(new Rhythm(Arrays.copyOfRange(onsets, 8, 16), weights, 0));
      } else {
        int[] weights = Syncopation.weights(bar.beats(), EighthGrid.eighthsPerBeat(bar));
        rhythms.add(new Rhythm(grid.onsets(bar, notes), weights, inSixteenths(bar, notes, grid)));
      }
    }
    return rhythms;
  }

  private static boolean isSilent(boolean[] onsets) {
    for (boolean onset : onsets) {
      if (onset) {
        return false;
      }
    }
    return true;
  }

  /** Notes of the grouping 3 + 3 + 2 in a bar that begins with it and has no others; else 0. */
  private static int notesOfGrouping(boolean[] onsets) {
    int notes = 0;
    for (int i = 0; i < onsets.length; i++) {
      if (onsets[i] && !THREE_THREE_TWO.contains(i)) {
        return 0;
      }
      notes += onsets[i] ? 1 : 0;
    }
    return onsets.length == 8 && onsets[0] ? notes : 0;
  }

  /**
   * The same in both halves of a bar of four beats, eight sixteenths each: as one writes it where
   * the beat is felt half as fast. The poorer half counts.
   */
  private static int inSixteenths(Bar bar, List<NoteEvent> notes, EighthGrid grid) {
    if (bar.beats() != 4 || bar.signature().compound()) {
      return 0;
    }
    boolean[] onsets = grid.sixteenths(bar, notes);
    return Math.min(
        notesOfGrouping(Arrays.copyOfRange(onsets, 0, 8)),
        notesOfGrouping(Arrays.copyOfRange(onsets, 8, 16)));
  }

  private Optional<Finding> syncopated(Place place, Tally tally, double sure) {
    double mean = (double) tally.syncopation() / tally.bars();
    double share = (double) tally.leaning() / tally.bars();
    if (mean < settings.leastSyncopation() || share < settings.leastShare()) {
      return Optional.empty();
    }
    return Optional.of(
        FindingDraft.of(Technique.SYNCOPATED_BASS, place.span())
            .bars(place.barRange())
            .sure(sure, Certainty.beyond(mean, settings.leastSyncopation() - 0.3, 0.4))
            .strength(mean / 6)
            .group(place.section().letter())
            .says("summary", place.section().words(), tally.leaning(), tally.bars())
            .hear("hear")
            .atLeast("syncopation", mean, settings.leastSyncopation(), "")
            .atLeast("share", 100 * share, 100 * settings.leastShare(), "%")
            .make());
  }

  private Optional<Finding> grouped(Place place, Tally tally, double sure) {
    double share = (double) tally.grouped() / tally.bars();
    double wholeShare = (double) tally.whole() / tally.bars();
    if (tally.grouped() < settings.leastBars()
        || share < settings.leastShare()
        || wholeShare < settings.leastWholeShare()) {
      return Optional.empty();
    }
    return Optional.of(
        FindingDraft.of(Technique.THREE_THREE_TWO, place.span())
            .bars(place.barRange())
            .sure(sure, Certainty.beyond(share, settings.leastShare() - 0.1, 0.1))
            .strength(0.5)
            .group(place.section().letter())
            .says("summary", place.section().words(), tally.grouped(), tally.bars())
            .hear("hear")
            .atLeast("whole", 100 * wholeShare, 100 * settings.leastWholeShare(), "%")
            .atLeast("share", 100 * share, 100 * settings.leastShare(), "%")
            .make());
  }
}
