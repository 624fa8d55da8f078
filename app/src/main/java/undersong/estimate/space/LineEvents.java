package undersong.estimate.space;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import undersong.estimate.HeardNotes.HeardNote;
import undersong.feature.StereoImage;
import undersong.feature.StereoPowers;
import undersong.reading.NoteEvent;
import undersong.reading.PlacedEvent;
import undersong.reading.SoundSource;
import undersong.time.Span;

/**
 * Pitched sounds besides the lead, note by note: the notes that the ear heard, and those of the
 * bass line that it did not.
 */
final class LineEvents {
  private static final int PARTIALS = 6;
  private static final double HIGHEST_HZ = 9000;
  private static final double SAME_MOMENT_SECONDS = 0.06;
  private static final double WEAKEST_DB = -24;

  private final StereoPowers powers;
  private final Increments increments;
  private final List<HeardNote> heard;

  /** Where each heard note was seen; no correction changes it. */
  private final List<Optional<Sighting>> sightings = new ArrayList<>();

  /**
   * @param heard all notes, by onset
   */
  LineEvents(StereoPowers powers, List<HeardNote> heard) {
    this.powers = powers;
    this.increments = new Increments(powers);
    this.heard = heard;
    for (int i = 0; i < heard.size(); i++) {
      sightings.add(sighting(heard, i));
    }
  }

  /**
   * @param lead its notes are left out
   * @param bass its notes are added where the ear heard none
   */
  List<PlacedEvent> of(List<NoteEvent> lead, List<NoteEvent> bass) {
    List<Sighting> placed = new ArrayList<>();
    for (int i = 0; i < heard.size(); i++) {
      if (sightings.get(i).isPresent() && !isOf(heard.get(i), lead)) {
        placed.add(sightings.get(i).get());
      }
    }
    for (NoteEvent note : bass) {
      if (!isHeard(note)) {
        Span span = note.span();
        int midi = (int) Math.round(note.midiPitch());
        HeardNote low =
            new HeardNote(span.startSeconds(), span.endSeconds(), midi, note.probability());
        sighting(List.of(low), 0).ifPresent(placed::add);
      }
    }
    placed.sort(Comparator.comparingDouble(Sighting::startSeconds));
    return Settling.settled(placed).stream().map(LineEvents::told).toList();
  }

  private boolean isHeard(NoteEvent note) {
    for (HeardNote other : heard) {
      if (Math.abs(other.midiPitch() - note.midiPitch()) < 0.8
          && other.startSeconds() < note.span().endSeconds()
          && other.endSeconds() > note.span().startSeconds()) {
        return true;
      }
    }
    return false;
  }

  private Optional<Sighting> sighting(List<HeardNote> heard, int index) {
    HeardNote note = heard.get(index);
    Increments.Place place =
        increments.at(
            note.startSeconds(), note.endSeconds() - note.startSeconds(), ownBins(heard, index));
    double mix = mixPower(note.startSeconds(), note.endSeconds());
    if (place.power() <= 0 || mix <= 0) {
      return Optional.empty();
    }
    double strengthDb = 10 * Math.log10(place.power() / mix);
    double weight =
        note.strength() * place.agreement() * Math.min(1, Math.sqrt(place.power() / mix) * 3);
    return strengthDb < WEAKEST_DB
        ? Optional.empty()
        : Optional.of(
            new Sighting(
                note.startSeconds(),
                note.endSeconds(),
                note.midiPitch(),
                place.placement(),
                weight,
                strengthDb));
  }

  /** Bins of its partials in which no other note that starts with it has its fundamental. */
  private static List<Integer> ownBins(List<HeardNote> heard, int index) {
    HeardNote note = heard.get(index);
    boolean[] taken = new boolean[StereoImage.BINS];
    for (int step : new int[] {-1, 1}) {
      for (int j = index + step; j >= 0 && j < heard.size(); j += step) {
        HeardNote other = heard.get(j);
        if (Math.abs(other.startSeconds() - note.startSeconds()) > SAME_MOMENT_SECONDS) {
          break;
        }
        taken[StereoImage.binOf(other.hertz())] = true;
      }
    }
    taken[StereoImage.binOf(note.hertz())] = false;
    return partials(note).stream().filter(bin -> !taken[bin]).toList();
  }

  private static List<Integer> partials(HeardNote note) {
    List<Integer> bins = new ArrayList<>();
    for (int partial = 1; partial <= PARTIALS; partial++) {
      double hertz = partial * note.hertz();
      if (hertz > HIGHEST_HZ) {
        break;
      }
      int bin = StereoImage.binOf(hertz);
      if (bins.isEmpty() || bins.get(bins.size() - 1) != bin) {
        bins.add(bin);
      }
    }
    return bins;
  }

  private double mixPower(double startSeconds, double endSeconds) {
    int from = powers.frameAt(startSeconds);
    int end = Math.max(from + 1, powers.frameAt(Math.min(endSeconds, startSeconds + 0.5)));
    double sum = 0;
    for (int frame = from; frame < Math.min(end, powers.frames()); frame++) {
      for (int bin = 0; bin < StereoImage.BINS; bin++) {
        sum += powers.power(frame, bin);
      }
    }
    return sum / Math.max(1, end - from);
  }

  private static boolean isOf(HeardNote note, List<NoteEvent> part) {
    for (NoteEvent own : part) {
      if (Math.abs(own.midiPitch() - note.midiPitch()) < 0.8
          && own.span().startSeconds() - 0.1 < note.startSeconds()
          && own.span().endSeconds() > note.startSeconds()) {
        return true;
      }
    }
    return false;
  }

  private static PlacedEvent told(Sighting note) {
    return new PlacedEvent(
        new Span(note.startSeconds(), note.endSeconds()),
        SoundSource.LINE,
        OptionalDouble.of(note.midiPitch()),
        hertz(note.midiPitch() - 0.5),
        hertz(note.midiPitch() + 0.5),
        PlacedSpace.rounded(Math.max(-1, Math.min(1, note.placement()))),
        PlacedSpace.rounded(note.strengthDb()),
        Math.min(0.95, note.weight() / (note.weight() + 0.15)));
  }

  private static double hertz(double midiPitch) {
    return PlacedSpace.rounded(440 * Math.pow(2, (midiPitch - 69) / 12));
  }
}
