package undersong.estimate.space;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
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
final class LeadEvents {
  private static final double LONGEST_REST_SECONDS = 0.5;
  private static final double SAME_PLACE = 0.25;
  private static final int PARTIALS = 12;
  private static final double LOWEST_HZ = 300;
  private static final double HIGHEST_HZ = 6000;
  private static final int PLACES = 101;

  private final StereoPowers powers;

  LeadEvents(StereoPowers powers) {
    this.powers = powers;
  }

  List<PlacedEvent> of(List<NoteEvent> notes) {
    List<PlacedEvent> events = new ArrayList<>();
    List<NoteEvent> phrase = new ArrayList<>();
    double[] phraseVotes = new double[PLACES];
    for (NoteEvent note : notes) {
      double[] votes = votes(note);
      if (!phrase.isEmpty() && !goesOn(phrase.get(phrase.size() - 1), note, phraseVotes, votes)) {
        events.add(told(phrase, phraseVotes));
        phrase.clear();
        phraseVotes = new double[PLACES];
      }
      phrase.add(note);
      for (int i = 0; i < PLACES; i++) {
        phraseVotes[i] += votes[i];
      }
    }
    if (!phrase.isEmpty()) {
      events.add(told(phrase, phraseVotes));
    }
    return events;
  }

  /** A phrase ends at a rest, and where the place changes beyond doubt. */
  private static boolean goesOn(NoteEvent last, NoteEvent note, double[] phrase, double[] votes) {
    Crowd here = Crowd.of(votes);
    return note.span().startSeconds() - last.span().endSeconds() <= LONGEST_REST_SECONDS
        && (Math.abs(here.placement() - Crowd.of(phrase).placement()) < SAME_PLACE
            || here.share() < 0.3);
  }

  private double[] votes(NoteEvent note) {
    double[] votes = new double[PLACES];
    int from = powers.frameAt(note.span().startSeconds() + 0.04);
    int end = Math.max(from + 1, powers.frameAt(note.span().endSeconds()));
    for (int frame = from; frame < end; frame++) {
      vote(frame, hertz(note.midiPitch()), votes);
    }
    return votes;
  }

  private PlacedEvent told(List<NoteEvent> notes, double[] votes) {
    double own = 0;
    double mix = 0;
    for (NoteEvent note : notes) {
      int from = powers.frameAt(note.span().startSeconds() + 0.04);
      int end = Math.max(from + 1, powers.frameAt(note.span().endSeconds()));
      for (int frame = from; frame < end; frame++) {
        own += partialPower(frame, hertz(note.midiPitch()));
        for (int bin = 0; bin < StereoImage.BINS; bin++) {
          mix += powers.power(frame, bin);
        }
      }
    }
    double probability = notes.stream().mapToDouble(NoteEvent::probability).average().orElse(0);
    Crowd crowd = Crowd.of(votes);
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

  private double partialPower(int frame, double hertz) {
    double power = 0;
    int before = -1;
    for (int partial = 1; partial <= PARTIALS && partial * hertz < HIGHEST_HZ; partial++) {
      int bin = StereoImage.binOf(partial * hertz);
      power += bin == before ? 0 : powers.power(frame, bin);
      before = bin;
    }
    return power;
  }

  /** Lets the partials of one frame vote. */
  private void vote(int frame, double hertz, double[] votes) {
    int before = -1;
    for (int partial = 1; partial <= PARTIALS && partial * hertz < HIGHEST_HZ; partial++) {
      int bin = StereoImage.binOf(partial * hertz);
      double left = powers.left(frame, bin);
      double right = powers.right(frame, bin);
      double weaker = Math.min(left, right);
      double stronger = Math.max(left, right);
      if (bin == before || partial * hertz < LOWEST_HZ || stronger < 1e-11) {
        continue;
      }
      before = bin;
      double likeness =
          weaker < 0.01 * stronger
              ? 1
              : Math.max(0, powers.cross(frame, bin)) / Math.sqrt(weaker * stronger);
      double place = Increments.place(left, right);
      int at = (int) Math.round((place + 1) / 2 * (PLACES - 1));
      votes[at] += Math.sqrt(left + right) * Math.pow(Math.min(1, likeness), 16);
    }
  }

  /**
   * The place where most votes gather.
   *
   * @param share of the votes that lie near it
   */
  private record Crowd(double placement, double share) {
    private static final int REACH = 5;

    static Crowd of(double[] votes) {
      double sum = 0;
      double best = 0;
      int center = PLACES / 2;
      for (int i = 0; i < PLACES; i++) {
        sum += votes[i];
        double near = 0;
        for (int j = Math.max(0, i - REACH); j <= Math.min(PLACES - 1, i + REACH); j++) {
          near += votes[j] * (1 - Math.abs(i - j) / (REACH + 1.0));
        }
        if (near > best) {
          best = near;
          center = i;
        }
      }
      double mean = 0;
      double near = 0;
      for (int j = Math.max(0, center - REACH); j <= Math.min(PLACES - 1, center + REACH); j++) {
        near += votes[j];
        mean += votes[j] * (2.0 * j / (PLACES - 1) - 1);
      }
      return near > 0 ? new Crowd(mean / near, near / sum) : new Crowd(0, 0);
    }
  }
}
