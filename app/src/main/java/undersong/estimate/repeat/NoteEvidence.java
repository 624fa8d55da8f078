package undersong.estimate.repeat;

import java.util.List;
import undersong.estimate.LearnedCertainty;
import undersong.feature.EarActivations;
import undersong.feature.EarHead;
import undersong.feature.FrameMatrix;
import undersong.reading.Chords;
import undersong.reading.Facet;
import undersong.reading.PartName;
import undersong.reading.Reading;
import undersong.theory.ChordSymbol;
import undersong.time.BeatGrid;

/**
 * What speaks for a note of one copy being new against another: how clearly the ear heard it here,
 * and how clearly it heard that pitch at the same place there, whether or not it was taken for a
 * note there.
 *
 * <p>A logistic regression, fitted by {@code training/repeats.py} on the rows of {@code
 * undersong.bench.decode.RepeatRows}. Cost: constant per note, but for the notes around it.
 */
final class NoteEvidence implements NewNotes {
  /**
   * What is weighed. The ear's probabilities and the note's own are log-odds; the others are 0 or
   * 1, octaves above middle C, and the logarithm of a length.
   */
  public static final List<String> EVIDENCE =
      List.of(
          "begins",
          "holds",
          "stated",
          "held-before",
          "begins-there",
          "holds-there",
          "held-before-there",
          "part-moves",
          "bass",
          "melody",
          "voice",
          "chord-voice",
          "doubled",
          "in-chord",
          "high",
          "length");

  private static final String FACET = "new-notes";

  private static final int LOWEST_MIDI = 21;
  private static final int MIDDLE_C = 60;
  private static final double SAME_PITCH = 0.6;
  private static final double AT_SECONDS = 0.05;

  /** Bars and beats of the other copy are found about so well. */
  private static final double NEAR_SECONDS = 0.08;

  private static final double BEFORE_SECONDS = 0.2;
  private static final double JUST_BEFORE_SECONDS = 0.04;
  private static final double LONGEST_SECONDS = 1;
  private static final double SHORTEST_SECONDS = 0.05;
  private static final double FLOOR = 0.01;

  private final FrameMatrix onsets;
  private final FrameMatrix sustains;
  private final Parts parts;
  private final Chords chords;
  private final BeatGrid grid;
  private final double onsetBeats;
  private final LearnedCertainty weights = LearnedCertainty.of(FACET, EVIDENCE);

  NoteEvidence(EarActivations ear, Parts parts, Reading reading, double onsetBeats) {
    this.onsets = ear.head(EarHead.NOTE_ONSET);
    this.sustains = ear.head(EarHead.NOTE_SUSTAIN);
    this.parts = parts;
    this.chords = reading.get(Facet.CHORDS);
    this.grid = reading.get(Facet.BEATS).grid();
    this.onsetBeats = onsetBeats;
  }

  @Override
  public double probability(PlacedNote note, double there, int semitones) {
    return there < 0 || isBegun(note, there, semitones)
        ? 0
        : weights.of(of(note, there, semitones));
  }

  /** Whether a part begins the same pitch there: then the note is not new. */
  boolean isBegun(PlacedNote note, double there, int semitones) {
    double pitch = note.event().midiPitch() + semitones;
    return parts.beginning(there - onsetBeats, there + onsetBeats).stream()
        .anyMatch(other -> Math.abs(other.event().midiPitch() - pitch) <= SAME_PITCH);
  }

  /** In the order of {@link #EVIDENCE}. */
  double[] of(PlacedNote note, double there, int semitones) {
    double pitch = note.event().midiPitch();
    double here = note.event().span().startSeconds();
    double length = note.event().span().lengthSeconds();
    double looked = Math.min(LONGEST_SECONDS, length);
    double seconds = Math.max(0, grid.secondsAtPosition(Math.max(0, there)));
    int bin = bin(pitch);
    int binThere = bin(pitch + semitones);
    return new double[] {
      logOdds(begins(here, AT_SECONDS, bin)),
      logOdds(mean(here, here + looked, bin)),
      LearnedCertainty.logOdds(note.event().probability()),
      logOdds(mean(here - BEFORE_SECONDS, here - JUST_BEFORE_SECONDS, bin)),
      logOdds(begins(seconds, NEAR_SECONDS, binThere)),
      logOdds(mean(seconds, seconds + looked, binThere)),
      logOdds(mean(seconds - BEFORE_SECONDS, seconds - JUST_BEFORE_SECONDS, binThere)),
      flag(moves(note, pitch + semitones, there)),
      flag(note.part().equals(PartName.BASS)),
      flag(note.part().equals(PartName.MELODY)),
      flag(PartName.isVoice(note.part())),
      flag(parts.isChordVoice(note.part())),
      flag(isDoubled(note)),
      flag(isInChord(note.event().pitchClass() + semitones, seconds + NEAR_SECONDS)),
      (pitch - MIDDLE_C) / 12,
      Math.log(Math.max(SHORTEST_SECONDS, length))
    };
  }

  private static int bin(double midiPitch) {
    return (int) Math.round(midiPitch) - LOWEST_MIDI;
  }

  private static double flag(boolean holds) {
    return holds ? 1 : 0;
  }

  private static double logOdds(double probability) {
    return Math.log((probability + FLOOR) / (1 - probability + FLOOR));
  }

  /** Whether the note's own part begins another pitch there. */
  private boolean moves(PlacedNote note, double pitch, double beat) {
    return parts.beginning(beat - onsetBeats, beat + onsetBeats).stream()
        .anyMatch(
            other ->
                other.part().equals(note.part())
                    && Math.abs(other.event().midiPitch() - pitch) > SAME_PITCH);
  }

  /** Whether another part begins the same pitch class with it, more surely. */
  private boolean isDoubled(PlacedNote note) {
    double beat = note.startBeat();
    return parts.beginning(beat - onsetBeats, beat + onsetBeats).stream()
        .anyMatch(
            other ->
                other.event().pitchClass() == note.event().pitchClass()
                    && other.event().probability() > note.event().probability());
  }

  private boolean isInChord(int pitchClass, double seconds) {
    return chords
        .chordAt(seconds)
        .filter(span -> span.symbol() instanceof ChordSymbol.Chord)
        .map(span -> (ChordSymbol.Chord) span.symbol())
        .filter(chord -> has(chord, pitchClass))
        .isPresent();
  }

  private static boolean has(ChordSymbol.Chord chord, int pitchClass) {
    int aboveRoot = Math.floorMod(pitchClass - chord.root().pitchClass(), 12);
    return chord.degrees().stream()
        .anyMatch(degree -> Math.floorMod(degree.semitones(), 12) == aboveRoot);
  }

  private double begins(double seconds, double around, int bin) {
    int first = Math.max(0, onsets.clock().frameAt(seconds - around));
    int last = Math.min(onsets.frames() - 1, onsets.clock().frameAt(seconds + around));
    double most = 0;
    for (int f = first; f <= last && bin >= 0 && bin < onsets.bins(); f++) {
      most = Math.max(most, onsets.at(f, bin));
    }
    return most;
  }

  private double mean(double from, double to, int bin) {
    int first = Math.max(0, sustains.clock().frameAt(from));
    int last = Math.min(sustains.frames(), Math.max(first + 1, sustains.clock().frameAt(to)));
    double sum = 0;
    for (int f = first; f < last && bin >= 0 && bin < sustains.bins(); f++) {
      sum += sustains.at(f, bin);
    }
    return last > first ? sum / (last - first) : 0;
  }
}
