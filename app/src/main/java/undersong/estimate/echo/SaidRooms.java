package undersong.estimate.echo;

import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import undersong.reading.Correction;
import undersong.reading.HearingBand;
import undersong.reading.Reverb;
import undersong.time.Span;

/** Rooms as the listener has them. */
final class SaidRooms {
  private SaidRooms() {}

  /**
   * Lays what is said over the rooms that were told.
   *
   * @param rooms read and written: the room that sounds in the middle of the span is replaced;
   *     where none is told, one stands over the section there, or over the span itself
   * @param sections in order; may be empty
   * @return whether there is such a place in the recording
   */
  static boolean lay(
      List<Reverb> rooms, Correction.RoomOver said, List<Span> sections, double durationSeconds) {
    double middle = (said.span().startSeconds() + said.span().endSeconds()) / 2;
    if (middle >= durationSeconds) {
      return false;
    }
    Span span =
        rooms.stream()
            .map(Reverb::span)
            .filter(s -> s.contains(middle))
            .findFirst()
            .or(() -> sections.stream().filter(s -> s.contains(middle)).findFirst())
            .orElse(said.span());
    rooms.removeIf(room -> room.span().contains(middle));
    Map<HearingBand, Double> decays = new EnumMap<>(HearingBand.class);
    RoomEvidence.BANDS.forEach(band -> decays.put(band, said.decaySeconds()));
    rooms.add(new Reverb(span, HearingBand.numbers(decays), said.wetToDryDb(), 0, 0, 1));
    rooms.sort(Comparator.comparingDouble(room -> room.span().startSeconds()));
    return true;
  }
}
