package undersong.render.score;

import java.util.List;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;
import undersong.time.Span;

/**
 * What is known about a demo song because the program made it: read off the score, never heard.
 *
 * @param reading the facets tuning, beats, meter, form, bass, melody, chords, keys, voices, lines
 *     and roles, all with probability 1
 * @param arrivals how each chord of the reading stands to its written place
 * @param voices every part that sings or plays a line, the melody first
 * @param placements where each part stands, by section
 * @param echoes copies made by a delay
 * @param planted techniques put there on purpose
 */
public record Truth(
    Reading reading,
    List<Arrival> arrivals,
    List<Voice> voices,
    List<Placement> placements,
    List<Echo> echoes,
    List<Planted> planted) {
  public Truth {
    arrivals = List.copyOf(arrivals);
    voices = List.copyOf(voices);
    placements = List.copyOf(placements);
    echoes = List.copyOf(echoes);
    planted = List.copyOf(planted);
  }

  /**
   * One chord change.
   *
   * @param arrivalSeconds when it sounds
   * @param arrivalBeats against its written place: -0.5 = half a beat early
   */
  public record Arrival(double arrivalSeconds, double arrivalBeats) {}

  /** One part's notes; the syllables match them one to one, "" where nothing is sung anew. */
  public record Voice(String part, PartRole role, List<NoteEvent> notes, List<String> syllables) {
    public Voice {
      notes = List.copyOf(notes);
      syllables = List.copyOf(syllables);
    }
  }

  /**
   * Where a part stands in one section.
   *
   * @param pan -1 = left, 1 = right
   * @param sway its notes alternate between -sway and sway; 0 = they do not
   * @param doubled how far apart two takes of it stand; 0 = one take
   */
  public record Placement(
      String part, PartRole role, Span span, double pan, double sway, double doubled) {}

  /**
   * Copies at a fixed distance.
   *
   * @param thrown whether only chosen notes of the part are sent into it
   */
  public record Echo(
      String part,
      Span span,
      double lagBeats,
      double lagSeconds,
      double fallDecibels,
      boolean thrown) {}

  /**
   * One planted technique.
   *
   * @param firstBar of the song, from 1
   * @param lastBar inclusive
   * @param remark what to hear
   */
  public record Planted(
      String techniqueId, String section, Span span, int firstBar, int lastBar, String remark) {}

  /** Distinct ids, in alphabetical order. */
  public List<String> techniqueIds() {
    return planted.stream().map(Planted::techniqueId).distinct().sorted().toList();
  }
}
