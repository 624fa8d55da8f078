package undersong.estimate.chord;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import undersong.reading.Candidate;
import undersong.reading.ChordSpan;
import undersong.reading.Member;
import undersong.reading.NoteEvent;
import undersong.theory.ChordQuality;
import undersong.theory.ChordSymbol;
import undersong.theory.Key;
import undersong.theory.Mode;
import undersong.theory.NoteName;
import undersong.theory.Spelling;
import undersong.time.Span;

/**
 * Turns decoded steps into chord spans: no label asserts a third that does not sound, the bass
 * makes inversions, names are spelled in the key around.
 */
final class SpanLabeler {
  private static final int RUNNERS_UP = 3;
  private static final double WORTH_NAMING = 0.02;

  /** A second reading stands beside the first from this probability. */
  private static final double BESIDES = 0.25;

  /** Share of a chord that its bass must hold to make an inversion, and what its arrival adds. */
  private static final double INVERSION_SHARE = 0.6;

  private static final double ARRIVAL_BONUS = 0.35;

  private final Decoding decoding;
  private final StepGrid grid;
  private final MemberReader members;
  private final List<NoteEvent> bassNotes;

  SpanLabeler(Decoding decoding, StepGrid grid, MemberReader members, List<NoteEvent> bassNotes) {
    this.decoding = decoding;
    this.grid = grid;
    this.members = members;
    this.bassNotes = bassNotes;
  }

  List<ChordSpan> spans() {
    List<ChordSpan> spans = new ArrayList<>();
    int from = 0;
    for (int step = 1; step <= decoding.steps(); step++) {
      if (step == decoding.steps() || decoding.state(step) != decoding.state(from)) {
        spans.add(span(from, step));
        from = step;
      }
    }
    return spans;
  }

  private ChordSpan span(int from, int to) {
    int state = decoding.state(from);
    Span span = new Span(grid.startSeconds(from), grid.endSeconds(to - 1));
    double probability = decoding.probability(state, from, to);
    List<Candidate<ChordSymbol>> others = runnersUp(state, from, to);
    if (state == ChordStates.NO_CHORD) {
      return new ChordSpan(
          span,
          ChordSymbol.NONE,
          Member.ABSENT,
          Member.ABSENT,
          Member.ABSENT,
          probability,
          others,
          Optional.empty());
    }
    int root = ChordStates.root(state);
    ChordQuality quality = soundingQuality(root, ChordStates.quality(state), from, to);
    Member third = third(root, quality, from, to);
    Member fifth = members.member(root + fifthOf(quality), from, to);
    if (quality == ChordQuality.FIFTH) {
      fifth = Member.SOUNDING;
    }
    Member seventh = seventh(root, quality, from, to);
    ChordSymbol symbol = symbol(root, quality, bass(root, quality, from, to), from);
    Optional<ChordSymbol> besides =
        others.stream()
            .filter(other -> other.probability() >= BESIDES && sharesRoot(other.value(), root))
            .map(Candidate::value)
            .findFirst();
    return new ChordSpan(span, symbol, third, fifth, seventh, probability, others, besides);
  }

  private static boolean sharesRoot(ChordSymbol symbol, int root) {
    return symbol instanceof ChordSymbol.Chord chord && chord.root().pitchClass() == root;
  }

  /** The decoded quality, or an open fifth or a root alone where no third sounds. */
  private ChordQuality soundingQuality(int root, ChordQuality quality, int from, int to) {
    if (quality == ChordQuality.FIFTH && !members.fifthSounds(root, from, to)) {
      return ChordQuality.ROOT;
    }
    if (quality.hasNoThird()) {
      return quality;
    }
    int third = root + (quality.hasMajorThird() ? 4 : 3);
    if (members.sounds(third, from, to) || members.voiceDwells(third, from, to)) {
      return quality;
    }
    if (!quality.contains(7)) {
      return quality; // a diminished or augmented chord is told by its fifth as well
    }
    return members.fifthSounds(root, from, to) ? ChordQuality.FIFTH : ChordQuality.ROOT;
  }

