package undersong.estimate.melody;

import java.lang.ref.WeakReference;
import java.util.ArrayList;
import java.util.List;
import undersong.estimate.Estimator;
import undersong.feature.EarActivations;
import undersong.feature.EarHead;
import undersong.feature.Features;
import undersong.feature.FrameMatrix;
import undersong.reading.Correction;
import undersong.reading.CorrectionEntry;
import undersong.reading.Corrections;
import undersong.reading.Derived;
import undersong.reading.Facet;
import undersong.reading.Melody;
import undersong.reading.NoteEvent;
import undersong.reading.PitchStretch;
import undersong.reading.Reading;
import undersong.time.FrameClock;
import undersong.time.Span;

/**
 * The leading tune from the trained ear's pitch activations.
 *
 * <p><b>Silence</b>, music without a lead, and a program without its trained ear give no melody: a
 * classical pitch tracker on a full mix is wrong too often to be put before a listener.
 * <b>Cost:</b> O(frames * 264 * 13).
 */
public final class HeardMelody implements Estimator<Melody> {
  private static final double FIRST_BIN_MIDI = 21 - 1.0 / 3;
  private static final int REFINE_BINS = 2;

  private final MelodySettings settings;
  private WeakReference<Features> lastFeatures = new WeakReference<>(null);
  private double lastCents;
  private Melody lastMelody = Melody.NONE;

  public HeardMelody(MelodySettings settings) {
    this.settings = settings;
  }

  @Override
  public Derived<Melody> estimate(Features features, Reading earlier, Corrections corrections) {
    Melody heard = followed(features, earlier.get(Facet.TUNING).cents());
    List<Correction> unplaced = new ArrayList<>();
    List<NoteEvent> notes = heard.notes();
    for (CorrectionEntry entry : corrections.of(Facet.MELODY).entries()) {
      notes = layOver(notes, entry.correction(), earlier.durationSeconds(), unplaced);
    }
    return new Derived<>(new Melody(notes, heard.curve()), unplaced);
  }

  /** Follows the same recording once, so that a correction is answered fast. */
  @SuppressWarnings("ReferenceEquality") // the very same features; comparing them costs more
  private synchronized Melody followed(Features features, double cents) {
    if (lastFeatures.get() != features || lastCents != cents) {
      lastMelody =
          features.heard().map(ear -> follow(ear, features, cents / 100)).orElse(Melody.NONE);
      lastFeatures = new WeakReference<>(features);
      lastCents = cents;
    }
    return lastMelody;
  }

  private Melody follow(EarActivations ear, Features features, double tuningSemitones) {
    FrameMatrix lead = ear.head(EarHead.LEAD);
    FrameMatrix voicing = ear.head(EarHead.VOICING);
    LeadPath path = LeadPath.find(lead, voicing, settings);
    Restrikes restrikes = new Restrikes(ear, features.onsetStrength());
    NoteCutter cutter = new NoteCutter(settings, tuningSemitones, restrikes);
    List<NoteEvent> notes = new ArrayList<>();
    List<PitchStretch> curve = new ArrayList<>();
    int frame = 0;
    while (frame < path.frames()) {
      int begin = frame;
      while (frame < path.frames() && path.soundsAt(frame)) {
        frame++;
      }
      if (frame > begin) {
        addStretch(lead, path, begin, frame, cutter, notes, curve);
      }
      frame++;
    }
    return new Melody(new LeadCertainty(ear, notes).stated(), curve);
  }

  private static void addStretch(
      FrameMatrix lead,
      LeadPath path,
      int begin,
      int end,
      NoteCutter cutter,
      List<NoteEvent> notes,
      List<PitchStretch> curve) {
    FrameClock clock = lead.clock();
    double[] pitches = new double[end - begin];
    List<Double> rounded = new ArrayList<>();
    for (int i = 0; i < pitches.length; i++) {
      double mass = 1e-9;
      double weighted = 0;
      int bin = path.binAt(begin + i);
      int high = Math.min(lead.bins() - 1, bin + REFINE_BINS);
      for (int near = Math.max(0, bin - REFINE_BINS); near <= high; near++) {
        mass += lead.at(begin + i, near);
        weighted += lead.at(begin + i, near) * near;
      }
      double refined = weighted > 0 ? weighted / mass : bin;
      pitches[i] = FIRST_BIN_MIDI + refined / 3;
      rounded.add(Math.round(pitches[i] * 100) / 100.0);
    }
    notes.addAll(cutter.cut(clock, begin, pitches));
    curve.add(new PitchStretch(clock.secondsAt(begin), clock.secondsAt(1), rounded));
  }

  private static List<NoteEvent> layOver(
      List<NoteEvent> notes,
      Correction correction,
      double durationSeconds,
      List<Correction> unplaced) {
    if (correction instanceof Correction.MelodyNoteOver note
        && note.span().startSeconds() < durationSeconds) {
      List<NoteEvent> around = without(notes, note.span());
      around.add(new NoteEvent(note.span(), note.midiPitch(), 1));
      around.sort((a, b) -> Double.compare(a.span().startSeconds(), b.span().startSeconds()));
      return around;
    }
    if (correction instanceof Correction.NoMelodyOver nothing
        && nothing.span().startSeconds() < durationSeconds) {
      return without(notes, nothing.span());
    }
    unplaced.add(correction);
    return notes;
  }

  /** The notes with a span cut out of them; no piece shorter than 30 ms stays. */
  private static List<NoteEvent> without(List<NoteEvent> notes, Span hole) {
    double shortest = 0.03;
    List<NoteEvent> rest = new ArrayList<>();
    for (NoteEvent note : notes) {
      if (!note.span().overlaps(hole)) {
        rest.add(note);
        continue;
      }
      if (hole.startSeconds() - note.span().startSeconds() > shortest) {
        Span before = new Span(note.span().startSeconds(), hole.startSeconds());
        rest.add(new NoteEvent(before, note.midiPitch(), note.probability()));
      }
      if (note.span().endSeconds() - hole.endSeconds() > shortest) {
        Span after = new Span(hole.endSeconds(), note.span().endSeconds());
        rest.add(new NoteEvent(after, note.midiPitch(), note.probability()));
      }
    }
    return rest;
  }
}
