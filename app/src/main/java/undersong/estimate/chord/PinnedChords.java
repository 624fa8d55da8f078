package undersong.estimate.chord;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import undersong.reading.ChordSpan;
import undersong.reading.Correction;
import undersong.reading.CorrectionEntry;
import undersong.reading.Corrections;
import undersong.reading.Member;
import undersong.theory.ChordQuality;
import undersong.theory.ChordSymbol;
import undersong.time.Span;

/**
 * The listener's word on chords: pinned while decoding, then laid over exactly where it was said.
 */
final class PinnedChords {
  static final int FREE = -1;

  private final List<Correction> placed = new ArrayList<>();
  private final List<Correction> unplaced = new ArrayList<>();
  private final double durationSeconds;

  PinnedChords(Corrections corrections, double durationSeconds) {
    this.durationSeconds = durationSeconds;
    for (CorrectionEntry entry : corrections.entries()) {
      Correction said = entry.correction();
      if (said instanceof Correction.ChordOver || said instanceof Correction.NoThirdOver) {
        (spanOf(said).startSeconds() < durationSeconds ? placed : unplaced).add(said);
      }
    }
  }

  private static Span spanOf(Correction said) {
    return said instanceof Correction.ChordOver chord
        ? chord.span()
        : ((Correction.NoThirdOver) said).span();
  }

  List<Correction> unplaced() {
    return unplaced;
  }

  /** The pinned state of each step, {@link #FREE} where nothing is said; the newest wins. */
  int[] states(StepGrid grid) {
    int[] pins = new int[grid.steps()];
    Arrays.fill(pins, FREE);
    for (Correction said : placed) {
      if (said instanceof Correction.ChordOver over) {
        int from = grid.nearestStart(over.span().startSeconds());
        int to = Math.max(from + 1, grid.nearestBoundary(over.span().endSeconds()));
        Arrays.fill(pins, from, Math.min(to, pins.length), ChordStates.nearest(over.chord()));
      }
    }
    return pins;
  }

  /** The spans with every correction in place; no leftover shorter than the given length. */
  List<ChordSpan> laidOver(List<ChordSpan> spans, double shortestSeconds) {
    List<Piece> pieces = new ArrayList<>(spans.stream().map(s -> new Piece(s, false)).toList());
    for (Correction said : placed) {
      pieces = withOne(pieces, said);
    }
    return joined(pieces, shortestSeconds).stream().map(Piece::chord).toList();
  }

  private record Piece(ChordSpan chord, boolean said) {
    Piece over(double startSeconds, double endSeconds) {
      return new Piece(chord.over(new Span(startSeconds, endSeconds)), said);
    }

    double seconds() {
      return chord.span().lengthSeconds();
    }
  }

  private List<Piece> withOne(List<Piece> pieces, Correction said) {
    double from = spanOf(said).startSeconds();
    double to = Math.min(durationSeconds, spanOf(said).endSeconds());
    List<Piece> out = new ArrayList<>();
    boolean added = false;
    for (Piece piece : pieces) {
      double start = piece.chord().span().startSeconds();
      double end = piece.chord().span().endSeconds();
      if (end <= from || start >= to) {
        out.add(piece);
        continue;
      }
      if (start < from) {
        out.add(piece.over(start, from));
      }
      if (said instanceof Correction.ChordOver over) {
        if (!added) {
          out.add(new Piece(asSaid(piece.chord(), new Span(from, to), over.chord()), true));
          added = true;
        }
      } else {
        ChordSpan open = piece.chord().over(new Span(Math.max(start, from), Math.min(end, to)));
        out.add(new Piece(withoutThird(open), true));
      }
      if (end > to) {
        out.add(piece.over(to, end));
      }
    }
    return out;
  }

  /** Leftovers too short to be chords go to the chord before them, or else to the one after. */
  private static List<Piece> joined(List<Piece> pieces, double shortestSeconds) {
    List<Piece> out = new ArrayList<>();
    double start = pieces.get(0).chord().span().startSeconds();
    for (int i = 0; i < pieces.size(); i++) {
      Piece piece = pieces.get(i).over(start, pieces.get(i).chord().span().endSeconds());
      boolean cut =
          (i > 0 && pieces.get(i - 1).said())
              || (i + 1 < pieces.size() && pieces.get(i + 1).said());
      boolean sliver = !piece.said() && cut && piece.seconds() < shortestSeconds;
      if (sliver && out.isEmpty() && i + 1 < pieces.size()) {
        continue; // the next chord begins where this sliver did
      }
      start = piece.chord().span().endSeconds();
      if (!out.isEmpty() && (sliver || sameFree(out.get(out.size() - 1), piece))) {
        Piece last = out.remove(out.size() - 1);
        out.add(last.over(last.chord().span().startSeconds(), start));
      } else {
        out.add(piece);
      }
    }
    return out;
  }

  private static boolean sameFree(Piece one, Piece other) {
    return !one.said() && !other.said() && one.chord().symbol().equals(other.chord().symbol());
  }

  private static ChordSpan asSaid(ChordSpan heard, Span span, ChordSymbol said) {
    Member third = Member.ABSENT;
    Member fifth = Member.ABSENT;
    Member seventh = Member.ABSENT;
    if (said instanceof ChordSymbol.Chord chord) {
      ChordQuality quality = chord.quality();
      third = quality.hasNoThird() ? Member.ABSENT : heardOrSaid(heard.third());
      boolean fifthSaid = chord.degrees().stream().anyMatch(d -> d.number() == 5);
      fifth = fifthSaid ? heardOrSaid(heard.fifth()) : Member.ABSENT;
      boolean seventhSaid = chord.degrees().stream().anyMatch(d -> d.number() == 7);
      seventh = seventhSaid ? heardOrSaid(heard.seventh()) : Member.ABSENT;
    }
    return new ChordSpan(span, said, third, fifth, seventh, 1, List.of(), Optional.empty());
  }

  /** Said to sound: so it does, in the accompaniment unless it was heard in the voices. */
  private static Member heardOrSaid(Member heard) {
    return heard.sounds() ? heard : Member.SOUNDING;
  }

  private static ChordSpan withoutThird(ChordSpan chord) {
    if (!(chord.symbol() instanceof ChordSymbol.Chord named) || named.quality().hasNoThird()) {
      return chord;
    }
    ChordQuality open =
        chord.fifth().sounds() && named.quality().contains(7)
            ? ChordQuality.FIFTH
            : ChordQuality.ROOT;
    return new ChordSpan(
        chord.span(),
        ChordSymbol.of(named.root(), open, named.bass()),
        Member.ABSENT,
        chord.fifth(),
        chord.seventh(),
        1,
        chord.runnersUp(),
        Optional.empty());
  }
}