  private Member third(int root, ChordQuality quality, int from, int to) {
    if (quality.hasMajorThird() || quality.hasMinorThird()) {
      Member third = members.member(root + (quality.hasMajorThird() ? 4 : 3), from, to);
      return third.sounds() ? third : Member.SOUNDING;
    }
    if (quality != ChordQuality.FIFTH && quality != ChordQuality.ROOT) {
      return Member.ABSENT;
    }
    Member major = members.member(root + 4, from, to);
    Member minor = members.member(root + 3, from, to);
    boolean onlyMajor = !major.impliedBy().isEmpty() && minor.impliedBy().isEmpty();
    boolean onlyMinor = !minor.impliedBy().isEmpty() && major.impliedBy().isEmpty();
    if (onlyMajor && !minor.sounds()) {
      return named(major, "major third: ");
    }
    if (onlyMinor && !major.sounds()) {
      return named(minor, "minor third: ");
    }
    return Member.ABSENT;
  }

  private static Member named(Member member, String what) {
    return new Member(member.accompaniment(), member.voices(), what + member.impliedBy());
  }

  private Member seventh(int root, ChordQuality quality, int from, int to) {
    for (int semitones = quality == ChordQuality.DIMINISHED_SEVENTH ? 9 : 10;
        semitones <= 11;
        semitones++) {
      if (quality.contains(semitones)) {
        Member heard = members.member(root + semitones, from, to);
        return heard.sounds() ? heard : Member.SOUNDING;
      }
    }
    return Member.ABSENT;
  }

  private static int fifthOf(ChordQuality quality) {
    return quality.contains(6) && !quality.contains(7)
        ? 6
        : quality.contains(8) && !quality.contains(7) ? 8 : 7;
  }

  /** The pitch class of the bass: the root, unless another note clearly carries the chord. */
  private int bass(int root, ChordQuality quality, int from, int to) {
    double start = grid.startSeconds(from);
    int arriving = -1;
    int note = MemberReader.firstEndingAfter(bassNotes, start + 0.12);
    if (note < bassNotes.size() && bassNotes.get(note).span().startSeconds() < start + 0.2) {
      arriving = bassNotes.get(note).pitchClass();
    }
    int best = root;
    double most = 0;
    for (int c = 0; c < 12; c++) {
      double share = members.bassShare(c, from, to) + (c == arriving ? ARRIVAL_BONUS : 0);
      if (c == root) {
        share += quality == ChordQuality.ROOT ? 2 : 0.1;
      }
      if (share > most) {
        most = share;
        best = c;
      }
    }
    return most >= INVERSION_SHARE ? best : root;
  }

  private ChordSymbol symbol(int root, ChordQuality quality, int bass, int step) {
    int key = decoding.keys().likeliest(step);
    Key around = new Key(tonic(key), key < 12 ? Mode.MAJOR : Mode.NATURAL_MINOR);
    NoteName plainRoot = NoteName.ofPitchClass(root, 0);
    return Spelling.chord(
        ChordSymbol.of(plainRoot, quality, NoteName.ofPitchClass(bass, 0)), around);
  }

  /** The tonic whose key signature is the simpler one: at most six flats or sharps. */
  private static NoteName tonic(int key) {
    return key < 12 ? NoteName.ofPitchClass(key, 0) : NoteName.ofPitchClass(key - 12, 2);
  }

  private List<Candidate<ChordSymbol>> runnersUp(int chosen, int from, int to) {
    double[] probability = new double[ChordStates.COUNT];
    List<Integer> states = new ArrayList<>();
    for (int state = 0; state < ChordStates.COUNT; state++) {
      probability[state] = state == chosen ? 0 : decoding.probability(state, from, to);
      if (probability[state] >= WORTH_NAMING) {
        states.add(state);
      }
    }
    return states.stream()
        .sorted(Comparator.comparingDouble(state -> -probability[state]))
        .limit(RUNNERS_UP)
        .map(state -> new Candidate<>(plain(state, from), probability[state]))
        .toList();
  }

  private ChordSymbol plain(int state, int step) {
    if (state == ChordStates.NO_CHORD) {
      return ChordSymbol.NONE;
    }
    int root = ChordStates.root(state);
    return symbol(root, ChordStates.quality(state), root, step);
  }
}
