package undersong.estimate.voice;

import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import undersong.estimate.Estimator;
import undersong.feature.EarActivations;
import undersong.feature.EarHead;
import undersong.feature.Features;
import undersong.feature.StereoPowers;
import undersong.reading.Corrections;
import undersong.reading.Derived;
import undersong.reading.Facet;
import undersong.reading.Melody;
import undersong.reading.NoteEvent;
import undersong.reading.PartName;
import undersong.reading.PitchStretch;
import undersong.reading.Reading;
import undersong.reading.Voice;
import undersong.reading.Voices;
import undersong.time.Span;

/**
 * The voice that sings with the lead, from the trained ear's notes and second-voice head.
 *
 * <p><b>In:</b> the ear; MELODY. <b>Out:</b> at most one heard voice, {@code voice-2}, in the
 * lead's rhythm, and what it sings by itself, in the lead's rests or against it; more as said.
 * <b>Silence</b>, no lead, or no trained ear give none. <b>Cost:</b> O(notes of the lead * pitches
 * around it).
 */
public final class HeardVoices implements Estimator<Voices> {
  private static final int FEWEST_NOTES = 3;

  /** A voice goes from note to note without a gap this short. */
  private static final double LEGATO_SECONDS = 0.06;

  /** A note of its own begins no earlier than so long before another of the voice ends. */
  private static final double FREE_AFTER_SECONDS = 0.05;

  private final VoiceSettings settings;
  private final FreeSettings free;

  public HeardVoices(VoiceSettings settings, FreeSettings free) {
    this.settings = settings;
    this.free = free;
  }

  @Override
  public Derived<Voices> estimate(Features features, Reading earlier, Corrections corrections) {
    Melody lead = earlier.get(Facet.MELODY);
    PinnedVoices pinned = new PinnedVoices(corrections, earlier.durationSeconds());
    SortedMap<String, List<NoteEvent>> notes = new TreeMap<>();
    double tuning = earlier.get(Facet.TUNING).cents() / 100;
    features
        .heard()
        .ifPresent(
            ear -> {
              List<NoteEvent> along = second(ear, lead, pinned);
              notes.put(PartName.voice(2), along);
              if (ear.has(EarHead.VOICE_ONSET)) {
                FreeCandidates candidates =
                    new FreeCandidates(
                        ear, StereoPowers.of(features.image()), lead.notes(), tuning);
                notes.put(PartName.voice(2), withFree(along, pinned.weighed(candidates.all())));
              }
            });
    pinned.layOver(notes);
    List<Voice> voices = new ArrayList<>();
    notes.forEach(
        (name, events) -> {
          if (!events.isEmpty()) {
            voices.add(Voice.beside(lead, name, events, curve(events, tuning)));
          }
        });
    return new Derived<>(new Voices(voices), pinned.unplaced());
  }

  private List<NoteEvent> second(EarActivations ear, Melody lead, PinnedVoices pinned) {
    Candidates candidates = new Candidates(ear, lead.notes());
    List<List<Candidate>> beside = new ArrayList<>();
    lead.notes().forEach(note -> beside.add(pinned.weighed(candidates.beside(note))));
    List<Candidate> sung =
        new SecondPath(settings).find(beside).stream().flatMap(Optional::stream).toList();
    if (sung.size() < FEWEST_NOTES) {
      return List.of();
    }
    List<NoteEvent> notes = new ArrayList<>();
    for (int i = 0; i < sung.size(); i++) {
      Candidate here = sung.get(i);
      double start = here.span().startSeconds();
      double end = here.span().endSeconds();
      if (i + 1 < sung.size()) {
        double next = sung.get(i + 1).span().startSeconds();
        end = end > next - LEGATO_SECONDS ? next : end;
      }
      if (end > start) {
        double odds = here.logOdds() + settings.presentBias();
        notes.add(new NoteEvent(new Span(start, end), here.midiPitch(), 1 / (1 + Math.exp(-odds))));
      }
    }
    return notes;
  }

  /** The voice that moves with the lead, and what it sings by itself where it does not. */
  private List<NoteEvent> withFree(List<NoteEvent> along, List<Candidate> candidates) {
    List<NoteEvent> byItself = new ArrayList<>();
    double inAll = 0;
    for (Candidate candidate : new FreePath(free).find(candidates)) {
      double start = candidate.span().startSeconds();
      boolean taken =
          along.stream()
              .anyMatch(
                  n ->
                      n.span().startSeconds() - FREE_AFTER_SECONDS < start
                          && start < n.span().endSeconds() - FREE_AFTER_SECONDS);
      if (!taken) {
        double odds = candidate.logOdds() + free.presentBias();
        inAll += odds + 1;
        double sure = 1 / (1 + Math.exp(-odds));
        byItself.add(new NoteEvent(candidate.span(), candidate.midiPitch(), sure));
      }
    }
    if (byItself.size() < FEWEST_NOTES || inAll < free.leastInAll()) {
      return along;
    }
    List<NoteEvent> all = new ArrayList<>(along);
    all.addAll(byItself);
    all.sort(Comparator.comparingDouble(n -> n.span().startSeconds()));
    return oneByOne(all);
  }

  /** Notes cut where the next begins. */
  private static List<NoteEvent> oneByOne(List<NoteEvent> notes) {
    List<NoteEvent> cut = new ArrayList<>();
    for (int i = 0; i < notes.size(); i++) {
      NoteEvent note = notes.get(i);
      double start = note.span().startSeconds();
      double end = note.span().endSeconds();
      end = i + 1 < notes.size() ? Math.min(end, notes.get(i + 1).span().startSeconds()) : end;
      if (end > start) {
        cut.add(new NoteEvent(new Span(start, end), note.midiPitch(), note.probability()));
      }
    }
    return cut;
  }

  /** Even pitches: the ear's second head tells semitones, not glides. */
  private static List<PitchStretch> curve(List<NoteEvent> notes, double tuningSemitones) {
    double step = 0.04;
    List<PitchStretch> curve = new ArrayList<>();
    for (NoteEvent note : notes) {
      int steps = Math.max(1, (int) (note.span().lengthSeconds() / step));
      curve.add(
          new PitchStretch(
              note.span().startSeconds(),
              step,
              Collections.nCopies(steps, note.midiPitch() + tuningSemitones)));
    }
    return curve;
  }
}
