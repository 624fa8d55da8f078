package undersong.estimate.space;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import undersong.estimate.PlaceVotes;
import undersong.estimate.PlaceVotes.Manner;
import undersong.feature.StereoImage;
import undersong.feature.StereoPowers;
import undersong.reading.NoteEvent;
import undersong.reading.PlacedEvent;
import undersong.reading.SoundSource;
import undersong.time.Span;

/**
 * The lead, phrase by phrase: its partials mostly stand out of the mix, so it stands where most of
 * the cells do that hold them and are those of one sound.
 */
public final class LeadEvents {
  private static final double LONGEST_REST_SECONDS = 0.5;
  private static final double SAME_PLACE = 0.25;

  private final StereoPowers powers;
  private final Manner manner;

  public LeadEvents(StereoPowers powers, Manner manner) {
    this.powers = powers;
    this.manner = manner;
  }

  /** One event a phrase, or a part of one where the place changes. */
  public List<PlacedEvent> of(List<NoteEvent> notes) {
    List<PlacedEvent> events = new ArrayList<>();
    List<NoteEvent> phrase = new ArrayList<>();
    PlaceVotes phraseVotes = new PlaceVotes(powers, manner);
    for (NoteEvent note : notes) {
      PlaceVotes votes =
          new PlaceVotes(powers, manner)
              .add(note.span().startSeconds(), note.span().endSeconds(), hertz(note.midiPitch()));
      if (!phrase.isEmpty() && !goesOn(phrase.get(phrase.size() - 1), note, phraseVotes, votes)) {
        events.add(told(phrase, phraseVotes));
        phrase.clear();
        phraseVotes = new PlaceVotes(powers, manner);
      }
      phrase.add(note);
      phraseVotes.addAll(votes);
    }
    if (!phrase.isEmpty()) {
      events.add(told(phrase, phraseVotes));
    }
    return events;
  }

  /** A phrase ends at a rest, and where the place changes beyond doubt. */
  private static boolean goesOn(
      NoteEvent last, NoteEvent note, PlaceVotes phrase, PlaceVotes votes) {
    PlaceVotes.Crowd here = votes.crowd();
    return note.span().startSeconds() - last.span().endSeconds() <= LONGEST_REST_SECONDS
        && (Math.abs(here.placement() - phrase.crowd().placement()) < SAME_PLACE
            || here.share() < 0.3);
  }

  private PlacedEvent told(List<NoteEvent> notes, PlaceVotes votes) {
    double own = 0;
    double mix = 0;
    for (NoteEvent note : notes) {
      int from = powers.frameAt(note.span().startSeconds() + 0.04);
      int end = Math.max(from + 1, powers.frameAt(note.span().endSeconds()));
      for (int frame = from; frame < end; frame++) {
        own += votes.partialPower(frame, hertz(note.midiPitch()));
        for (int bin = 0; bin < StereoImage.BINS; bin++) {
          mix += powers.power(frame, bin);
        }
      }
    }
    double probability = notes.stream().mapToDouble(NoteEvent::probability).average().orElse(0);
    PlaceVotes.Crowd crowd = votes.crowd();
    return new PlacedEvent(
        new Span(
            notes.get(0).span().startSeconds(), notes.get(notes.size() - 1).span().endSeconds()),
        SoundSource.LEAD,
        notes.size() == 1 ? OptionalDouble.of(notes.get(0).midiPitch()) : OptionalDouble.empty(),
        hertz(notes.stream().mapToDouble(NoteEvent::midiPitch).min().orElseThrow() - 0.5),
        hertz(notes.stream().mapToDouble(NoteEvent::midiPitch).max().orElseThrow() + 0.5),
        PlacedSpace.rounded(crowd.placement()),
        own > 0 ? PlacedSpace.rounded(Math.max(-60, 10 * Math.log10(own / mix))) : -60,
        Math.min(0.97, probability * (0.5 + crowd.share() / 2)));
  }

  private static double hertz(double midiPitch) {
    return PlacedSpace.rounded(440 * Math.pow(2, (midiPitch - 69) / 12));
  }
}
