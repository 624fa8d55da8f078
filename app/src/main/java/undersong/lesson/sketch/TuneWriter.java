package undersong.lesson.sketch;

import java.util.ArrayList;
import java.util.List;
import java.util.random.RandomGenerator;
import undersong.lesson.sketch.Shape.Tune;
import undersong.theory.ChordSymbol.Chord;
import undersong.theory.Key;
import undersong.theory.NoteName;

/**
 * Writes a tune over chords, a bar of eighths at a time: chord tones on strong beats, steps of the
 * scale between; no leap above a fifth; no fifths or octaves in parallel with the bass from bar to
 * bar. Rules of two-voice writing as in Open Music Theory, "counterpoint" (from memory).
 */
final class TuneWriter {
  private static final int EIGHTHS = 8;
  private static final int WIDEST_LEAP = 7;
  private static final int WIDEST_ALLOWED = 9;
  private static final int MOST_DRAFTS = 30;
  private static final int[][] RHYTHMS = {
    {0, 2, 4, 6}, {0, 3, 4, 6}, {0, 2, 4, 5, 6}, {0, 2, 3, 4, 6}, {0, 4, 6}, {0, 1, 2, 4, 6}
  };
  private static final int[] LAST_BAR = {0, 4};
  private static final int STOP_EIGHTHS = 3;
  private static final int CALL_EIGHTHS = 6;

  /**
   * @param eighth where it begins, from the section's first
   * @param eighths it lasts
   */
  record Note(int eighth, int eighths, int midi) {}

  private final Key key;
  private final RandomGenerator random;
  private final int center;
  private int lowest;
  private int highest;
  private int last;

  TuneWriter(Key key, RandomGenerator random) {
    this.key = key;
    this.random = random;
    this.center = 66 + Math.floorMod(key.tonic().pitchClass() - 66, 12) - 4;
    this.last = center;
  }

  /** Drafts until no leap is wider than a sixth; the last draft stands where none is. */
  List<Note> write(List<Chord> chords, Tune tune) {
    List<Note> notes = draft(chords, tune);
    for (int i = 1; i < MOST_DRAFTS && widestLeap(notes) > WIDEST_ALLOWED; i++) {
      notes = draft(chords, tune);
    }
    return notes;
  }

  private static int widestLeap(List<Note> notes) {
    int widest = 0;
    for (int i = 1; i < notes.size(); i++) {
      widest = Math.max(widest, Math.abs(notes.get(i).midi() - notes.get(i - 1).midi()));
    }
    return widest;
  }

  private List<Note> draft(List<Chord> chords, Tune tune) {
    List<Note> notes = new ArrayList<>();
    int[] rhythm = RHYTHMS[random.nextInt(RHYTHMS.length)];
    int[] answer = RHYTHMS[random.nextInt(RHYTHMS.length)];
    lowest = center + (tune == Tune.HIGH ? 6 : -7);
    highest = center + (tune == Tune.HIGH ? 14 : tune == Tune.LOW ? 2 : 9);
    last = tune == Tune.HIGH ? center + 10 : tune == Tune.LOW ? center - 2 : center;
    if (tune == Tune.SEQUENCE) {
      return sequence(chords);
    }
    if (tune == Tune.HELD) {
      return held(chords);
    }
    for (int bar = 0; bar < chords.size(); bar++) {
      boolean ends = bar + 1 == chords.size();
      boolean rests = tune == Tune.TENSION && bar % 2 == 1;
      int[] starts = ends ? LAST_BAR : bar % 2 == 0 ? rhythm : answer;
      boolean left = tune == Tune.CALLS && bar % 2 == 1;
      if (tune == Tune.STOPS && ends) {
        int midi = chordTone(chords.get(bar), chords.get(bar - 1), true, notes);
        notes.add(new Note(EIGHTHS * bar, STOP_EIGHTHS, midi));
      } else if (rests) {
        notes.add(new Note(EIGHTHS * bar, EIGHTHS - 1, tension(chords.get(bar))));
        last = notes.get(notes.size() - 1).midi();
      } else if (!left) {
        bar(notes, chords, bar, starts);
      }
    }
    return tune == Tune.CALLS ? calls(notes) : notes;
  }

