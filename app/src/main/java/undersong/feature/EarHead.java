package undersong.feature;

import java.util.Collections;
import java.util.EnumSet;
import java.util.Set;

/**
 * The outputs of the listening network, as {@code training/FEATURES.md} lays them out. What is kept
 * of each are probabilities, averaged over a few frames where the answer moves slowly.
 */
public enum EarHead {
  /** Bin 0: a beat falls here; 1: a downbeat. */
  BEAT("beat", 2, false, 1),
  /** 2/4, 3/4, 4/4, 5/4, 7/4, 6/8, 12/8. */
  METER("meter", 7, true, 10),
  /** Local beat rate, bin k = 40 * 2^(k/24) bpm. */
  TEMPO("tempo", 63, true, 10),
  /** C = 0 to B = 11; 12 none. */
  CHORD_ROOT("chord_root", 13, true, 2),
  CHORD_BASS("chord_bass", 13, true, 2),
  /**
   * N, 1, 5, maj, min, dim, aug, sus2, sus4, maj6, min6, 7, maj7, min7, minmaj7, hdim7, dim7,
   * 7sus4.
   */
  CHORD_QUALITY("chord_quality", 18, true, 2),
  PITCH_CLASSES("pitch_classes", 12, false, 2),
  /**
   * Mode * 12 + tonic; modes: major, natural, harmonic, melodic minor, dorian, phrygian, lydian,
   * mixolydian.
   */
  KEY("key", 96, true, 10),
  /** 0 the lead sounds, 1 it is sung, 2 a second voice sounds with it. */
  VOICING("voicing", 3, false, 2),
  /** Pitch of the lead if it sounds: bin b is MIDI pitch 21 + (b - 1) / 3. */
  LEAD("lead", 264, true, 2),
  /** Pitch of the second voice if it sounds: MIDI 21 + bin. */
  SECOND("second", 88, true, 2),
  /** A note of MIDI pitch 21 + bin begins. */
  NOTE_ONSET("note_onset", 88, false, 1),
  /** Such a note is held. */
  NOTE_SUSTAIN("note_sustain", 88, false, 2),
  /** Bins 0 to 44: the bass line's note, MIDI 23 + bin; 45 none. */
  BASS_PITCH("bass_pitch", 46, true, 2),
  BASS_ONSET("bass_onset", 1, false, 1),
  /** Kick, snare, cymbal. */
  DRUMS("drums", 3, false, 1),
  /** A new section begins. */
  BOUNDARY("boundary", 1, false, 5),
  /** Copies of what sounded {@code bin + 4} frames ago, a delay's, are heard; bin 72: none. */
  ECHO("echo", 73, true, 5),
  /**
   * A note of a voice beside the lead begins, MIDI 21 + bin, whether it sounds with the lead or in
   * its rests. This and the five that follow are heard by a stage of their own, which may be
   * missing.
   */
  VOICE_ONSET("voice_onset", 88, false, 1),
  /** Such a note is held. */
  VOICE_SUSTAIN("voice_sustain", 88, false, 2),
  /** A note of the accompaniment begins with which its player begins no other. */
  LINE_ONSET("line_onset", 88, false, 1),
  LINE_SUSTAIN("line_sustain", 88, false, 2),
  /** Anybody's note begins, heard with more around it than {@link #NOTE_ONSET}. */
  ANY_ONSET("any_onset", 88, false, 1),
  ANY_SUSTAIN("any_sustain", 88, false, 2);

  /** What the stage tells that hears who plays a note. */
  public static final Set<EarHead> PLAYERS =
      Collections.unmodifiableSet(EnumSet.range(VOICE_ONSET, ANY_SUSTAIN));

  /** Frames a second before averaging. */
  public static final int FRAMES_PER_SECOND = 50;

  private final String output;
  private final int bins;
  private final boolean softmax;
  private final int averagedFrames;

  EarHead(String output, int bins, boolean softmax, int averagedFrames) {
    this.output = output;
    this.bins = bins;
    this.softmax = softmax;
    this.averagedFrames = averagedFrames;
  }

  /** Name of the network's output. */
  public String output() {
    return output;
  }

  public int bins() {
    return bins;
  }

  /** Whether its bins exclude each other and add up to one, or each speaks for itself. */
  public boolean excludes() {
    return softmax;
  }

  /** How many of the network's frames one kept frame is the mean of. */
  public int averagedFrames() {
    return averagedFrames;
  }
}
