package undersong.technique;

import java.util.ArrayList;
import java.util.List;
import undersong.reading.Member;
import undersong.reading.NoteEvent;
import undersong.reading.Presence;
import undersong.theory.ChordDegree;
import undersong.theory.ChordQuality;
import undersong.theory.ChordSymbol.Chord;
import undersong.theory.Spelling;
import undersong.time.Span;

/**
 * What each note of a voice is to the chords it sounds with. A note that is held while the chord
 * changes is told once for each chord.
 *
 * <p>Chord tones are root, third and fifth, and a seventh that the accompaniment sounds: what only
 * the voices add to a chord stays a tension, whatever the chord is called. Where a chord has no
 * third its notes cannot be foreign by much, and none is called a tension.
 *
 * <p><b>Silence:</b> no notes, no chords or no pulse give none. <b>Cost:</b> O(notes + chords).
 * Terms as in Open Music Theory, chapters on embellishing tones (from memory).
 */
public final class NotesOverHarmony {
  /** Shorter than this a note does not sound with a chord. */
  private static final double LEAST_BEATS = 0.2;

  /** A foreign note this long rests, wherever it came from. */
  private static final double RESTING_BEATS = 1;

  /** A note struck again after a rest up to this long is still held in the ear. */
  private static final double GAP_BEATS = 0.55;

  private static final double STEP_SEMITONES = 2.5;

  private final List<NoteEvent> notes;
  private final ChordPath path;
  private final Pulse pulse;

  private NotesOverHarmony(List<NoteEvent> notes, ChordPath path, Pulse pulse) {
    this.notes = notes;
    this.path = path;
    this.pulse = pulse;
  }

  /** In order of time. */
  public static List<Tone> of(List<NoteEvent> notes, ChordPath path, Pulse pulse) {
    return pulse.isThere() ? new NotesOverHarmony(notes, path, pulse).tones() : List.of();
  }

  private List<Tone> tones() {
    List<Tone> tones = new ArrayList<>();
    int from = 0;
    for (int n = 0; n < notes.size(); n++) {
      Span note = notes.get(n).span();
      while (from < path.size() && path.get(from).span().endSeconds() <= note.startSeconds()) {
        from++;
      }
      for (int s = from;
          s < path.size() && path.get(s).span().startSeconds() < note.endSeconds();
          s++) {
        Span chord = path.get(s).span();
        double start = Math.max(note.startSeconds(), chord.startSeconds());
        double end = Math.min(note.endSeconds(), chord.endSeconds());
        if (end > start && pulse.beats(start, end) >= LEAST_BEATS) {
          tones.add(tone(n, s, new Span(start, end)));
        }
      }
    }
    return tones;
  }

  private Tone tone(int n, int s, Span span) {
    NoteEvent note = notes.get(n);
    ChordStep step = path.get(s);
    boolean strong = pulse.isStrong(span.startSeconds());
    double beats = pulse.beats(span);
    boolean struck = span.startSeconds() <= note.span().startSeconds() + 1e-9;
    return new Tone(
        note,
        n,
        step,
        s,
        span,
        beats,
        strong,
        struck,
        ChordDegree.over(step.chord(), Spelling.name(note.pitchClass(), step.key(), step.chord())),
        Math.floorMod(note.pitchClass() - step.chord().bass().pitchClass(), 12),
        role(n, s, beats, strong, struck));
  }

  private ToneRole role(int n, int s, double beats, boolean strong, boolean struck) {
    int pitchClass = notes.get(n).pitchClass();
    if (isMember(path.get(s), pitchClass)) {
      return ToneRole.CHORD_TONE;
    }
    boolean toStep = n + 1 < notes.size() && near(n, n + 1) && isStepBetween(n, n + 1);
    boolean fromStep = n > 0 && near(n - 1, n) && isStepBetween(n - 1, n);
    boolean fromSame = n > 0 && near(n - 1, n) && samePitch(n - 1, n);
    boolean heldOver = !struck || fromSame;
    boolean belongedBefore = s > 0 && path.goesOn(s - 1) && isMember(path.get(s - 1), pitchClass);
    if (heldOver && belongedBefore && toStep && strong) {
      return ToneRole.SUSPENSION;
    }
    if (beats >= RESTING_BEATS) {
      return ToneRole.TENSION;
    }
    if (comesEarly(n, s, pitchClass)) {
      return ToneRole.ANTICIPATION;
    }
    if (fromStep && toStep) {
      return samePitch(n - 1, n + 1) ? ToneRole.NEIGHBOUR : ToneRole.PASSING;
    }
    return strong && toStep ? ToneRole.LEANING : ToneRole.FREE;
  }

  /** Whether the next chord holds it, and it goes on or is struck again there. */
  private boolean comesEarly(int n, int s, int pitchClass) {
    if (!path.goesOn(s) || !isMember(path.get(s + 1), pitchClass)) {
      return false;
    }
    double change = path.get(s + 1).span().startSeconds();
    boolean heldInto = notes.get(n).span().endSeconds() > change + 1e-6;
    boolean struckAgain = n + 1 < notes.size() && near(n, n + 1) && samePitch(n, n + 1);
    return heldInto || struckAgain;
  }

  private boolean near(int one, int other) {
    double gap =
        pulse.beats(notes.get(one).span().endSeconds(), notes.get(other).span().startSeconds());
    return gap <= GAP_BEATS;
  }

  private boolean samePitch(int one, int other) {
    return Math.abs(notes.get(one).midiPitch() - notes.get(other).midiPitch()) < 0.5;
  }

  private boolean isStepBetween(int one, int other) {
    double moved = Math.abs(notes.get(one).midiPitch() - notes.get(other).midiPitch());
    return moved >= 0.5 && moved <= STEP_SEMITONES;
  }

  /** Whether the chord holds a pitch class by itself, voices left out. */
  static boolean isMember(ChordStep step, int pitchClass) {
    Chord chord = step.chord();
    ChordQuality quality = chord.quality();
    int semitones = Math.floorMod(pitchClass - chord.root().pitchClass(), 12);
    boolean diminishedSeventh = semitones == 9 && quality.contains(6) && quality.contains(3);
    if (semitones >= 10 || diminishedSeventh) {
      return quality.contains(semitones) && !onlyVoices(step.heard().seventh());
    }
    if (semitones == 0 || (chord.isInverted() && pitchClass == chord.bass().pitchClass())) {
      return true;
    }
    if (semitones == 7) {
      return !quality.contains(6) && !quality.contains(8);
    }
    boolean sixth = semitones == 9 && quality.contains(9);
    boolean suspendedSecond = semitones == 2 && quality == ChordQuality.SUSPENDED_SECOND;
    return sixth
        || suspendedSecond
        || (semitones >= 3 && semitones <= 8 && quality.contains(semitones));
  }

  private static boolean onlyVoices(Member member) {
    return member.voices() == Presence.SOUNDING && member.accompaniment() != Presence.SOUNDING;
  }
}