  /** Calls leave the end of their bar free, to be told apart from their answers. */
  private static List<Note> calls(List<Note> notes) {
    return notes.stream()
        .filter(note -> note.eighth() % EIGHTHS < CALL_EIGHTHS)
        .map(
            note ->
                new Note(
                    note.eighth(),
                    Math.min(note.eighths(), CALL_EIGHTHS - note.eighth() % EIGHTHS),
                    note.midi()))
        .toList();
  }

  /** Answers to {@link Tune#CALLS}: in every second bar members of its chord, in one rhythm. */
  List<Note> answers(List<Chord> chords) {
    int[][] rhythms = {{0, 2, 3}, {0, 2, 4}, {0, 3, 4}};
    int[] rhythm = rhythms[random.nextInt(rhythms.length)];
    lowest = center - 7;
    highest = center + 9;
    last = center;
    List<Note> notes = new ArrayList<>();
    for (int bar = 1; bar < chords.size(); bar += 2) {
      for (int i = 0; i < rhythm.length; i++) {
        last = chordTone(chords.get(bar), chords.get(bar), false, notes);
        int end = i + 1 < rhythm.length ? rhythm[i + 1] : CALL_EIGHTHS;
        notes.add(new Note(EIGHTHS * bar + rhythm[i], end - rhythm[i], last));
      }
    }
    return notes;
  }

  /** One bar of the five tones 1 2 3 5 6 of major or 1 b3 4 5 b7 of minor, again in every bar. */
  List<Note> figure(int bars) {
    int[] five =
        key.mode().hasMinorThird() ? new int[] {0, 3, 5, 7, 10} : new int[] {0, 2, 4, 7, 9};
    int[][] rhythms = {{0, 2, 3, 4, 6}, {0, 1, 3, 4, 6}, {0, 2, 4, 5, 6, 7}, {0, 1, 2, 4, 5}};
    int[] rhythm = rhythms[random.nextInt(rhythms.length)];
    int tonic = center - 4;
    int at = random.nextInt(five.length);
    List<Note> notes = new ArrayList<>();
    for (int i = 0; i < rhythm.length; i++) {
      int end = i + 1 < rhythm.length ? rhythm[i + 1] : EIGHTHS;
      for (int bar = 0; bar < bars; bar++) {
        notes.add(new Note(EIGHTHS * bar + rhythm[i], end - rhythm[i], tonic + five[at]));
      }
      at = Math.floorMod(at + (random.nextBoolean() ? 1 : -1), five.length);
    }
    notes.sort(java.util.Comparator.comparingInt(Note::eighth));
    return notes;
  }

  private void bar(List<Note> notes, List<Chord> chords, int bar, int[] starts) {
    Chord chord = chords.get(bar);
    int[] pitches = new int[starts.length];
    for (int i = 0; i < starts.length; i++) {
      if (starts[i] % 4 == 0) {
        boolean barLine = starts[i] == 0 && bar > 0;
        pitches[i] = chordTone(chord, barLine ? chords.get(bar - 1) : chord, barLine, notes);
        last = pitches[i];
      }
    }
    for (int i = 0; i < starts.length; i++) {
      if (starts[i] % 4 != 0) {
        int before = pitches[i - 1];
        int after = i + 1 < starts.length && starts[i + 1] % 4 == 0 ? pitches[i + 1] : before;
        pitches[i] = step(before, after, chord);
        last = pitches[i];
      }
    }
    for (int i = 0; i < starts.length; i++) {
      int end = i + 1 < starts.length ? starts[i + 1] : EIGHTHS;
      boolean breath = i + 1 == starts.length && bar % 2 == 1;
      int length = Math.max(1, end - starts[i] - (breath ? 1 : 0));
      notes.add(new Note(EIGHTHS * bar + starts[i], length, pitches[i]));
    }
  }

  /** A member of the chord near the note before, none that would move in parallel with the bass. */
  private int chordTone(Chord chord, Chord chordBefore, boolean barLine, List<Note> notes) {
    List<Integer> fitting = new ArrayList<>();
    int barBefore = barLine ? firstOfLastBar(notes) : -1;
    for (int leap = WIDEST_LEAP; fitting.isEmpty() && leap < 24; leap++) {
      for (int midi = lowest; midi <= highest; midi++) {
        boolean member = (chord.pitchClassBits() & 1 << Math.floorMod(midi, 12)) != 0;
        boolean parallel = barBefore >= 0 && isParallel(barBefore, chordBefore, midi, chord);
        if (member && Math.abs(midi - last) <= leap && !parallel) {
          fitting.add(midi);
        }
      }
    }
    // Small moves are likelier than wide ones.
    fitting.sort(java.util.Comparator.comparingInt(midi -> Math.abs(midi - last)));
    int choice = Math.min(random.nextInt(fitting.size()), random.nextInt(fitting.size()));
    return fitting.get(choice);
  }

