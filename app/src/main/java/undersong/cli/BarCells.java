package undersong.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.function.DoubleFunction;
import undersong.reading.Bar;
import undersong.reading.ChordSpan;
import undersong.reading.Facet;
import undersong.reading.HarmonyEvent;
import undersong.reading.Keys;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;
import undersong.theory.ChordQuality;
import undersong.theory.ChordSymbol;
import undersong.theory.Key;
import undersong.theory.LeadSheet;
import undersong.theory.NoteName;
import undersong.theory.Numerals;
import undersong.theory.Spelling;
import undersong.theory.SyllableSettings;
import undersong.theory.Syllables;
import undersong.time.BeatGrid;

/** What stands in each bar: chords where they really arrive, numerals, bass in syllables. */
final class BarCells {
  /** Below this probability an item is shown as open. */
  static final double OPEN_BELOW = 0.5;

  /** What arrives this near its place, in beats, is on it. */
  static final double ON_THE_BEAT = 0.125;

  /** Share of a bar that may pass before something counts as later than the bar line. */
  private static final double AT_THE_BAR_LINE = 0.05;

  private final Reading reading;
  private final BeatGrid grid;
  private final List<Bar> bars;
  private final Map<Integer, List<BarCell.ChordToken>> chords = new TreeMap<>();
  private final Map<Integer, List<BarCell.BassToken>> bass = new TreeMap<>();

  private BarCells(Reading reading) {
    this.reading = reading;
    this.grid = reading.get(Facet.BEATS).grid();
    this.bars = reading.get(Facet.METER).bars();
  }

  /** A cell for every bar, in order; empty where there are no bars. */
  static List<BarCell> of(Reading reading) {
    BarCells cells = new BarCells(reading);
    return cells.bars.isEmpty() ? List.of() : cells.cells();
  }

  static boolean isOpen(ChordSpan chord) {
    return chord.probability() < OPEN_BELOW;
  }

  /** The harmony event that belongs to a chord; empty where there is none. */
  static Optional<HarmonyEvent> eventOf(ChordSpan chord, Reading reading) {
    return reading.get(Facet.HARMONY).events().stream()
        .filter(event -> event.span().contains(chord.span().middleSeconds()))
        .findFirst();
  }

  static String numeral(HarmonyEvent event) {
    return event
        .numeral()
        .map(
            numeral ->
                numeral.quality() == ChordQuality.ROOT
                    ? numeral.root().toString()
                    : Numerals.print(numeral, event.key()))
        .orElse("");
  }

  private List<BarCell> cells() {
    placeChords();
    placeBass();
    List<BarCell> cells = new ArrayList<>();
    for (int i = 0; i < bars.size(); i++) {
      List<BarCell.ChordToken> tokens = new ArrayList<>(chords.getOrDefault(i, List.of()));
      if (tokens.isEmpty() || tokens.get(0).share() > AT_THE_BAR_LINE) {
        carriedInto(i).ifPresent(held -> tokens.add(0, held));
      }
      cells.add(new BarCell(bars.get(i).number(), tokens, bass.getOrDefault(i, List.of())));
    }
    return cells;
  }

  private void placeChords() {
    for (ChordSpan chord : reading.get(Facet.CHORDS).spans()) {
      Optional<HarmonyEvent> event = eventOf(chord, reading);
      double arrival = event.map(HarmonyEvent::arrivalBeats).orElse(0.0);
      double position = grid.positionAt(chord.span().startSeconds());
      boolean onTheBeat = Math.abs(arrival) < ON_THE_BEAT;
      String mark =
          (isOpen(chord) ? "?" : "")
              + (onTheBeat ? "" : (arrival < 0 ? " -" : " +") + Words.beats(arrival));
      place(
          chords,
          onTheBeat ? Math.rint((position - arrival) * 4) / 4 : position,
          share ->
              new BarCell.ChordToken(
                  share,
                  LeadSheet.say(chord.symbol()) + mark,
                  event.map(BarCells::numeral).orElse("")));
    }
  }

  /**
   * A chord that began in an earlier bar and still sounds: % after a bar of nothing else, unless a
   * section begins here and the eye has nothing to look back to.
   */
  private Optional<BarCell.ChordToken> carriedInto(int bar) {
    Bar here = bars.get(bar);
    double start = here.span().startSeconds();
    double justAfter = start + 0.2 * here.span().lengthSeconds() / here.beats();
    List<BarCell.ChordToken> before = chords.getOrDefault(bar - 1, List.of());
    boolean likeBefore =
        before.isEmpty() || (before.size() == 1 && before.get(0).share() < AT_THE_BAR_LINE);
    boolean opensASection =
        reading.get(Facet.FORM).sections().stream()
            .anyMatch(section -> section.firstBar() == here.number());
    return reading
        .get(Facet.CHORDS)
        .chordAt(justAfter)
        .filter(chord -> chord.span().startSeconds() < start)
        .map(
            chord ->
                new BarCell.ChordToken(
                    0,
                    likeBefore && !opensASection && bar > 0
                        ? "%"
                        : "(" + LeadSheet.say(chord.symbol()) + ")",
                    ""));
  }

  private void placeBass() {
    Keys keys = reading.get(Facet.KEYS);
    for (NoteEvent note : reading.get(Facet.BASS).notes()) {
      double middle = note.span().middleSeconds();
      Optional<Key> key = keys.keyAt(middle).or(keys::mainKey);
      ChordSymbol sounding =
          reading.get(Facet.CHORDS).chordAt(middle).map(ChordSpan::symbol).orElse(ChordSymbol.NONE);
      String words =
          key.map(k -> syllable(note, k, sounding))
              .orElseGet(() -> NoteName.ofPitchClass(note.pitchClass(), 0).toString());
      place(
          bass,
          Math.rint(grid.positionAt(note.span().startSeconds()) * 4) / 4,
          share -> new BarCell.BassToken(share, words));
    }
    bass.replaceAll((bar, tokens) -> withoutRepeats(tokens));
  }

  private static String syllable(NoteEvent note, Key key, ChordSymbol sounding) {
    return Syllables.print(
        Spelling.name(note.pitchClass(), key, sounding), key, SyllableSettings.DEFAULTS);
  }

  private static List<BarCell.BassToken> withoutRepeats(List<BarCell.BassToken> tokens) {
    List<BarCell.BassToken> moves = new ArrayList<>();
    for (BarCell.BassToken token : tokens) {
      if (moves.isEmpty() || !moves.get(moves.size() - 1).syllable().equals(token.syllable())) {
        moves.add(token);
      }
    }
    return moves;
  }

  private <T> void place(
      Map<Integer, List<T>> byBar, double beatPosition, DoubleFunction<T> token) {
    int bar = 0;
    while (bar + 1 < bars.size() && bars.get(bar + 1).firstBeat() <= beatPosition + 1e-6) {
      bar++;
    }
    double share = (beatPosition - bars.get(bar).firstBeat()) / bars.get(bar).beats();
    byBar
        .computeIfAbsent(bar, b -> new ArrayList<>())
        .add(token.apply(Math.max(0, Math.min(1, share))));
  }
}
