package undersong.estimate.melody;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.function.Predicate;
import undersong.feature.EarActivations;
import undersong.feature.EarHead;
import undersong.feature.Features;
import undersong.feature.FrameMatrix;
import undersong.feature.StereoPowers;
import undersong.reading.Melody;
import undersong.reading.NoteEvent;
import undersong.reading.PitchStretch;
import undersong.time.FrameClock;
import undersong.time.Span;

/**
 * The lead of one recording: its pitch in every frame and where it sounds. Made once; a listener's
 * word on where it sounds only has it cut into notes again.
 */
final class FollowedLead {
  /** Where the ear favors no pitch at all, none is kept. */
  private static final double LEAST_MASS = 0.1;

  private final EarActivations ear;
  private final FrameClock clock;
  private final NoteCutter cutter;
  private final double[] pitches;
  private final double[] masses;
  private final boolean[] sounding;

  FollowedLead(
      EarActivations ear, Features features, MelodySettings settings, double tuningSemitones) {
    FrameMatrix lead = ear.head(EarHead.LEAD);
    LeadPath path = LeadPath.find(lead, settings);
    this.ear = ear;
    clock = lead.clock();
    cutter =
        new NoteCutter(settings, tuningSemitones, new Restrikes(ear, features.onsetStrength()));
    pitches = new double[path.frames()];
    masses = new double[path.frames()];
    for (int frame = 0; frame < path.frames(); frame++) {
      pitches[frame] = path.pitchAt(frame);
      masses[frame] = path.massAt(frame);
    }
    sounding = new LeadSounding(ear, path, tuningSemitones).course(settings.voicingCost());
    restWhereOthersAreFollowed(
        new OwnNotes(ear, path, StereoPowers.of(features.image()), tuningSemitones),
        settings.leastOwn());
  }

  private void restWhereOthersAreFollowed(OwnNotes owner, double leastOwn) {
    List<NoteEvent> notes = new ArrayList<>();
    int begin = 0;
    for (int end = 1; end <= sounding.length; end++) {
      if (end == sounding.length || sounding[end] != sounding[begin]) {
        if (sounding[begin]) {
          notes.addAll(cutter.cut(clock, begin, Arrays.copyOfRange(pitches, begin, end)));
        }
        begin = end;
      }
    }
    double[] own = owner.logOdds(notes);
    for (int i = 0; i < own.length; i++) {
      if (own[i] < leastOwn) {
        int from = clock.frameAt(notes.get(i).span().startSeconds());
        int to = Math.min(sounding.length, clock.frameAt(notes.get(i).span().endSeconds()));
        Arrays.fill(sounding, from, Math.max(from, to), false);
      }
    }
  }

  /**
   * @param said where a listener says that it sounds
   */
  Melody melody(List<Span> said) {
    boolean[] sounds = sounding.clone();
    for (int frame = 0; frame < sounds.length; frame++) {
      double seconds = clock.secondsAt(frame);
      sounds[frame] |= hasPitch(frame) && said.stream().anyMatch(span -> span.contains(seconds));
    }
    List<NoteEvent> notes = new ArrayList<>();
    List<PitchStretch> curve = new ArrayList<>();
    List<PitchStretch> unsure = new ArrayList<>();
    int begin = 0;
    for (int end = 1; end <= sounds.length; end++) {
      boolean goesOn =
          end < sounds.length
              && sounds[end] == sounds[begin]
              && (sounds[end] || hasPitch(end) == hasPitch(begin));
      if (goesOn) {
        continue;
      }
      double[] stretch = Arrays.copyOfRange(pitches, begin, end);
      if (sounds[begin]) {
        notes.addAll(cutter.cut(clock, begin, stretch));
        curve.add(curve(begin, stretch));
      } else if (hasPitch(begin)) {
        unsure.add(curve(begin, stretch));
      }
      begin = end;
    }
    return new Melody(stated(notes, said), curve, unsure);
  }

  /** Where a listener says that the tune sounds, only its pitch is still in doubt. */
  private List<NoteEvent> stated(List<NoteEvent> notes, List<Span> said) {
    Predicate<NoteEvent> isSaid =
        note -> said.stream().anyMatch(span -> span.contains(note.span().middleSeconds()));
    List<NoteEvent> stated = new ArrayList<>();
    for (NoteEvent note : notes) {
      if (isSaid.test(note)) {
        int from = clock.frameAt(note.span().startSeconds());
        int to = clock.frameAt(note.span().endSeconds());
        double sure = Arrays.stream(masses, from, to).average().orElse(0);
        stated.add(new NoteEvent(note.span(), note.midiPitch(), sure));
      }
    }
    List<NoteEvent> heard = notes.stream().filter(isSaid.negate()).toList();
    stated.addAll(new LeadCertainty(ear, heard).stated());
    stated.sort(Comparator.comparingDouble(note -> note.span().startSeconds()));
    return stated;
  }

  private boolean hasPitch(int frame) {
    return masses[frame] >= LEAST_MASS;
  }

  private PitchStretch curve(int begin, double[] midiPitches) {
    List<Double> rounded =
        Arrays.stream(midiPitches).mapToObj(pitch -> Math.round(pitch * 100) / 100.0).toList();
    return new PitchStretch(clock.secondsAt(begin), clock.secondsAt(1), rounded);
  }
}