  private static int firstOfLastBar(List<Note> notes) {
    if (notes.isEmpty()) {
      return -1;
    }
    int bar = notes.get(notes.size() - 1).eighth() / EIGHTHS;
    return notes.stream()
        .filter(note -> note.eighth() == bar * EIGHTHS)
        .findFirst()
        .map(Note::midi)
        .orElse(-1);
  }

  private static boolean isParallel(int before, Chord chordBefore, int now, Chord chord) {
    int one = Math.floorMod(before - chordBefore.bass().pitchClass(), 12);
    int two = Math.floorMod(now - chord.bass().pitchClass(), 12);
    boolean moves = chordBefore.bass().pitchClass() != chord.bass().pitchClass() && before != now;
    return moves && one == two && (one == 0 || one == 7);
  }

  /** A neighbour in the scale of the note before, on the side of the note after. */
  private int step(int before, int after, Chord chord) {
    boolean up = after > before || (after == before && random.nextBoolean());
    int midi = before + (up ? 1 : -1);
    while ((scaleOver(chord) & 1 << Math.floorMod(midi, 12)) == 0) {
      midi += up ? 1 : -1;
    }
    return midi;
  }

  /** The key's scale with the chord's own notes in place of those of the same letter. */
  private int scaleOver(Chord chord) {
    int bits = chord.pitchClassBits();
    for (NoteName note : key.scale()) {
      boolean replaced =
          chord.tones().stream()
              .anyMatch(tone -> tone.letter() == note.letter() && !tone.equals(note));
      bits |= replaced ? 0 : 1 << note.pitchClass();
    }
    return bits;
  }

  /**
   * A ninth above the root, near the note before: neither in the chord nor foreign to the scale.
   */
  private int tension(Chord chord) {
    int ninth = chord.root().pitchClass() + 2;
    return last - 6 + Math.floorMod(ninth - (last - 6), 12);
  }

  /**
   * One figure a bar, every time from the next chord's root: as the roots go, so goes the figure.
   */
  private List<Note> sequence(List<Chord> chords) {
    int[][] figures = {{0, 1, 2, 1}, {2, 1, 0, 1}, {0, 2, 1, 0}, {2, 0, 1, 2}};
    int[] figure = figures[random.nextInt(figures.length)];
    int[][] rhythms = {{0, 2, 3, 4}, {0, 3, 4, 6}, {0, 1, 2, 4}};
    int[] rhythm = rhythms[random.nextInt(rhythms.length)];
    List<Note> notes = new ArrayList<>();
    int rootMidi = 0;
    for (int bar = 0; bar < chords.size(); bar++) {
      int pitchClass = chords.get(bar).root().pitchClass();
      int near = bar == 0 ? center - 2 : rootMidi;
      rootMidi = near - 6 + Math.floorMod(pitchClass - (near - 6), 12);
      for (int i = 0; i < figure.length; i++) {
        int midi = rootMidi;
        for (int s = 0; s < figure[i]; s++) {
          midi = step(midi, midi + 12, chords.get(bar));
        }
        int end = i + 1 < rhythm.length ? rhythm[i + 1] : EIGHTHS;
        notes.add(new Note(EIGHTHS * bar + rhythm[i], Math.min(3, end - rhythm[i]), midi));
      }
    }
    return notes;
  }

  /** The ninth of the second chord, held bar by bar; the first chord has it. */
  private List<Note> held(List<Chord> chords) {
    int ninth = chords.get(1).root().pitchClass() + 2;
    int midi = center - 6 + Math.floorMod(ninth - (center - 6), 12);
    List<Note> notes = new ArrayList<>();
    for (int bar = 0; bar < chords.size(); bar++) {
      notes.add(new Note(EIGHTHS * bar, EIGHTHS, midi));
    }
    last = midi;
    return notes;
  }
}
