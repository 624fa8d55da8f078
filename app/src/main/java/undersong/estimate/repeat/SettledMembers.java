package undersong.estimate.repeat;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import undersong.reading.ChordSpan;
import undersong.reading.Member;
import undersong.reading.Repeat.ChordMember;
import undersong.reading.Repeat.Settled;
import undersong.theory.ChordSymbol.Chord;
import undersong.time.Span;

/**
 * Thirds and fifths that the earlier copy left open and the later one sounds: which, by what part,
 * on which beat; the same one through several bars is told once.
 */
final class SettledMembers {
  /** A note settles a chord it sounds over for at least this share of. */
  private static final double SOUNDS_SHARE = 0.15;

  private static final String CHORDS = "chords";

  private final Parts parts;
  private final undersong.time.BeatGrid grid;

  SettledMembers(Parts parts, undersong.time.BeatGrid grid) {
    this.parts = parts;
    this.grid = grid;
  }

  private record Kind(ChordMember member, Chord before, Chord after, String part, int pitchClass) {}

  private record Place(ChordChanges.Pair pair, double beat, Span span, double probability) {}

  List<Settled> among(List<ChordChanges.Pair> pairs, RepeatSettings settings) {
    Map<Kind, List<Place>> places = new LinkedHashMap<>();
    for (ChordChanges.Pair pair : pairs) {
      if (pair.sameRoot()) {
        ChordChanges.third(pair.now())
            .filter(third -> opens(pair, ChordMember.THIRD))
            .ifPresent(third -> add(pair, ChordMember.THIRD, third, places));
        ChordChanges.fifth(pair.now())
            .filter(fifth -> opens(pair, ChordMember.FIFTH))
            .ifPresent(fifth -> add(pair, ChordMember.FIFTH, fifth, places));
      }
    }
    List<Settled> settled = new ArrayList<>();
    places.forEach((kind, where) -> settled.add(told(kind, where)));
    settled.removeIf(one -> one.probability() < settings.leastProbability());
    settled.sort(Comparator.comparingDouble(one -> one.span().startSeconds()));
    return settled;
  }

  private static boolean opens(ChordChanges.Pair pair, ChordMember member) {
    return !member(pair.before(), member).sounds()
        && member(pair.after(), member).sounds()
        && (member == ChordMember.THIRD
                ? ChordChanges.third(pair.moved())
                : ChordChanges.fifth(pair.moved()))
            .isEmpty();
  }

  private static Member member(ChordSpan chord, ChordMember member) {
    return member == ChordMember.THIRD ? chord.third() : chord.fifth();
  }

  private void add(
      ChordChanges.Pair pair, ChordMember member, int semitones, Map<Kind, List<Place>> places) {
    int pitchClass = Math.floorMod(pair.now().root().pitchClass() + semitones, 12);
    double from = grid.positionAt(pair.span().startSeconds());
    double to = grid.positionAt(pair.span().endSeconds());
    Optional<PlacedNote> note =
        parts.sounding(from, to).stream()
            .filter(n -> n.event().pitchClass() == pitchClass)
            .filter(
                n ->
                    n.event().span().overlapSeconds(pair.span())
                        >= SOUNDS_SHARE * pair.span().lengthSeconds())
            .max(Comparator.comparingDouble(n -> n.event().probability()));
    double beat =
        note.map(n -> Math.round((n.startBeat() - pair.bar().firstBeat()) * 4) / 4.0 + 1)
            .orElse(pair.beat());
    Kind kind =
        new Kind(
            member,
            pair.moved(),
            pair.now(),
            note.map(PlacedNote::part).orElse(CHORDS),
            pitchClass);
    places
        .computeIfAbsent(kind, k -> new ArrayList<>())
        .add(
            new Place(
                pair,
                Math.max(1, beat),
                note.map(n -> n.event().span()).orElse(pair.span()),
                pair.probability()));
  }

  /** In several bars it is surer than in one, though the same mishearing may be behind them all. */
  private static Settled told(Kind kind, List<Place> places) {
    Map<Double, Integer> beats = new TreeMap<>();
    places.forEach(place -> beats.merge(place.beat(), 1, Integer::sum));
    double beat =
        beats.entrySet().stream().max(Map.Entry.comparingByValue()).orElseThrow().getKey();
    double best = places.stream().mapToDouble(Place::probability).max().orElseThrow();
    double doubt = Math.pow(1 - best, 1 + 0.4 * Math.min(4, places.size() - 1));
    double start = places.stream().mapToDouble(p -> p.span().startSeconds()).min().orElseThrow();
    double end = places.stream().mapToDouble(p -> p.span().endSeconds()).max().orElseThrow();
    return new Settled(
        kind.member(),
        kind.before(),
        kind.after(),
        kind.part(),
        kind.pitchClass(),
        beat,
        places.stream().map(place -> place.pair().bar().number()).distinct().toList(),
        new Span(start, end),
        1 - doubt);
  }
}
