package undersong.reading;

import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import undersong.theory.ChordSymbol;
import undersong.time.Span;

/**
 * A section that returns, laid bar by bar beside its earlier copies, and what is different. What is
 * different is told against the copy before it, in this copy's bars and at this copy's pitch (a
 * copy that is transposed as a whole differs in nothing).
 *
 * @param span of this copy
 * @param letter of the music, as in the form
 * @param occurrence as in the form, from 2
 * @param against occurrence of the earlier copy the differences are told against: the copy before,
 *     or an older one where that is a fragment
 * @param bars of this copy, each with the bars of the earlier copies it stands under
 * @param settled what the differences do to the harmony, told once for all bars it happens in
 */
public record Repeat(
    Span span,
    String letter,
    int occurrence,
    int against,
    List<AlignedBar> bars,
    List<NoteChange> notes,
    List<ChordChange> chords,
    List<LayerChange> layers,
    List<PlaceChange> places,
    List<LevelChange> levels,
    List<Settled> settled) {
  public Repeat {
    if (occurrence < 2 || against < 1 || against >= occurrence) {
      throw new IllegalArgumentException(
          "Section %s%d cannot be held against copy %d; a repeat is a second copy or a later one, held against an earlier one."
              .formatted(letter, occurrence, against));
    }
    bars = List.copyOf(bars);
    notes = List.copyOf(notes);
    chords = List.copyOf(chords);
    layers = List.copyOf(layers);
    places = List.copyOf(places);
    levels = List.copyOf(levels);
    settled = List.copyOf(settled);
  }

  /**
   * @param bar number of a bar of this copy
   * @param earlier numbers of the same bar in the earlier copies, oldest first; a copy that is
   *     shorter has none
   */
  public record AlignedBar(int bar, List<Integer> earlier) {
    public AlignedBar {
      earlier = List.copyOf(earlier);
    }
  }

  /** One difference from the earlier copy. */
  public sealed interface Change {
    /** Where it is heard, in this copy. */
    Span span();

    /** Number of its bar, in this copy. */
    int bar();

    double probability();
  }

  /** What became of a note. */
  public enum NoteFate {
    ADDED,
    REMOVED,
    /** The same part, beat and length, at another pitch. */
    MOVED
  }

  /**
   * One note that is there, gone or changed.
   *
   * @param part {@code bass}, {@code melody}, {@code voice-2}, {@code line-1} ...
   * @param event the note; one that was removed is told where it would sound in this copy
   * @param beat of its onset in the bar, from 1, with fractions
   * @param pitchBefore MIDI pitch it had, at this copy's transposition; only where it moved
   * @param semitonesAboveRoot of the chord it sounds over, 0 to 11; empty where there is none
   */
  public record NoteChange(
      NoteFate fate,
      String part,
      NoteEvent event,
      int bar,
      double beat,
      Optional<Double> pitchBefore,
      Optional<Integer> semitonesAboveRoot,
      double probability)
      implements Change {
    public NoteChange {
      Probability.check(probability);
    }

    @Override
    public Span span() {
      return event.span();
    }

    Object essence() {
      return List.of(fate, part, event.essence(), bar, beat, pitchBefore, semitonesAboveRoot);
    }
  }

  /** Another chord than before; the earlier one at this copy's transposition. */
  public record ChordChange(
      Span span, int bar, double beat, ChordSymbol before, ChordSymbol after, double probability)
      implements Change {
    public ChordChange {
      Probability.check(probability);
    }

    Object essence() {
      return List.of(span, bar, beat, before, after);
    }
  }

  /**
   * A layer that the earlier copy did not have here, or had.
   *
   * @param layer a part's name or a layer's words: {@code voice-2}, {@code kick} ...
   * @param entered whether it is new; else it is gone
   */
  public record LayerChange(Span span, int bar, String layer, boolean entered, double probability)
      implements Change {
    public LayerChange {
      Probability.check(probability);
    }

    Object essence() {
      return List.of(span, bar, layer, entered);
    }
  }

  /** A part that stands elsewhere: -1 = left, 1 = right. */
  public record PlaceChange(
      Span span, int bar, String part, double before, double after, double probability)
      implements Change {
    public PlaceChange {
      Probability.check(probability);
    }

    Object essence() {
      return List.of(span, bar, part, before, after);
    }
  }

  /** A bar that is louder or softer. */
  public record LevelChange(
      Span span, int bar, double beforeLufs, double afterLufs, double probability)
      implements Change {
    public LevelChange {
      Probability.check(probability);
    }

    Object essence() {
      return List.of(span, bar, beforeLufs, afterLufs);
    }
  }

  /** Which member of a chord. */
  public enum ChordMember {
    THIRD,
    FIFTH
  }

  /**
   * A third or fifth that the earlier copy left open and this one sounds.
   *
   * @param before the chord as it was, at this copy's transposition
   * @param after the chord as it is now
   * @param part that settles it
   * @param pitchClass of the note that settles it, C = 0
   * @param beat of that note, from 1; the commonest where there are several
   * @param bars of this copy it happens in
   * @param span from the first such note to the last
   */
  public record Settled(
      ChordMember member,
      ChordSymbol before,
      ChordSymbol after,
      String part,
      int pitchClass,
      double beat,
      List<Integer> bars,
      Span span,
      double probability) {
    public Settled {
      bars = List.copyOf(bars);
      Probability.check(probability);
    }

    Object essence() {
      return List.of(member, before, after, part, pitchClass, beat, bars, span);
    }
  }

  /** Every difference, by kind. */
  public List<Change> changes() {
    return Stream.<List<? extends Change>>of(notes, chords, layers, places, levels)
        .<Change>flatMap(List::stream)
        .toList();
  }

  Object essence() {
    return List.of(
        List.of(span, letter, occurrence, against, bars),
        notes.stream().map(NoteChange::essence).toList(),
        chords.stream().map(ChordChange::essence).toList(),
        layers.stream().map(LayerChange::essence).toList(),
        places.stream().map(PlaceChange::essence).toList(),
        levels.stream().map(LevelChange::essence).toList(),
        settled.stream().map(Settled::essence).toList());
  }
}
